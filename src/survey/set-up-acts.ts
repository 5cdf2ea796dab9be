/**
 * Setting up: standing the level, touching it, aiming it, and marking where its lines fall.
 */
import { bell, bellToUnitDeviation, type Purpose, purpose } from '../chance/keyed-draws.ts';
import { outlineOf, planOutline } from '../exercise/outline.ts';
import { type Point, signedDistance } from '../geometry/plane.ts';
import { contains } from '../geometry/polygon.ts';
import { type ActOf, type DatumKind, datumName, datumParts, type Target } from './act.ts';
import { directionToRoom, toRoom } from './hand-frame.ts';
import { levelsItself } from './knock.ts';
import { aimLevel, lineWidth, planeOf, type Standing, turnLevel } from './level.ts';
import { type LevelBody, trueBody } from './level-body.ts';
import { type Outcome, refused, type Seen } from './outcome.ts';
import { type Found, findPlace, foundAt } from './place.ts';
import { tenth } from './rule.ts';
import { blockedIn, directionBetween, stepped } from './sight.ts';
import { finderOf, levelInHand, type Mark, type Survey, throwing } from './survey.ts';
import { referenceAt, type World } from './world.ts';

const whyAim = purpose('survey/aim');
const whyMark = purpose('survey/mark');
const whyDot = purpose('survey/dot');

/** How far off the middle of a line the eye leaves it on a target, and the pencil a mark: standard deviations, typical. */
const aimDeviationMm = 0.2;
const pencilDeviationMm = 0.2;
/** How far off a mark the hand leaves the plumb dot, along each axis, and how near a mark must be: typical. */
const dotDeviationMm = 0.3;
const overWithinMm = 100;

/** Where along the opening's width the reference is looked at. */
const referenceShares = [-0.45, -0.3, -0.15, 0, 0.15, 0.3, 0.45] as const;

const facings = {
  recess: { x: 0, y: 1 },
  room: { x: 0, y: -1 },
  left: { x: -1, y: 0 },
  right: { x: 1, y: 0 },
} as const;

export function standOutcome(survey: Survey, act: ActOf<'stand'>): Outcome {
  if ((act.level ?? 1) > survey.world.exercise.kit.level.count) return refused('kit/none');
  const outline = outlineOf(survey.world.exercise);
  if (!contains(planOutline(outline), { x: act.xMm, y: act.yMm })) return refused('stand/not-there');
  if (!heightAllowed(survey.world, act.heightMm)) return refused('stand/height');
  if (act.over === undefined) return { ok: true, setUp: survey.setUps + 1 };
  if (!markUnder(survey, act)) return refused('stand/not-over');
  const slip = (i: number) => slipOf(survey, { why: whyDot, index: 2 * survey.entries.length + i, mm: dotDeviationMm });
  return { ok: true, setUp: survey.setUps + 1, handUm: [slip(0), slip(1)] };
}

/** Gives the level as an accepted stand leaves it: not yet settled. */
export function stoodAt(
  survey: Survey,
  act: ActOf<'stand'>,
  done: { setUp: number; handUm: readonly number[] },
): Standing {
  const { hand } = survey.world;
  const at = toRoom(hand, { x: act.xMm, y: act.yMm, z: act.heightMm });
  const mark = markUnder(survey, act);
  const level = act.level ?? 1;
  return {
    setUp: done.setUp,
    level,
    body: bodyInUse(survey, level),
    at: mark
      ? { x: mark.point.x + (done.handUm[0] ?? 0) / 1000, y: mark.point.y + (done.handUm[1] ?? 0) / 1000, z: at.z }
      : at,
    facing: directionToRoom(hand, facings[act.facing ?? 'recess']),
    settled: false,
    lean: 0,
    packed: act.packed ?? false,
  };
}

/** Gives the body of a level by its number: the one from the van where it was swapped. */
export function bodyInUse(survey: Survey, level: number): LevelBody {
  const { bodies, exercise } = survey.world;
  const index = survey.swapped.includes(level) ? exercise.kit.level.count : level - 1;
  return bodies[index] ?? trueBody;
}

export function levelOutcome(survey: Survey, act: ActOf<'move' | 'turn' | 'raise' | 'settle'>): Outcome {
  const standing = levelInHand(survey, act.level);
  if (!standing) return refused('level/none');
  const { hand } = survey.world;
  if (act.act === 'move') {
    const d = directionToRoom(hand, { x: act.byXMm, y: act.byYMm });
    const moved = { x: standing.at.x + d.x, y: standing.at.y + d.y };
    if (!contains(planOutline(outlineOf(survey.world.exercise)), moved)) return refused('stand/not-there');
    return { ok: true };
  }
  if (act.act === 'raise')
    return heightAllowed(survey.world, standing.at.z + act.byMm) ? { ok: true } : refused('stand/height');
  if (act.act === 'settle') {
    if (!levelsItself(survey.world, standing)) return refused('level/out-of-range');
    return { ok: true, seen: seenBy(survey, { ...standing, settled: true }) };
  }
  if (!standing.settled) return { ok: true };
  const turned = turnLevel(standing, { slope: act.byMmPerM / 1000, quarters: act.quarters ?? 0 });
  return { ok: true, seen: seenBy(survey, turned) };
}

export function aimOutcome(survey: Survey, act: ActOf<'aim'>): Outcome {
  const standing = levelInHand(survey, act.level);
  if (!standing) return refused('level/none');
  if (!standing.settled) return refused('level/not-settled');
  const at = targetPoint(survey, act.at);
  if (!at) return refused('place/no-such-mark');
  const by = sightTo(survey, standing.at, at);
  if (by) return refused('aim/not-seen', by);
  const handUm = slipOf(survey, { why: whyAim, index: survey.entries.length, mm: aimDeviationMm });
  const aimed = aimLevel(standing, act.plane, { at, missMm: handUm / 1000 });
  if (!aimed) return refused('aim/too-near');
  return { ok: true, handUm: [handUm], seen: seenBy(survey, aimed) };
}

export function markOutcome(survey: Survey, act: ActOf<'mark'>): Outcome {
  const standing = ('surface' in act.place ? throwing(survey, act.place.along ?? '') : null) ?? survey.standing;
  if (!standing) return refused('level/none');
  if (!standing.settled) return refused('level/not-settled');
  const slip = (i: number) =>
    slipOf(survey, { why: whyMark, index: 2 * survey.entries.length + i, mm: pencilDeviationMm });
  const handUm = [slip(0), slip(1)];
  const made = markedAt(survey, act, handUm);
  if (!made.ok) return refused(made.code);
  const by = sightTo(survey, standing.at, made.value.point);
  if (by) return refused('sight/blocked', by);
  const on = made.value.on?.name ?? made.value.side;
  return { ok: true, mark: survey.marksMade + 1, on, handUm };
}

/** Gives the mark that an act would make, the hand's slips along the surface's two axes put on. */
export function markedAt(survey: Survey, act: ActOf<'mark'>, handUm: readonly number[]): Found<Omit<Mark, 'mark'>> {
  if (!('surface' in act.place) || act.place.along === undefined) return { ok: false, code: 'mark/needs-line' };
  const finder = { ...finderOf(survey), floorRunsOn: true };
  const found = findPlace(finder, act.place);
  if (!found.ok) return found;
  const { side, u, v, bay } = found.value;
  const slipped = { side, bay, u: u + (handUm[0] ?? 0) / 1000, v: v + (handUm[1] ?? 0) / 1000 };
  const { point, on } = foundAt(survey.world, finder.trims, slipped);
  const where = bay === undefined ? { side } : { side, bay };
  return { ok: true, value: { datum: act.place.along, ...where, on, point, meant: found.value.point } };
}

/** Gives where a target truly is; null when there is no such mark. */
export function targetPoint(survey: Survey, target: Target): Point | null {
  if ('mark' in target) return survey.marks.find((m) => m.mark === target.mark)?.point ?? null;
  const x = toRoom(survey.world.hand, { x: target.referenceXMm, y: 0, z: 0 }).x;
  return onFloor(survey.world, referenceAt(survey.world, x));
}

/** A joint is looked at where it lies on the floor. */
function onFloor(world: World, at: Point): Point {
  const { kind, heightMm } = world.exercise.spec.reference;
  if (kind !== 'floor-joint' && kind !== 'tile-joint') return at;
  return { ...at, z: foundAt(world, [], { side: 'floor', u: at.x, v: at.y }).point.z + heightMm };
}

/** Names what stands between the level and a point on a surface; null when it is seen. */
export function sightTo(survey: Survey, from: Point, to: Point): string | null {
  const back = directionBetween(to, from);
  return blockedIn(survey.world, finderOf(survey).trims, { from, to: stepped(to, back, 1) });
}

/** Gives what a settled level's lines are seen to do at each mark and along the reference. */
function seenBy(survey: Survey, standing: Standing): readonly Seen[] {
  const { bays } = survey.world;
  // A pair's reference is looked at over both openings, by the same shares of each.
  const places = bays.flatMap((bay) =>
    referenceShares.map((share) => bay.atXMm + share * bay.exercise.brief.openingMm.width),
  );
  const reference = places.map((x) => {
    const referenceXMm = Math.round(x);
    return { at: { referenceXMm }, kind: 'F' as const };
  });
  const marks = survey.marks.map((m) => ({ at: { mark: m.mark }, kind: datumParts(m.datum).kind }));
  const looks = [...marks, ...reference];
  return looks.flatMap((look) => {
    const point = targetPoint(survey, look.at);
    if (!point || sightTo(survey, standing.at, point)) return [];
    return [seenAt(survey.world, standing, { ...look, point })];
  });
}

function seenAt(world: World, standing: Standing, look: { at: Seen['at']; kind: DatumKind; point: Point }): Seen {
  // The line lies behind, right of or above the point when the point lies in front, left of or below it.
  const off = 0 - signedDistance(planeOf(standing, look.kind), look.point);
  const dx = look.point.x - standing.at.x;
  const dy = look.point.y - standing.at.y;
  const dz = look.point.z - standing.at.z;
  const width = lineWidth(world.exercise.kit, Math.sqrt(dx * dx + dy * dy + dz * dz));
  const seen = { datum: datumName(look.kind, standing.setUp), at: look.at, offWidths: tenth(off / width) };
  return world.exercise.aids.seenInMm ? { ...seen, offMm: tenth(off) } : seen;
}

function heightAllowed(world: World, mm: number): boolean {
  return mm >= 50 && mm <= world.exercise.brief.openingMm.height - 50;
}

/** The floor's mark that the plumb dot is to be put on; null when there is none near. */
function markUnder(survey: Survey, act: ActOf<'stand'>): Mark | null {
  const mark = survey.marks.find((m) => m.mark === act.over && m.side === 'floor');
  if (!mark) return null;
  const { x, y } = toRoom(survey.world.hand, { x: act.xMm, y: act.yMm, z: 0 });
  return Math.abs(mark.point.x - x) <= overWithinMm && Math.abs(mark.point.y - y) <= overWithinMm ? mark : null;
}

/** A slip of the hand in thousandths of a millimetre; none where the kit is without errors. */
function slipOf(survey: Survey, draw: { why: Purpose; index: number; mm: number }): number {
  if (!survey.world.exercise.kit.rule.errors) return 0;
  return 0 + Math.round(bell(survey.world.key, draw.why, draw.index) * draw.mm * bellToUnitDeviation * 1000);
}
