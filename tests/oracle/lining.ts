/**
 * What a key says of a lining, and of the way in, from samples and the brief alone: mm, room frame.
 *
 * A lining stands as a carcass does, over the floor with its finish on (`readSamples` puts it on), and nothing behind it counts. Its far edges are
 * strips as wide as its boards along both jambs and the head, and along the board of a reveal; the wall's thickness there is
 * the far face's own y. Where a strip's ends are known to intervals, a greatest value lies between those over what is
 * certainly covered and over what is certainly not left.
 */
import { exactly, minus, negated, plus } from './interval.ts';
import { type Room, standOf } from './key-oracle.ts';
import { listOf, numberOf, recordOf, type Sizes } from './samples.ts';
import { greatest, type Interval, type Sheet } from './sheet.ts';

export type LiningVerdict = {
  readonly disagreements: readonly string[];
  readonly undecided: readonly string[];
  readonly widestIntervalMm: number;
};

type Span = readonly [Interval, Interval];

const TOLERANCE = 0.01;

/** Holds the key of a lining, with the sizes that it was asked about, against the samples of its room. */
export function checkLining(room: Room, key: unknown, asked: Sizes): LiningVerdict {
  const raw = recordOf(room.brief.raw, 'brief');
  const lining = recordOf(raw['lining'], 'brief.lining');
  const of = { room, board: numberOf(lining['thicknessMm'], 'brief.lining.thicknessMm') };
  const root = recordOf(key, 'key');
  const said = recordOf(root['carcass'], 'key.carcass');
  const stand = standOf(room, asked);
  const nominal = standOf(room, room.brief.carcassMm);
  const notes: Notes = { against: [], undecided: [], widest: 0 };
  const at = recordOf(said['at'], 'at');
  const clear = recordOf(said['clearanceMm'], 'clearanceMm');
  compare(notes, 'at.leftMm', at['leftMm'], stand.left);
  compare(notes, 'at.bottomMm', at['bottomMm'], stand.bottom);
  for (const side of ['left', 'right', 'top'] as const)
    compare(notes, `clearanceMm.${side}`, clear[side], stand.clearance[side]);
  if (clear['back'] !== null) notes.against.push('clearanceMm.back: nothing behind a lining counts');
  if (root['deepestMm'] !== null) notes.against.push('deepestMm: nothing behind a lining counts');
  const wall = wallOf(of, nominal);
  const [least, most] = wallOf(of, stand);
  compareAll(notes, 'wallMm', root['wallMm'], wall);
  const back = exactly(stand.backAt);
  compareAll(notes, 'farEdgeMm', said['farEdgeMm'], [minus(back, most), minus(back, least)]);
  compareHanging(notes, 'widestMm', root['widestMm'], {
    value: minus(nominal.tightest.right, nominal.tightest.left),
    hangsOn: [nominal.clearance.top],
  });
  compareHanging(notes, 'tallestMm', root['tallestMm'], {
    value: minus(nominal.tightest.top, nominal.bottom),
    hangsOn: [nominal.clearance.left, nominal.clearance.right],
  });
  compareFit(notes, said, { stand, ask: room.brief.askMm });
  return { disagreements: notes.against, undecided: notes.undecided, widestIntervalMm: notes.widest };
}

/** By how much a carcass clears a door and a turn: sizes sorted, and every angle of the turn tried. */
export function wayInByTrying(
  access: {
    door?: { widthMm: number; heightMm: number } | undefined;
    turn?: { beforeMm: number; afterMm: number; heightMm: number } | undefined;
  },
  sizes: readonly [number, number, number],
): { door: number | null; turn: number | null } {
  const [a, b, c] = [...sizes].sort((x, y) => x - y) as [number, number, number];
  const { door, turn } = access;
  const frame = door ? [door.widthMm, door.heightMm].sort((x, y) => x - y) : null;
  const round = (up: number, long: number, broad: number) =>
    turn ? Math.min(turn.heightMm - up, cornerByTrying(turn.beforeMm, turn.afterMm, { long, broad })) : 0;
  return {
    door: frame ? Math.min(frame[0]! - a, frame[1]! - b) : null,
    turn: turn ? Math.max(round(a, c, b), round(b, c, a), round(c, b, a)) : null,
  };
}

/**
 * A rectangle turned through every ten-thousandth of a radian: one end of its long side slides along the outer wall of
 * each way, and the inner corner stands off that side by so much. Or it is never turned.
 */
export function cornerByTrying(p: number, q: number, of: { long: number; broad: number }): number {
  const { long, broad } = of;
  let room = Number.POSITIVE_INFINITY;
  for (let i = 0; i <= 15_708; i++) {
    const angle = Math.min(i * 1e-4, Math.PI / 2);
    // The long side from (long cos, 0) to (0, long sin): how far the corner (q, p) lies beyond it.
    const beyond = q * Math.sin(angle) + p * Math.cos(angle) - long * Math.sin(angle) * Math.cos(angle);
    room = Math.min(room, beyond);
  }
  const unturned = Math.max(Math.min(p - long, q - broad), Math.min(p - broad, q - long));
  return Math.max(unturned, room - broad);
}

type Notes = { readonly against: string[]; readonly undecided: string[]; widest: number };

function wallOf(of: { room: Room; board: number }, stand: ReturnType<typeof standOf>): [Interval, Interval] {
  const { board, room } = of;
  const { sheet } = room.back;
  const { width, height } = stand.size;
  const [left, right] = [stand.left, plus(stand.left, exactly(width))];
  const [bottom, top] = [stand.bottom, plus(stand.bottom, exactly(height))];
  const by = exactly(board);
  // The board of a reveal stands on a bed; a door lining has no board.
  const isReveal = numberOf(recordOf(room.brief.raw, 'brief')['plinthMm'], 'brief.plinthMm') > 0;
  const strips: (readonly [Span, Span])[] = [
    [
      [left, plus(left, by)],
      [bottom, top],
    ],
    [
      [minus(right, by), right],
      [bottom, top],
    ],
    [
      [left, right],
      [minus(top, by), top],
    ],
  ];
  if (isReveal)
    strips.push([
      [left, right],
      [bottom, plus(bottom, by)],
    ]);
  const over = (sign: 1 | -1) => strips.map(([u, v]) => greatestOverSpan(sheet, sign, { u, v }));
  const all = (list: readonly Interval[]): Interval => ({
    low: Math.max(...list.map((i) => i.low)),
    high: Math.max(...list.map((i) => i.high)),
  });
  return [negated(all(over(-1))), all(over(1))];
}

function greatestOverSpan(sheet: Sheet, sign: 1 | -1, of: { u: Span; v: Span }): Interval {
  const inner = { u: [of.u[0].high, of.u[1].low], v: [of.v[0].high, of.v[1].low] } as const;
  const outer = { u: [of.u[0].low, of.u[1].high], v: [of.v[0].low, of.v[1].high] } as const;
  return { low: greatest(sheet, sign, inner).low, high: greatest(sheet, sign, outer).high };
}

function compareFit(
  notes: Notes,
  said: Readonly<Record<string, unknown>>,
  of: { stand: ReturnType<typeof standOf>; ask: Room['brief']['askMm'] },
): void {
  const { clearance, tightest, size } = of.stand;
  const sides = ['left', 'right', 'top'] as const;
  const spare = {
    low: Math.min(...sides.map((side) => clearance[side].low - of.ask[side])) - TOLERANCE,
    high: Math.min(...sides.map((side) => clearance[side].high - of.ask[side])) + TOLERANCE,
  };
  const could = { yes: spare.high > 0.01, touches: spare.low <= 0.01 && spare.high >= -0.01, no: spare.low < -0.01 };
  const fits = said['fits'] as keyof typeof could;
  if (!could[fits]) notes.against.push(`fits: the key says ${fits}, with ${spare.low} to ${spare.high} to spare`);
  const between = minus(tightest.right, tightest.left);
  const isIn = sides.every((side) => clearance[side].low >= TOLERANCE);
  const isOut = between.high < size.width - TOLERANCE;
  if (isIn && said['goesInBare'] !== true) notes.against.push('goesInBare: the key says no, the samples say yes');
  if (isOut && said['goesInBare'] !== false) notes.against.push('goesInBare: the key says yes, the samples say no');
  if (!isIn && !isOut) notes.undecided.push('goesInBare');
}

function compareHanging(
  notes: Notes,
  name: string,
  said: unknown,
  of: { value: Interval; hangsOn: readonly Interval[] },
): void {
  const low = Math.min(...of.hangsOn.map((i) => i.low));
  const high = Math.min(...of.hangsOn.map((i) => i.high));
  if (high < -TOLERANCE) {
    if (said !== null) notes.against.push(`${name}: the key says ${said}, but the others do not go in`);
  } else if (said !== null) compare(notes, name, said, of.value);
  else if (low > TOLERANCE) notes.against.push(`${name}: the key says null, the samples do not`);
  else notes.undecided.push(name);
}

function compareAll(notes: Notes, name: string, said: unknown, intervals: readonly Interval[]): void {
  const list = listOf(said, name);
  for (const [i, interval] of intervals.entries()) compare(notes, `${name}.${i}`, list[i], interval);
}

function compare(notes: Notes, name: string, said: unknown, { low, high }: Interval): void {
  const value = numberOf(said, name);
  notes.widest = Math.max(notes.widest, high - low);
  if (value < low - TOLERANCE || value > high + TOLERANCE)
    notes.against.push(`${name}: the key says ${value}, the samples say ${low} to ${high}`);
}
