/**
 * How the lines would have stood, had a cause been away: the history gone through again with that cause taken out, and
 * every level lined up on its targets as well as it was.
 */
import { bestLine } from '../geometry/best-line.ts';
import { type Plane, type Point, signedDistance, turnedBySlope } from '../geometry/plane.ts';
import { type DatumKind, datumName, datumParts } from '../survey/act.ts';
import { type Pose, planeOf, type Standing } from '../survey/level.ts';
import { planeThrough } from '../survey/pencil-line.ts';
import type { World } from '../survey/world.ts';
import { alongPlane, type Guide, type HistoryEvent, type Target, tellsDirectionMm } from './set-up-history.ts';

export const setUpCauses = ['line-up', 'baseline', 'squareness', 'faults', 'marks', 'knock'] as const;
export type SetUpCause = (typeof setUpCauses)[number];

/** Causes that are taken away. */
export type Without = ReadonlySet<SetUpCause>;

/** A plane as it would have stood when it was read from, and what its line-up's own misses grow to at a point, mm. */
export interface Stood {
  readonly plane: Plane;
  /** What the misses come to at a point beyond what they are at the targets: what a short baseline costs there. */
  grownAt(p: Point): number;
}

export interface StoodLines {
  /** By a reading's act. */
  readonly readings: ReadonlyMap<number, Stood>;
  /** As last set up. */
  readonly planes: Readonly<Record<string, Plane>>;
}

/** A set-up under way. */
interface Track {
  readonly pose: Pose;
  /** The same, without its own line-up's misses and its marks' slips. */
  readonly clean: Pose;
  readonly guide: Guide | null;
  /** Of a level that was knocked: as it stood before. */
  readonly still?: Pick<Track, 'pose' | 'clean'>;
}

type MarkPoints = Map<number, { readonly point: Point; readonly meant: Point; readonly side: string }>;

interface Replay {
  readonly world: World;
  readonly without: Without;
  readonly marks: MarkPoints;
  readonly tracks: Map<number, Track>;
  /** Where each set-up's lines would have crossed for its first reading. */
  readonly anchors: Map<number, Point>;
}

/** Goes through a history without some causes; with none taken away, as it was. */
export function stoodWithout(world: World, history: readonly HistoryEvent[], without: Without): StoodLines {
  const replay: Replay = { world, without, marks: new Map(), tracks: new Map(), anchors: new Map() };
  const readings = new Map<number, Stood>();
  const planes: Record<string, Plane> = {};
  for (const event of history) {
    if (event.what === 'touch') {
      const track = touched(replay, event);
      replay.tracks.set(event.standing.setUp, track);
      for (const kind of ['F', 'S', 'L'] as const)
        planes[datumName(kind, event.standing.setUp)] = planeOf(track.pose, kind);
    } else if (event.what === 'knock') knock(replay, event.setUp);
    else if (event.what === 'mark') mark(replay, event);
    else {
      const { setUp } = datumParts(event.datum);
      const track = replay.tracks.get(setUp);
      if (track && !replay.anchors.has(setUp)) replay.anchors.set(setUp, track.pose.at);
      const stood = stoodAt(replay, event.datum);
      if (stood) readings.set(event.n, stood);
      if (stood && datumParts(event.datum).drawn) planes[event.datum] = stood.plane;
    }
  }
  return { readings, planes };
}

function touched(replay: Replay, event: Extract<HistoryEvent, { what: 'touch' }>): Track {
  const { standing, guide, beforeKnock } = event;
  const before = replay.tracks.get(standing.setUp);
  if (beforeKnock && before) return replay.without.has('knock') ? before : broughtBack(before, beforeKnock, standing);
  const anchor = replay.anchors.get(standing.setUp) ?? event.anchor;
  const body = bodyWithout(standing, replay.without);
  const start: Pose = { body, at: standing.at, facing: standing.facing };
  const lineUpAway = replay.without.has('line-up');
  const cleanly = linedUp(replay, start, { guide, clean: true });
  const pose = lineUpAway
    ? ideal(replay, { pose: linedUp(replay, start, { guide, clean: false }), guide, anchor })
    : null;
  return { guide, pose: pose ?? linedUp(replay, start, { guide, clean: false }), clean: cleanly };
}

/**
 * A level that was touched after a knock: it stands as far from where it stood before that as it truly did. What the knock
 * did and what bringing the level back left are of one cause.
 */
function broughtBack(track: Track, from: Standing, to: Standing): Track {
  // How far it was moved, ahead and to the right as it faced, and how it was turned.
  const [dx, dy] = [to.at.x - from.at.x, to.at.y - from.at.y];
  const ahead = dx * from.facing.x + dy * from.facing.y;
  const right = dx * from.facing.y - dy * from.facing.x;
  const cos = from.facing.x * to.facing.x + from.facing.y * to.facing.y;
  const sin = from.facing.x * to.facing.y - from.facing.y * to.facing.x;
  const by = (still: Pose): Pose => ({
    ...still,
    at: {
      x: still.at.x + ahead * still.facing.x + right * still.facing.y,
      y: still.at.y + ahead * still.facing.y - right * still.facing.x,
      z: still.at.z + to.at.z - from.at.z,
    },
    facing: { x: cos * still.facing.x - sin * still.facing.y, y: sin * still.facing.x + cos * still.facing.y },
  });
  const still = track.still ?? track;
  return { guide: track.guide, pose: by(still.pose), clean: by(still.clean), still };
}

function bodyWithout({ body }: Standing, without: Without): Pose['body'] {
  if (!body.faults) return body;
  const square = without.has('squareness') ? 0 : body.faults.square;
  if (without.has('faults')) return { ...body, faults: { levelFore: 0, levelSide: 0, plumbF: 0, plumbS: 0, square } };
  return { ...body, faults: { ...body.faults, square } };
}

/** Where a target lies and by how much the line is to miss it, under what is away. */
function wanted(replay: Replay, t: Target, clean: boolean): { at: Point; missMm: number } {
  const away = replay.without.has('line-up') || clean;
  if (t.mark === null) {
    const setBack = replay.world.exercise.brief.setBackMm ?? 0;
    return away ? { at: { ...t.at, y: 0 - setBack }, missMm: 0 } : { at: t.at, missMm: t.missMm };
  }
  const mark = replay.marks.get(t.mark);
  const at = (clean ? mark?.meant : mark?.point) ?? t.at;
  return { at: t.dot ? { ...at, z: t.at.z } : at, missMm: away ? 0 : t.missMm };
}

/** Turns and moves a level in plan until its line misses its targets as wanted. */
function linedUp(replay: Replay, start: Pose, of: { guide: Guide | null; clean: boolean }): Pose {
  const { guide } = of;
  if (!guide) return start;
  const targets = guide.targets.map((t) => wanted(replay, t, of.clean));
  let pose = start;
  for (let round = 0; round < 6; round++) {
    const plane = planeOf(pose, guide.kind);
    const offs = targets.map((t) => ({
      along: alongPlane(plane, pose.at, t.at),
      off: signedDistance(plane, t.at) - t.missMm,
    }));
    const { turn, shift } = straightened(offs);
    const n = { x: plane.nx, y: plane.ny };
    pose = {
      ...pose,
      at: { ...pose.at, x: pose.at.x + n.x * shift, y: pose.at.y + n.y * shift },
      facing: turnedBySlope(pose.facing, turn),
    };
  }
  return pose;
}

/** The turn and the shift that bring a line to what it is off by at places along it: least squares. */
function straightened(offs: readonly { along: number; off: number }[]): { turn: number; shift: number } {
  const mean = (of: (o: { along: number; off: number }) => number) =>
    offs.reduce((sum, o) => sum + of(o), 0) / offs.length;
  const [along, off] = [mean((o) => o.along), mean((o) => o.off)];
  const spread = Math.max(...offs.map((o) => o.along)) - Math.min(...offs.map((o) => o.along));
  if (spread < tellsDirectionMm) {
    // One place tells no direction: a level that stands still is turned towards it, one right over it is moved.
    return Math.abs(along) > tellsDirectionMm / 2 ? { turn: (0 - off) / along, shift: 0 } : { turn: 0, shift: off };
  }
  const line = bestLine(offs.map((o) => ({ x: o.along, y: o.off })));
  // A turn by t adds t for each millimetre along, a shift takes itself away.
  return line ? { turn: 0 - line.slope, shift: line.at0 } : { turn: 0, shift: off };
}

/** A level that was lined up without a miss: true where it followed nothing, and where it stood for its first reading. */
function ideal(replay: Replay, of: { pose: Pose; guide: Guide | null; anchor: Point }): Pose {
  const { pose, guide, anchor } = of;
  const facing = guide ? pose.facing : nearestTrue(pose.facing);
  const plane = planeOf({ ...pose, facing }, guide?.kind ?? 'F');
  const back = alongPlane(plane, pose.at, anchor);
  const setBack = replay.world.exercise.brief.setBackMm ?? 0;
  const length = Math.sqrt(plane.nx * plane.nx + plane.ny * plane.ny);
  const along = back / (length * length);
  const at = { x: pose.at.x - plane.ny * along, y: pose.at.y + plane.nx * along, z: anchor.z };
  const nearFace = !guide && Math.abs(at.y + setBack) <= nearFaceMm;
  return { ...pose, facing, at: guide ? at : { x: anchor.x, y: nearFace ? 0 - setBack : anchor.y, z: anchor.z } };
}

/** How near the face line a level stands that was meant for it, mm. */
const nearFaceMm = 20;

function nearestTrue(facing: Pose['facing']): Pose['facing'] {
  if (Math.abs(facing.y) >= Math.abs(facing.x)) return { x: 0, y: facing.y > 0 ? 1 : -1 };
  return { x: facing.x > 0 ? 1 : -1, y: 0 };
}

function knock(replay: Replay, setUp: number): void {
  const track = replay.tracks.get(setUp);
  const { knock: struck } = replay.world;
  if (!track || !struck || replay.without.has('knock')) return;
  const by = (pose: Pose): Pose => ({
    ...pose,
    at: { x: pose.at.x + struck.by.x, y: pose.at.y + struck.by.y, z: pose.at.z + struck.by.z },
    facing: turnedBySlope(pose.facing, struck.turn),
  });
  replay.tracks.set(setUp, { ...track, pose: by(track.pose), clean: by(track.clean), still: track.still ?? track });
}

/** A mark goes with the line that it was made from; its slip goes with it. */
function mark(replay: Replay, event: Extract<HistoryEvent, { what: 'mark' }>): void {
  const track = replay.tracks.get(event.setUp);
  const { point, meant, mark: number, side } = event.mark;
  if (!track) return;
  const plane = planeOf(track.pose, event.kind);
  const off = signedDistance(plane, meant);
  const there = { x: meant.x - plane.nx * off, y: meant.y - plane.ny * off, z: meant.z - plane.nz * off };
  const slip = replay.without.has('marks') ? 0 : 1;
  const slipped = {
    x: there.x + slip * (point.x - meant.x),
    y: there.y + slip * (point.y - meant.y),
    z: there.z + slip * (point.z - meant.z),
  };
  replay.marks.set(number, { point: slipped, meant: there, side });
}

function stoodAt(replay: Replay, datum: string): Stood | null {
  const { kind, setUp, drawn } = datumParts(datum);
  if (drawn) {
    const [a, b] = [replay.marks.get(drawn[0]), replay.marks.get(drawn[1])];
    const plane = a && b ? planeThrough(kind, a.point, b.point) : null;
    return plane && { plane, grownAt: () => 0 };
  }
  const track = replay.tracks.get(setUp);
  if (!track) return null;
  const plane = planeOf(track.pose, kind);
  return { plane, grownAt: grown(replay, track, kind) };
}

/**
 * What the misses of a line-up grow to beyond its targets. Along the line that was lined up they are held as they are at
 * the last target; along the line square to it they are those of a lever as long as the targets are apart.
 */
function grown(replay: Replay, track: Track, kind: DatumKind): (p: Point) => number {
  const { guide } = track;
  if (!guide || kind === 'L') return () => 0;
  const plane = planeOf(track.pose, kind);
  const clean = planeOf(track.clean, kind);
  const own = planeOf(track.pose, guide.kind);
  const targets = guide.targets.map((t) => alongPlane(own, track.pose.at, wanted(replay, t, false).at));
  // A level that stands still and is turned towards one target is held by its own axis as well.
  const held = targets.length === 1 ? [...targets, 0] : targets;
  const [from, to] = [Math.min(...held), Math.max(...held)];
  const reach = kind === guide.kind ? ([from, to] as const) : ([from - to, to - from] as const);
  const miss = (p: Point) => signedDistance(plane, p) - signedDistance(clean, p);
  return (p) => {
    const along = alongPlane(plane, track.pose.at, p);
    const short = Math.min(Math.max(along, reach[0]), reach[1]) - along;
    if (short === 0) return 0;
    const near = { x: p.x - plane.ny * short, y: p.y + plane.nx * short, z: p.z };
    return miss(p) - miss(near);
  };
}
