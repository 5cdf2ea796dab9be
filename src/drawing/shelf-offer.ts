/**
 * Shelf blanks offered up to the wall, one under the other as they hang: each in plan, its back edge straight, the wall
 * drawn out from it by a factor so that what comes off can be seen. Units px.
 */

import type { ShelfEdge } from '../marking/uncovered-room.ts';
import { sayRoughly } from '../recess/lengths.ts';
import { drawnFactor, type Px, pastShapes, through } from './drawn-out.ts';
import type { Rectangle } from './fit-playback.ts';

export interface ShelfOffer {
  readonly width: number;
  readonly height: number;
  /** How many times larger the stock is drawn than the blank. */
  readonly factor: number;
  /** From the highest shelf down. */
  readonly shelves: readonly {
    readonly name: string;
    readonly blank: Rectangle;
    readonly wall: string;
    /** What comes off: between the wall and the blank's back edge. */
    readonly stock: readonly string[];
    /** Where the blank does not reach the wall. */
    readonly gaps: readonly string[];
  }[];
}

const namePx = 112;
const rowPx = 46;
const shelfPx = 26;

/**
 * Lays the blanks out in a panel.
 *
 * @param depthMm - the depth of every blank
 */
export function layoutShelfOffer(edges: readonly ShelfEdge[], depthMm: number, widthPx: number): ShelfOffer {
  const stockOf = (edge: ShelfEdge) => edge.acrossMm.map((y) => depthMm - y);
  const stocks = edges.flatMap(stockOf);
  const lengthMm = Math.max(...edges.map((e) => 2 * Math.max(...e.alongMm)));
  const scale = (widthPx - namePx - 4) / lengthMm;
  const [most, gap] = [Math.max(...stocks), 0 - Math.min(...stocks)];
  const factor = drawnFactor((f) => most * f * scale <= shelfPx - 6 && gap * f * scale <= rowPx - shelfPx - 6);
  const down = [...edges].sort((a, b) => b.upMm - a.upMm);
  const shelves = down.map((edge, row) => {
    const blank = { x: namePx, y: rowPx * (row + 1) - shelfPx - 2, width: lengthMm * scale, height: shelfPx };
    const stock = stockOf(edge);
    const back = edge.alongMm.map((x): Px => [namePx + (x + lengthMm / 2) * scale, blank.y]);
    const wall = back.map(([x, y], i): Px => [x, y + (stock[i] ?? 0) * factor * scale]);
    return {
      name: `${sayRoughly(edge.upMm)} up`,
      blank,
      wall: through(wall),
      stock: pastShapes(wall, back, (i) => stock[i] ?? 0),
      gaps: pastShapes(wall, back, (i) => 0 - (stock[i] ?? 0)),
    };
  });
  return { width: widthPx, height: rowPx * edges.length + 4, factor, shelves };
}
