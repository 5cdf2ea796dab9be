/**
 * What can be read in a run, and at which stops: made from the outline, the brief and what stands on the walls.
 */
import { goesThrough, isInWall, isThere, slopeMeets, topAt } from '../../drawing/outline-shape.ts';
import type { Outline } from '../../exercise/outline.ts';
import { asChosen } from '../../recess/lengths.ts';
import { type Side, sides } from '../../recess/recess-spec.ts';
import { sayTo } from '../../recess/side-words.ts';
import type { BandEdge, DatumKind, SurfacePlace } from '../../survey/act.ts';
import type { LearnerView } from '../../survey/learner-view.ts';

/** A row or column of a run: a name for the eye and where it is; `F` lies along the face line. */
export interface Stop {
  readonly name: string;
  readonly at: number | 'F';
}

/** A box on the wall whose edges are read. */
interface Box {
  readonly name: string;
  readonly surface: Side;
  readonly uMm: number;
  readonly vMm: number;
}

export interface RunKind {
  /** Its surface, or for edges of boxes the datum too. */
  readonly key: string;
  readonly surface: Side;
  readonly kind: DatumKind;
  readonly says: string;
  /** Boxes that the back is cut for: the rule goes from their edges. */
  readonly boxes?: readonly Box[];
}

export interface Stops {
  readonly rows: readonly Stop[];
  readonly columns: readonly Stop[];
}

type Seen = Pick<LearnerView, 'outline' | 'brief' | 'trims'>;

const datums: Readonly<Record<Side, DatumKind>> = {
  left: 'S',
  right: 'S',
  back: 'F',
  floor: 'L',
  ceiling: 'L',
  slope: 'L',
};

/** Gives what can be read in a run, in the order of the job: the sides that are there, then boxes to be cut for. */
export function runKindsOf(view: Seen): readonly RunKind[] {
  const { outline } = view;
  const surfaces = sides
    .filter((side) => isThere(outline, side))
    .map((surface): RunKind => {
      const kind = datums[surface];
      return { key: surface, surface, kind, says: `${kind} ${sayTo(outline, surface)}` };
    });
  const boxes = boxesOf(view);
  const surface = boxes[0]?.surface;
  if (!surface) return surfaces;
  return [
    ...surfaces,
    { key: 'boxes-S', surface, kind: 'S', says: 'S to boxes, side and side', boxes },
    { key: 'boxes-L', surface, kind: 'L', says: 'L to boxes, top and bottom', boxes },
  ];
}

/**
 * Gives the stops that a brief suggests: knee, middle, head under a cornice; front and back; over a wide opening five along.
 * With a rule in inches they lie at half inches.
 */
export function suggestedStops(view: Seen, kind: RunKind): Stops {
  const { rows, columns } = stopsOf(view, kind);
  const chosen = (stop: Stop): Stop => (kind.boxes || stop.at === 'F' ? stop : { ...stop, at: asChosen(stop.at) });
  return { rows: rows.map(chosen), columns: columns.map(chosen) };
}

function stopsOf(view: Seen, kind: RunKind): Stops {
  if (kind.boxes)
    return {
      rows: kind.boxes.map((box, i) => ({ name: box.name, at: i })),
      columns: edgesOf(kind.kind).map((name, i) => ({ name, at: i })),
    };
  const { surface } = kind;
  if (surface === 'left' || surface === 'right') {
    const end = (surface === 'left' ? -1 : 1) * (view.outline.openingMm.width / 2);
    return { rows: heightsOf(view, topAt(view.outline, end)), columns: depthsOf(view) };
  }
  if (surface === 'back') return { rows: heightsOf(view, view.outline.openingMm.height), columns: acrossBack(view) };
  return { rows: depthsOf(view), columns: acrossFlat(view.outline, surface) };
}

/** Gives the place at a row and a column. */
export function placeAt(kind: RunKind, row: Stop['at'], column: Stop['at']): SurfacePlace {
  const { surface, boxes } = kind;
  if (boxes) {
    const box = boxes[row as number] as Box;
    const edge = edgesOf(kind.kind)[column as number] as BandEdge;
    return { surface, xMm: box.uMm, zMm: box.vMm, edge };
  }
  if (surface === 'left' || surface === 'right')
    return column === 'F' ? { surface, along: 'F', zMm: row as number } : { surface, yMm: column, zMm: row as number };
  if (surface === 'back') return { surface, xMm: column as number, zMm: row as number };
  return row === 'F' ? { surface, along: 'F', xMm: column as number } : { surface, xMm: column as number, yMm: row };
}

/** Whether a place of a run lies within what the eye sees: not over the slope. */
export function isWithin(outline: Outline, place: SurfacePlace): boolean {
  if (place.surface !== 'back' || place.edge !== undefined) return true;
  return (place.zMm ?? 0) <= topAt(outline, place.xMm ?? 0) - 20;
}

function edgesOf(kind: DatumKind): readonly BandEdge[] {
  return kind === 'S' ? ['left', 'right'] : ['top', 'bottom'];
}

/** Boxes that the brief has cut-outs for, where the eye sees them: to the nearest 10, or half inch. */
function boxesOf({ brief, trims }: Seen): readonly Box[] {
  const ten = ([from, to]: readonly [number, number]) => asChosen(10 * Math.round((from + to) / 20));
  return trims
    .filter((t) => brief.cutOuts?.includes(t.name))
    .map((t) => ({ name: t.name, surface: t.surface, uMm: ten(t.uMm), vMm: ten(t.vMm) }));
}

function heightsOf(view: Seen, highest: number): readonly Stop[] {
  const { brief, trims, outline } = view;
  if (brief.shelves)
    return brief.shelves.heightsMm
      .map((z, i) => ({ name: `shelf ${i + 1}`, at: Math.round(z + (brief.shelves?.thicknessMm ?? 0) / 2) }))
      .reverse();
  const hung = trims.filter((t) => t.surface === 'ceiling' && !t.cleared && t.fate !== 'off');
  const drop = Math.max(0, ...hung.flatMap((t) => t.profile.mm.map(([, mm]) => mm)));
  const top = Math.min(brief.plinthMm + brief.carcassMm.height.nominalMm, highest - drop - 10);
  const head = Math.floor((top - 40) / 50) * 50;
  if (head < 650) {
    const low = Math.max(60, Math.round(head / 3 / 10) * 10);
    return [
      { name: 'head', at: Math.max(head, low + 60) },
      { name: 'knee', at: low },
    ];
  }
  const knee = outline.openingMm.height < 1600 ? 150 : 300;
  const middle = highest < outline.openingMm.height ? (head + knee) / 2 : outline.openingMm.height / 2;
  return [
    { name: 'head', at: head },
    { name: 'middle', at: Math.round(middle / 50) * 50 },
    { name: 'knee', at: knee },
  ];
}

/** At the face line and at the back; jambs begin at the face of the wall, so there a little in. */
function depthsOf({ brief, outline }: Seen): readonly Stop[] {
  const { depth } = outline.openingMm;
  if (isInWall(outline))
    return [
      { name: 'front', at: 15 },
      { name: 'back', at: 5 * Math.round((depth - 20) / 5) },
    ];
  const back = Math.round((brief.carcassFrontMm + brief.carcassMm.depth.nominalMm) / 5) * 5;
  return [
    // A face line set back from the line that is thrown is reckoned from it.
    { name: 'front', at: brief.setBackMm ? 0 : 'F' },
    { name: 'back', at: Math.min(back, depth - 15) },
  ];
}

const threeAlong = ['left', 'middle', 'right'];
const fiveAlong = ['far left', 'left', 'middle', 'right', 'far right'];

/** Names places along, from left to right. */
function along(places: readonly number[]): readonly Stop[] {
  const names = places.length === 5 ? fiveAlong : places.length === 3 ? threeAlong : ['left', 'right'];
  return places.map((at, i) => ({ name: names[i] ?? `at ${at}`, at: 0 + at }));
}

function spread(from: number, to: number): readonly number[] {
  const wide = to - from;
  const shares = wide > 2000 ? [0.08, 0.29, 0.5, 0.71, 0.92] : [1 / 6, 0.5, 5 / 6];
  return shares.map((share) => Math.round((from + wide * share) / 10) * 10);
}

function acrossBack({ outline, brief }: Seen): readonly Stop[] {
  const half = outline.openingMm.width / 2;
  // A far face is reached beside the jambs alone.
  if (goesThrough(outline)) return along([50 - half, half - 50].map((x) => 5 * Math.round(x / 5)));
  const wide = brief.shelves ? brief.shelves.lengthMm / 2 : Math.min(half, brief.carcassMm.width.nominalMm / 2 + 60);
  return along(spread(0 - wide, wide));
}

/** Along the floor, or what of the ceiling is flat, or what of it slopes. */
function acrossFlat(outline: Outline, surface: Side): readonly Stop[] {
  const half = outline.openingMm.width / 2;
  const kink = slopeMeets(outline, outline.openingMm.height);
  if (surface === 'floor' || !outline.slope || kink === null) return along(spread(0 - half, half));
  const lowLeft = outline.slope.low === 'left';
  const flat = surface === 'ceiling' ? lowLeft : !lowLeft;
  return along(flat ? spread(kink, half) : spread(0 - half, kink));
}
