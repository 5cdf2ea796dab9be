/**
 * The causes that are planted, one in a survey, and what each must come to, in plain arithmetic from the true room.
 */
import { heightAt } from '../../../src/geometry/height-field.ts';
import type { Point } from '../../../src/geometry/plane.ts';
import type { Side } from '../../../src/recess/recess-spec.ts';
import type { Done } from '../../../src/survey/outcome.ts';
import type { Draws } from '../draws.ts';
import { anyPlace, apart, canRead, datumOf, type Ground, isBare, ruled, type Term, termAt } from './ground.ts';
import {
  bookAt,
  clearAll,
  farFrom,
  type Hand,
  readAt,
  type Stand,
  saidPlace,
  standSquare,
  takeHand,
  turnBy,
} from './hand.ts';
import {
  deepest,
  nearest,
  type OwnPlace,
  offsetAt,
  type PlainSize,
  pointAt,
  staying,
  takes,
  tightest,
} from './plain-room.ts';
import { type Expected, of, type Planted, readTerm, surveyed } from './survey.ts';

/** A cause. It gives null where the ground has no room for it. */
export interface Cause {
  readonly name: string;
  readonly says: string;
  /** Rooms of one structure only. */
  readonly structure?: string;
  plant(ground: Ground, draws: Draws): Planted | null;
}

export const causes: readonly Cause[] = [
  { name: 'front-only', says: 'the side walls read at the front alone', plant: plantFrontOnly },
  { name: 'turned', says: 'the datums turned by a known angle', plant: plantTurned },
  { name: 'rule', says: 'a rule with errors of zero, scale and joints', plant: plantRule },
  { name: 'slip', says: 'a slip of 10 in a booking that counts', plant: plantSlip },
  { name: 'invented', says: 'a booking with no reading behind it', plant: plantInvented },
  { name: 'wrong-rule', says: 'least sum for the sum of the least, the other end, the mean', plant: plantWrongRule },
  { name: 'taped', says: 'widths taped between walls that lean together', structure: 'same-lean', plant: plantTaped },
  { name: 'off-line', says: 'the face line so far in or out', plant: plantOffLine },
  { name: 'edges', says: 'the edges as logged stretched and shifted', plant: plantEdges },
  { name: 'moved', says: 'the level moved or raised between one side and the other', plant: plantMoved },
  { name: 'beside', says: 'tightest places held up to 18 mm beside what counts', plant: plantBeside },
  { name: 'beyond', says: 'a reading beyond what counts, booked for it', plant: plantBeyond },
  { name: 'trim', says: 'a trim read that comes off afterwards', plant: plantTrim },
  { name: 'not-carried', says: 'a side read from a second set-up, its step never carried', plant: plantNotCarried },
  { name: 'carried', says: 'the same, carried', plant: plantCarried },
  { name: 'step-slip', says: 'the same, carried with a slip of 10', plant: (g, d) => plantStepSlip(g, d, false) },
  { name: 'step-read', says: 'the same, a short step, read and written the other way', plant: plantStepRead },
  { name: 'allowance', says: 'an allowance that is said', plant: plantAllowance },
  { name: 'rounded', says: 'every booking rounded to the half millimetre', plant: plantRounded },
  { name: 'twice', says: 'one place booked twice, once with a slip of 4', plant: plantTwice },
  { name: 'undone', says: 'a slip struck through, and one in a closing check', plant: plantUndone },
  { name: 'as-it-stands', says: 'a size that is not to be found, changed', plant: plantChanged },
  { name: 'not-surveyed', says: 'a side with no reading at all', plant: plantNotSurveyed },
];

/** Surveys with nothing planted. */
export function plantNothing(ground: Ground, draws: Draws): Planted {
  return { survey: surveyed(ground, draws).survey, expected: {} };
}

const two = (size: PlainSize) => takes[size].sides.length === 2;

/** A hand as it stands before the readings, for trying what can be read. */
function readyHand(ground: Ground): Hand {
  const hand = takeHand(ground.exercise);
  clearAll(hand);
  standSquare(hand, ground.stand);
  return hand;
}

/** Expected of every size, those that come to nothing left out. */
function expectedOf(ground: Ground, lines: (size: PlainSize) => Expected[PlainSize]): Expected {
  return Object.fromEntries(ground.sizes.map((size) => [size, lines(size) ?? {}]));
}

/** The term that counts on a side, by a value of each. */
function countingOn(size: PlainSize, terms: readonly Term[], value: (t: Term) => number): readonly Term[] {
  const { sides, least } = takes[size];
  return sides.map((side) =>
    of(terms, size)
      .filter((t) => t.side === side)
      .reduce((best, t) => ((least ? value(t) < value(best) : value(t) > value(best)) ? t : best)),
  );
}

function plantFrontOnly(ground: Ground, draws: Draws): Planted | null {
  const size = 'carcass-width';
  if (!ground.sizes.includes(size)) return null;
  const hand = readyHand(ground);
  const front: Term[] = [];
  for (const side of takes[size].sides) {
    const patches = (ground.places[size][side] ?? []).map(({ u, v }) => ({
      u: [u[0], u[0] + 0.3 * (u[1] - u[0])] as const,
      v,
    }));
    const place = tightest(ground.room, { side, patches, bare: false, least: true });
    for (const at of [place, ...[0, 1, 2].map(() => anyPlace(draws, side, { [side]: patches }))])
      if (front.every((t) => apart(t, at)) && canRead(hand, size, at)) front.push(termAt(ground.room, size, at));
    if (!front.some((t) => t.side === side)) return null;
  }
  const lost = ruled(size, front, (t) => t.offset) - ruled(size, of(ground.terms, size), (t) => t.offset);
  const terms = [...ground.terms.filter((t) => t.size !== size), ...front];
  return { survey: surveyed(ground, draws, { terms }).survey, expected: { [size]: { coverage: lost } } };
}

/** What the datums as set up do to each size, over the places that are read. */
function setUpLines(ground: Ground, stand: Stand): Expected {
  return expectedOf(ground, (size) => {
    const terms = of(ground.terms, size);
    const asSetUp = ruled(size, terms, (t) => farFrom(stand, datumOf(size), t.point));
    return { 'set-up': asSetUp - ruled(size, terms, (t) => t.offset) };
  });
}

function plantTurned(ground: Ground, draws: Draws): Planted {
  const slope = (draws.sign() * draws.between(1, 8)) / 1000;
  const { survey, stand } = surveyed(ground, draws, { setUp: (hand, square) => turnBy(hand, square, slope) });
  return { survey, expected: setUpLines(ground, stand) };
}

function plantOffLine(ground: Ground, draws: Draws): Planted | null {
  if (!ground.sizes.includes('carcass-depth')) return null;
  const by = draws.sign() * draws.between(2, 15);
  const { survey } = surveyed(ground, draws, { stand: { ...ground.stand, y: by } });
  return { survey, expected: { 'carcass-depth': { 'set-up': -by } } };
}

/** One side is read, the level is moved along or raised, and the other is read from the same datum's name. */
function plantMoved(ground: Ground, draws: Draws): Planted | null {
  const sizes = ground.sizes.filter(two);
  if (sizes.length === 0) return null;
  const size = draws.one(sizes);
  const [, last] = takes[size].sides;
  const by = draws.sign() * draws.between(2, 15);
  const later = (t: Term) => t.size === size && t.side === last;
  const { survey } = surveyed(ground, draws, {
    reads: (t) => !later(t),
    late: (hand, stand) => {
      const { x: c, y: s } = hand.world.hand.xAxis;
      const wide = datumOf(size) === 'S';
      // By so much along the room's x, in the hand's frame.
      hand.act(wide ? { act: 'move', byXMm: by * c, byYMm: -by * s } : { act: 'raise', byMm: by });
      hand.act({ act: 'settle' });
      const moved = wide ? { x: stand.at.x + by } : { z: stand.at.z + by };
      const there = { ...stand, at: { ...stand.at, ...moved } };
      for (const term of ground.terms.filter(later)) readTerm(hand, { term, stand: there, draws, way: {} });
    },
    proposed: (of, right) => (of === size ? right - by : right),
  });
  return { survey, expected: { [size]: { 'set-up': -by } } };
}

/** What a way of seeing does to each size. */
function ruleLines(ground: Ground, stand: Stand, seen: (mm: number) => number): Expected {
  return expectedOf(ground, (size) => {
    const terms = of(ground.terms, size);
    const far = (t: Term) => farFrom(stand, datumOf(size), t.point);
    return { rule: ruled(size, terms, (t) => seen(far(t))) - ruled(size, terms, far) };
  });
}

function plantRule(ground: Ground, draws: Draws): Planted {
  const joints = Array.from({ length: 9 }, () => draws.between(-0.3, 0.3));
  const rule = { zero: draws.between(-1, 1), scale: draws.between(-0.002, 0.002), joints };
  const seen = (mm: number) => {
    const passed = joints.filter((_, i) => mm > 200 * (i + 1));
    return mm + rule.zero + rule.scale * mm + passed.reduce((sum, joint) => sum + joint, 0);
  };
  const { survey, stand } = surveyed(ground, draws, { rule, seen });
  return { survey, expected: ruleLines(ground, stand, seen) };
}

function plantEdges(ground: Ground, draws: Draws): Planted {
  const [zero, scale] = [draws.between(-3, 3), 1 + draws.between(-0.004, 0.004)];
  const seen = (mm: number) => zero + scale * mm;
  const change = (outcome: Done): Done => {
    const [low, high] = outcome.edgesMm as readonly [number, number];
    return { ...outcome, edgesMm: [seen(low), seen(high)] };
  };
  const { survey, stand } = surveyed(ground, draws, { seen, change });
  return { survey, expected: ruleLines(ground, stand, seen) };
}

/** What writing does to a size, and what of it is rounding: at most half a millimetre a term that counts. */
function bookingLine(ground: Ground, size: PlainSize, written: (t: Term, far: number) => number) {
  const stand: Stand = { at: ground.stand, facing: { x: 0, y: 1 } };
  const terms = of(ground.terms, size);
  const far = (t: Term) => farFrom(stand, datumOf(size), t.point);
  const counting = countingOn(size, terms, (t) => written(t, far(t)));
  const half = (mm: number) => Math.min(Math.max(mm, -0.5), 0.5);
  return {
    booking: ruled(size, terms, (t) => written(t, far(t))) - ruled(size, terms, far),
    rounding: counting.reduce((sum, t) => sum + half(written(t, far(t)) - far(t)), 0),
  };
}

function plantSlip(ground: Ground, draws: Draws): Planted {
  const size = draws.one(ground.sizes);
  const slipped = draws.one(countingOn(size, ground.terms, (t) => t.offset));
  const slip = draws.sign() * 10;
  const written = (t: Term, mm: number) => (t === slipped ? mm + slip : mm);
  return {
    survey: surveyed(ground, draws, { written }).survey,
    expected: { [size]: bookingLine(ground, size, written) },
  };
}

function plantRounded(ground: Ground, draws: Draws): Planted {
  const written = (_: Term, mm: number) => Math.round(mm * 2) / 2;
  return {
    survey: surveyed(ground, draws, { written }).survey,
    expected: expectedOf(ground, (size) => bookingLine(ground, size, written)),
  };
}

function plantTwice(ground: Ground, draws: Draws): Planted {
  const size = draws.one(ground.sizes);
  const again = draws.one(countingOn(size, ground.terms, (t) => t.offset));
  const slip = draws.sign() * 4;
  const mean = (t: Term, mm: number) => (t === again ? mm + slip / 2 : mm);
  const { survey } = surveyed(ground, draws, {
    late: (hand) => {
      const seen = readAt(hand, datumOf(size), again);
      const words = { for: [size], reading: seen.act };
      bookAt(hand, { datum: datumOf(size), place: seen.place, mm: seen.mm + slip, words });
    },
    proposed: (of, right) => (of === size ? right + bookingLine(ground, size, mean).booking : right),
  });
  return { survey, expected: { [size]: bookingLine(ground, size, mean) } };
}

/** A value that takes the place of a side's counting one by so much. */
function beating(ground: Ground, size: PlainSize, of_: { side: Side; by: number }): number {
  const stand: Stand = { at: ground.stand, facing: { x: 0, y: 1 } };
  const counting = countingOn(size, ground.terms, (t) => t.offset).find((t) => t.side === of_.side) as Term;
  return farFrom(stand, datumOf(size), counting.point) + (takes[size].least ? -of_.by : of_.by);
}

function plantInvented(ground: Ground, draws: Draws): Planted | null {
  const size = draws.one(ground.sizes);
  const side = draws.one(takes[size].sides);
  const place = placeApart(ground, draws, { side, size });
  if (!place) return null;
  const by = draws.between(1, 20);
  const line = takes[size].least ? -by : by;
  const { survey } = surveyed(ground, draws, {
    late: (hand) => {
      const mm = beating(ground, size, { side, by });
      bookAt(hand, { datum: datumOf(size), place: saidPlace(hand.world, place), mm, words: { for: [size] } });
    },
    proposed: (of, right) => (of === size ? right + line : right),
  });
  return { survey, expected: { [size]: { 'not-read': line } } };
}

/** A place that counts and that nothing was read at: anywhere, or just so far from a reading that it is another place. */
function placeApart(ground: Ground, draws: Draws, of_: { side: Side; size: PlainSize }): OwnPlace | null {
  const { side, size } = of_;
  const patches = ground.places[size];
  for (let i = 0; i < 30; i++) {
    const by = draws.one(ground.terms.filter((t) => t.side === side));
    const near = { side, u: by.u + draws.between(-40, 40), v: by.v + draws.between(-40, 40) };
    const place = i % 2 === 0 ? near : anyPlace(draws, side, patches);
    if (nearest(patches[side] ?? [], place).far === 0 && ground.terms.every((t) => apart(t, place))) return place;
  }
  return null;
}

function plantWrongRule(ground: Ground, draws: Draws): Planted | null {
  const kind = draws.one(['sums', 'other-end', 'mean'] as const);
  const size = draws.one(ground.sizes);
  if (kind === 'sums' && !two(size)) return null;
  const terms = kind === 'sums' ? withPairs(ground, size) : ground.terms;
  if (!terms) return null;
  const own = of(terms, size);
  const { sides, least } = takes[size];
  const on = (side: Side) => own.filter((t) => t.side === side).map((t) => t.offset);
  const wrong = {
    sums: () => {
      const sums = pairsOf(own, sides).map(([a, b]) => a.offset + b.offset);
      return least ? Math.min(...sums) : Math.max(...sums);
    },
    'other-end': () => sides.reduce((sum, side) => sum + (least ? Math.max(...on(side)) : Math.min(...on(side))), 0),
    mean: () => sides.reduce((sum, side) => sum + on(side).reduce((a, b) => a + b, 0) / on(side).length, 0),
  }[kind]();
  const right = ruled(size, own, (t) => t.offset);
  const { survey } = surveyed(ground, draws, { terms, proposed: (of, mm) => (of === size ? wrong : mm) });
  return { survey, expected: { [size]: { 'working-out': wrong - right } } };
}

/** The terms of a size each with its partner on the other side; null where a partner lies too near to another term. */
function withPairs(ground: Ground, size: PlainSize): readonly Term[] | null {
  const hand = readyHand(ground);
  const own = of(ground.terms, size);
  const partners: Term[] = [];
  for (const term of own) {
    const side = takes[size].sides.find((s) => s !== term.side) as Side;
    const at = { side, u: term.u, v: term.v };
    if (nearest(ground.places[size][side] ?? [], at).far > 0 || !canRead(hand, size, at)) continue;
    if ([...own, ...partners].some((t) => !apart(t, at))) return null;
    partners.push(termAt(ground.room, size, at));
  }
  return partners.length < 2 ? null : [...ground.terms, ...partners];
}

function pairsOf(terms: readonly Term[], sides: readonly Side[]): [Term, Term][] {
  return terms
    .filter((a) => a.side === sides[0])
    .flatMap((a): [Term, Term][] => {
      const b = terms.find((t) => t.side === sides[1] && t.u === a.u && t.v === a.v);
      return b ? [[a, b]] : [];
    });
}

function plantTaped(ground: Ground, draws: Draws): Planted | null {
  const size = 'carcass-width';
  if (!ground.sizes.includes(size)) return null;
  const own = countingOn(size, ground.terms, (t) => t.offset);
  const spans = own.map((t) => ({ from: t, length: spanLength(ground, t) }));
  const shortest = Math.min(...spans.map((s) => s.length));
  const plumb = ruled(size, own, (t) => t.offset);
  const { survey } = surveyed(ground, draws, {
    reads: (t) => t.size !== size,
    late: (hand) => {
      for (const { from, length } of spans) tape(hand, from, length);
    },
    proposed: (of, right) => (of === size ? shortest : right),
  });
  return { survey, expected: { [size]: { method: shortest - plumb } }, how: { [size]: 'spans' } };
}

function tape(hand: Hand, from: Term, length: number): void {
  const place = saidPlace(hand.world, from);
  const to = from.side === 'left' ? 'right' : 'left';
  const { tapeMm } = hand.act({ act: 'span', place, to });
  if (tapeMm === undefined || Math.abs(tapeMm - length) > 1e-5)
    throw new Error(`span from ${from.side}: ${tapeMm} on the tape, ${length} by plain arithmetic`);
  const reading = hand.survey().entries.length;
  hand.act({ act: 'book', what: 'span', valueMm: tapeMm, place, to, reading, for: ['carcass-width'] });
}

/** The length of a tape held square across the outline from a place to the other wall: by halving. */
function spanLength(ground: Ground, from: Term): number {
  const hand = takeHand(ground.exercise);
  const { x: c, y: s } = hand.world.hand.xAxis;
  const side = from.side === 'left' ? 'right' : 'left';
  const way = side === 'right' ? 1 : -1;
  const p = from.point;
  const at = (t: number) => ({ x: p.x + way * c * t, y: p.y + way * s * t });
  const short = (t: number) => {
    const here = at(t);
    return offsetAt(ground.room, { side, u: here.y, v: p.z }, true) - way * here.x;
  };
  let [low, high] = [0, 2000];
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (short(middle) > 0) low = middle;
    else high = middle;
  }
  const end = { side, u: at(low).y, v: p.z } as const;
  const q = pointAt(end, offsetAt(ground.room, end, false));
  return Math.sqrt((p.x - q.x) * (p.x - q.x) + (p.y - q.y) * (p.y - q.y) + (p.z - q.z) * (p.z - q.z));
}

/** A tightest place on the border of what counts, moved straight out of it: of those that can be, the one that tells most. */
function plantBeside(ground: Ground, draws: Draws): Planted | null {
  const hand = readyHand(ground);
  const ways = ground.sizes.flatMap((size) =>
    countingOn(size, ground.terms, (t) => t.offset).flatMap((term) => {
      const out = draws.between(12, 18);
      const steps = [
        [out, 0],
        [-out, 0],
        [0, out],
        [0, -out],
      ] as const;
      return steps.flatMap(([du, dv]) => movedOut(ground, hand, { term, du, dv }) ?? []);
    }),
  );
  const best = ways.sort((a, b) => Math.abs(b.line) - Math.abs(a.line))[0];
  if (!best) return null;
  const { survey } = surveyed(ground, draws, { terms: best.terms });
  return { survey, expected: { [best.size]: { 'set-up': best.line } } };
}

/** The terms with one moved out of the places that count; null where it cannot be read there or another place is nearer. */
function movedOut(ground: Ground, hand: Hand, by: { term: Term; du: number; dv: number }) {
  const { size, side, u, v } = by.term;
  const at = { side, u: u + by.du, v: v + by.dv };
  const near = nearest(ground.places[size][side] ?? [], at).at;
  const straight = Math.abs(near.u - u) < 1e-5 && Math.abs(near.v - v) < 1e-5;
  if (!straight || onTrim(ground, size, at) || !canReadIn(hand, size, at)) return null;
  const terms = ground.terms.map((t) => (t === by.term ? termAt(ground.room, size, at) : t));
  const line = ruled(size, of(terms, size), (t) => t.offset) - ruled(size, of(ground.terms, size), (t) => t.offset);
  return { size, terms, line };
}

/** A frame is scribed to bare walls: a rule that rests on a trim tells nothing for it. */
function onTrim(ground: Ground, size: PlainSize, at: OwnPlace): boolean {
  return isBare(size) && deepest(staying(ground.exercise, at.side), at) > 0;
}

function plantBeyond(ground: Ground, draws: Draws): Planted | null {
  const hand = readyHand(ground);
  const stand: Stand = { at: ground.stand, facing: { x: 0, y: 1 } };
  for (let i = 0; i < 60; i++) {
    const size = draws.one(ground.sizes);
    const side = draws.one(takes[size].sides);
    const inside = anyPlace(draws, side, ground.places[size]);
    const reach = i % 2 === 0 ? 45 : 200;
    const at = { side, u: inside.u + draws.between(-reach, reach), v: inside.v + draws.between(-reach, reach) };
    if (nearest(ground.places[size][side] ?? [], at).far < 21 || !canReadIn(hand, size, at)) continue;
    const beyond = termAt(ground.room, size, at);
    const mm = farFrom(stand, datumOf(size), beyond.point);
    const by = takes[size].least
      ? beating(ground, size, { side, by: 0 }) - mm
      : mm - beating(ground, size, { side, by: 0 });
    if (by < 0.02 || onTrim(ground, size, at)) continue;
    const line = takes[size].least ? -by : by;
    const { survey } = surveyed(ground, draws, {
      late: (late) => {
        const seen = readAt(late, datumOf(size), at);
        bookAt(late, {
          datum: datumOf(size),
          place: seen.place,
          mm: seen.mm,
          words: { for: [size], reading: seen.act },
        });
      },
      proposed: (of, right) => (of === size ? right + line : right),
    });
    return { survey, expected: { [size]: { 'not-read': line } } };
  }
  return null;
}

/** Within the surface's own reach, and to be read. */
function canReadIn(hand: Hand, size: PlainSize, at: OwnPlace): boolean {
  const { extents } = hand.world.recess;
  const [u, v] =
    at.side === 'back'
      ? (['x', 'z'] as const)
      : at.side === 'left' || at.side === 'right'
        ? (['y', 'z'] as const)
        : (['x', 'y'] as const);
  const inside = at.u > extents[u][0] && at.u < extents[u][1] && at.v > extents[v][0] && at.v < extents[v][1];
  return inside && canRead(hand, size, at);
}

/** A place is read on a trim, the trim then comes off, and the booking is left standing. */
function plantTrim(ground: Ground, draws: Draws): Planted | null {
  const { spec, brief } = ground.exercise;
  for (let i = 0; i < 40; i++) {
    const size = draws.one(ground.sizes.filter((s) => !isBare(s)));
    if (!size) return null;
    const side = draws.one(takes[size].sides);
    const trims = spec.trims.filter((t) => t.surface === side);
    if (!trims.some((t) => brief.fates[t.name] === 'off')) continue;
    const at = anyPlace(draws, side, ground.places[size]);
    const out = deepest(trims, at);
    if (out < deepest(staying(ground.exercise, side), at) + 5 || !ground.terms.every((t) => apart(t, at))) continue;
    const point = pointAt(at, -heightAt(ground.room.recess.fields[side], at.u, at.v) - out);
    const stand: Stand = { at: ground.stand, facing: { x: 0, y: 1 } };
    const mm = farFrom(stand, datumOf(size), point);
    const line = Math.min(0, mm - beating(ground, size, { side, by: 0 }));
    const { survey } = surveyed(ground, draws, {
      early: (hand) => {
        const seen = readAt(hand, datumOf(size), at);
        if (Math.abs(seen.mm - mm) > 1e-6) throw new Error(`trim: ${seen.mm} was seen, ${mm} by plain arithmetic`);
        bookAt(hand, { datum: datumOf(size), place: seen.place, mm, words: { for: [size], reading: seen.act } });
      },
      proposed: (of, right) => (of === size ? right + line : right),
    });
    return { survey, expected: { [size]: { 'not-read': line } } };
  }
  return null;
}

/** One side of a size read from a second set-up. */
interface SecondSetUp {
  readonly size: PlainSize;
  readonly side: Side;
  /** The second datum lies so far right of or above the first. */
  readonly step: number;
  /** What the step adds to the side's offsets when they are brought over. */
  readonly adds: number;
  readonly at: Point;
}

function secondSetUp(
  ground: Ground,
  draws: Draws,
  [from, to]: readonly [number, number] = [8, 70],
): SecondSetUp | null {
  const sizes = ground.sizes.filter(two);
  if (sizes.length === 0) return null;
  const size = draws.one(sizes);
  const side = draws.one(takes[size].sides);
  const step = draws.sign() * draws.between(from, to);
  const moved = datumOf(size) === 'S' ? { x: ground.stand.x + step } : { z: ground.stand.z + step };
  const adds = side === 'left' || side === 'floor' ? -step : step;
  return { size, side, step, adds, at: { ...ground.stand, ...moved } };
}

/** Surveys with that side read from there; the step is carried, by an act of its own, or not. */
function fromSecond(
  ground: Ground,
  draws: Draws,
  of_: {
    second: SecondSetUp;
    lost: number;
    first?(hand: Hand): number | null;
    carry?(hand: Hand, mark: number | null): void;
  },
): Planted['survey'] {
  const { second, lost } = of_;
  const there = (t: Term) => t.size === second.size && t.side === second.side;
  return surveyed(ground, draws, {
    reads: (t) => !there(t),
    late: (hand) => {
      const mark = of_.first?.(hand) ?? null;
      const stand = standSquare(hand, second.at);
      for (const term of ground.terms.filter(there)) readTerm(hand, { term, stand, draws, way: {}, setUp: 2 });
      of_.carry?.(hand, mark);
    },
    proposed: (size, right) => (size === second.size ? right + lost : right),
  }).survey;
}

function plantNotCarried(ground: Ground, draws: Draws): Planted | null {
  const second = secondSetUp(ground, draws);
  if (!second) return null;
  const lost = -second.adds;
  const survey = fromSecond(ground, draws, { second, lost });
  return { survey, expected: { [second.size]: { transfer: lost } } };
}

function plantCarried(ground: Ground, draws: Draws): Planted | null {
  const second = secondSetUp(ground, draws);
  if (!second) return null;
  const carry = (hand: Hand) => carryStep(hand, { second, slip: 0, reading: null });
  return { survey: fromSecond(ground, draws, { second, lost: 0, carry }), expected: {} };
}

function carryStep(hand: Hand, of_: { second: SecondSetUp; slip: number; reading: number | null }): void {
  const kind = datumOf(of_.second.size);
  const stepMm = of_.second.step + of_.slip;
  const reading = of_.reading === null ? {} : { reading: of_.reading };
  hand.act({ act: 'carry', from: `${kind}2`, to: kind, stepMm, ...reading });
}

function plantStepRead(ground: Ground, draws: Draws): Planted | null {
  return plantStepSlip(ground, draws, true);
}

/** A step that is read is short, and its slip so far back that what is written lies the other way. */
function plantStepSlip(ground: Ground, draws: Draws, read: boolean): Planted | null {
  const second = secondSetUp(ground, draws, read ? [3, 9] : [8, 70]);
  if (!second) return null;
  const slip = (read ? -Math.sign(second.step) : draws.sign()) * 10;
  const lost = second.side === 'left' || second.side === 'floor' ? -slip : slip;
  const kind = datumOf(second.size);
  const survey = fromSecond(ground, draws, {
    second,
    lost,
    first: (hand) => {
      if (!read) return null;
      const zMm = Math.round(ground.exercise.brief.openingMm.height / 2);
      const place =
        kind === 'S' ? { surface: 'back' as const, along: 'S', zMm } : { surface: 'back' as const, along: 'L', xMm: 0 };
      return hand.act({ act: 'mark', place }).mark ?? null;
    },
    carry: (hand, mark) => {
      if (mark !== null) {
        const { edgesMm } = hand.act({ act: 'read', datum: `${kind}2`, place: { mark } });
        const [low, high] = edgesMm as readonly [number, number];
        if (Math.abs((low + high) / 2 - Math.abs(second.step)) > 1e-4)
          throw new Error(`step: ${low} to ${high} was seen`);
      }
      carryStep(hand, { second, slip, reading: mark === null ? null : hand.survey().entries.length });
    },
  });
  return { survey, expected: { [second.size]: { booking: lost } } };
}

function plantAllowance(ground: Ground, draws: Draws): Planted {
  const size = draws.one(ground.sizes);
  const mm = draws.between(1, 12);
  const line = takes[size].least ? -mm : mm;
  const { survey } = surveyed(ground, draws, {
    allowance: { [size]: mm },
    proposed: (of, right) => (of === size ? right + line : right),
  });
  return { survey, expected: { [size]: { allowance: line } } };
}

function plantUndone(ground: Ground, draws: Draws): Planted {
  const [size, other] = [draws.one(ground.sizes), draws.one(ground.sizes)];
  const slipped = draws.one(countingOn(size, ground.terms, (t) => t.offset));
  const closing = draws.one(countingOn(other, ground.terms, (t) => t.offset));
  const { survey } = surveyed(ground, draws, {
    late: (hand) => {
      const slip = (t: Term, check: boolean) => {
        const seen = readAt(hand, datumOf(t.size), t);
        const words = { for: [t.size], reading: seen.act, check };
        return bookAt(hand, { datum: datumOf(t.size), place: seen.place, mm: seen.mm + draws.sign() * 10, words });
      };
      hand.act({ act: 'strike', booking: slip(slipped, false) });
      slip(closing, true);
    },
  });
  return { survey, expected: {} };
}

function plantChanged(ground: Ground, draws: Draws): Planted | null {
  const fixed = (['carcass-width', 'carcass-height', 'carcass-depth'] as const).filter(
    (s) => !ground.sizes.includes(s),
  );
  if (fixed.length === 0) return null;
  const size = draws.one(fixed);
  const by = draws.sign() * draws.between(0.5, 12);
  const { survey } = surveyed(ground, draws, { changed: { [size]: by } });
  return { survey, expected: { [size]: { 'working-out': by } } };
}

function plantNotSurveyed(ground: Ground, draws: Draws): Planted {
  const size = draws.one(ground.sizes);
  const side = draws.one(takes[size].sides);
  const by = draws.sign() * draws.between(0.5, 12);
  const { survey } = surveyed(ground, draws, {
    reads: (t) => t.size !== size || t.side !== side,
    proposed: (of, right) => (of === size ? right + by : right),
  });
  return { survey, expected: { [size]: { 'not-surveyed': by } }, how: { [size]: 'not-surveyed' } };
}
