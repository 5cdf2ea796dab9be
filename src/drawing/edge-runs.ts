/**
 * Edges of a shape, some of which are there: those that follow each other are one line, so that corners join.
 */
import { type Item, line, type PaperPoint } from './item.ts';
import type { StrokeName } from './pens.ts';

export interface Edge {
  readonly is: boolean;
  readonly from: PaperPoint;
  readonly to: PaperPoint;
}

/** Draws the edges that are there of a closed round of edges. */
export function edgeRuns(stroke: StrokeName, edges: readonly Edge[]): Item[] {
  const first = edges.findIndex((e) => !e.is);
  if (first < 0) return [{ ...line(stroke, ...edges.map((e) => e.from)), closed: true }];
  const runs: PaperPoint[][] = [];
  let open: PaperPoint[] | null = null;
  for (const { is, from, to } of [...edges.slice(first), ...edges.slice(0, first)]) {
    if (!is) open = null;
    else if (open) open.push(to);
    else {
      open = [from, to];
      runs.push(open);
    }
  }
  return runs.map((points) => line(stroke, ...points));
}
