/**
 * Holds an answer key, as `offtrue key --json` prints it, against the samples of its room, and says in sentences where
 * the two cannot both be right. mm, room frame.
 *
 * A number is contradicted when it lies outside the oracle's interval by more than `tolerance` (0.01, what the key is
 * certified to). A choice (null or a number, goes in, fits, stands up) is contradicted only where the numbers that it
 * hangs on are clear of the border by as much, for the key may be that far off them. What the intervals are too wide to
 * judge is named, and never silently passed.
 */

import { exactly } from './interval.ts';
import {
  keyOf,
  lowestCover,
  type OracleKey,
  type Question,
  type Room,
  roomOf,
  type Stand,
  stockUnder,
} from './key-oracle.ts';
import { worstBite } from './push-in.ts';
import { listOf, numberOf, readNotch, readSamples, recordOf, type Sizes } from './samples.ts';
import { seenOverhead } from './section.ts';
import { beginsAt, isShaped, topOf } from './shape.ts';
import { type Interval, OutsideError, type Rect } from './sheet.ts';
import { peak, trough, type Wall } from './wall.ts';

export type Verdict = {
  readonly disagreements: readonly string[];
  /** What the samples cannot judge: an interval wider than `TOO_WIDE`, or a choice at its border. */
  readonly undecided: readonly string[];
  /** The widest interval that a number was held against, but for those that are named as undecided. */
  readonly widestIntervalMm: number;
};

/** The question as it was put, where the caller knows it; the sizes and places that the key names are believed else. */
export type Asked = {
  readonly tolerance?: number;
  readonly carcassMm?: readonly [number, number, number] | null;
  readonly frameMm?: readonly [number, number] | null;
  /** Where the blank was placed, left and bottom; centred on the opening else. */
  readonly frameAtMm?: readonly [number, number];
};

const TOLERANCE = 0.01;

/** mm; the border between `yes`, `touches` and `no`. */
const TOUCH = 0.01;

/** mm; finer than a key's numbers are. */
const FINEST = 1e-6;

/** mm; how far the floor's high point may be off. */
const STANDS = 0.0011;

/** mm; an interval wider than this proves too little. */
const TOO_WIDE = 0.05;

/**
 * @throws {TypeError} or {RangeError} where the samples are not what they say; a malformed key is a disagreement
 */
export function checkKey(samplesJson: unknown, keyJson: unknown, asked: Asked = {}): Verdict {
  return verdictOn(roomOf(readSamples(samplesJson)), keyJson, asked);
}

/** The sentences of `checkKey` alone; none where the key and the samples can both be right. */
export function disagreements(samplesJson: unknown, keyJson: unknown, tolerance = TOLERANCE): readonly string[] {
  return checkKey(samplesJson, keyJson, { tolerance }).disagreements;
}

/** As `checkKey`, on a room that is already built. */
export function verdictOn(room: Room, keyJson: unknown, asked: Asked = {}): Verdict {
  const notes: Notes = { tolerance: asked.tolerance ?? TOLERANCE, against: [], undecided: [], widest: 0 };
  try {
    compare(notes, room, new KeyReader(keyJson), asked);
  } catch (error) {
    if (error instanceof OutsideError) notes.against.push(`outside: ${error.message}, yet the key gives numbers`);
    else if (error instanceof MalformedKey) notes.against.push(`key: ${error.message}`);
    else throw error;
  }
  return { disagreements: notes.against, undecided: notes.undecided, widestIntervalMm: notes.widest };
}

type Notes = {
  readonly tolerance: number;
  readonly against: string[];
  readonly undecided: string[];
  widest: number;
};

class MalformedKey extends TypeError {}

/** Values of the key by path, `carcass.at.leftMm`; what is missing or of the wrong kind is malformed. */
class KeyReader {
  readonly #root: unknown;
  constructor(root: unknown) {
    this.#root = root;
  }

  at(path: string): unknown {
    let value = this.#root;
    for (const step of path.split('.')) {
      value = asKey(() => (Array.isArray(value) ? value[Number(step)] : recordOf(value, 'key')[step]));
      if (value === undefined) throw new MalformedKey(`${path} is missing`);
    }
    return value;
  }

  number(path: string): number {
    return asKey(() => numberOf(this.at(path), path));
  }

  list(path: string, length: number): readonly unknown[] {
    const list = asKey(() => listOf(this.at(path), path));
    if (list.length !== length) throw new MalformedKey(`${path}: expected ${length} entries, got ${list.length}`);
    return list;
  }

  flag(path: string): boolean {
    const value = this.at(path);
    if (typeof value !== 'boolean') throw new MalformedKey(`${path}: expected true or false, got ${value}`);
    return value;
  }

  has(path: string): boolean {
    return this.at(path) !== null;
  }
}

function asKey<T>(read: () => T): T {
  try {
    return read();
  } catch (error) {
    if (error instanceof TypeError && !(error instanceof MalformedKey)) throw new MalformedKey(error.message);
    throw error;
  }
}

function compare(notes: Notes, room: Room, key: KeyReader, asked: Asked): void {
  if (canonical(key.at('brief')) !== canonical(room.brief.raw)) {
    notes.against.push('brief: the key and the samples print two different ones');
  }
  const question = questionOf(notes, key, asked);
  const oracle = keyOf(room, question);
  if (question.carcass) compareCarcass(notes, room, key, oracle);
  for (const size of ['widest', 'tallest', 'deepest'] as const) compareHanging(notes, key, `${size}Mm`, oracle[size]);
  if (oracle.edge && room.brief.slopeLow) compareEdge(notes, key, oracle.edge, room.brief.slopeLow);
  const { plinth, margins } = oracle;
  compareOpening(notes, room, key, oracle.opening);
  if (oracle.frame) compareFrame(notes, room, key, oracle.frame);
  compareList(notes, key, 'plinthMm', plinth);
  compareList(notes, key, 'marginsMm', margins);
  compareNumber(notes, key, 'mouthWidthMm', oracle.mouthWidth);
}

/** There is none where trims leave nothing of a side; then, and only then, may the key say null. */
function compareOpening(notes: Notes, room: Room, key: KeyReader, opening: OracleKey['opening']): void {
  const paths = { 'opening.widthMm': opening.width, 'opening.heightMm': opening.height };
  if (key.has('opening')) {
    for (const [path, interval] of Object.entries(paths)) compareNumber(notes, key, path, interval);
    compareNumber(notes, key, 'opening.leftMm', opening.left);
    compareNumber(notes, key, 'opening.bottomMm', opening.bottom);
    compareCover(notes, room, key, opening);
  } else if (Object.values(paths).every(({ low, high }) => Number.isFinite(high - low))) {
    notes.against.push(`opening: the key says null, the samples say ${spoken(opening.width)} wide`);
  } else notes.undecided.push('opening: null or not');
}

/** The sloped edge of a blank: as low at its middle as a line can be, and over all of the section. */
function compareCover(notes: Notes, room: Room, key: KeyReader, opening: OracleKey['opening']): void {
  const said = recordOf(key.at('opening'), 'opening')['slope'];
  const hasSlope = room.slopes.length > 0 && seenOverhead(room).some(({ wall }) => room.slopes.includes(wall));
  if ((said !== undefined) !== hasSlope) {
    notes.against.push(
      `opening.slope: the key has ${said ? 'one' : 'none'}, the section ${hasSlope ? 'has' : 'has none'}`,
    );
  }
  if (said === undefined || !hasSlope) return;
  const [left, right, at] = (['leftMm', 'rightMm', 'middleAtMm'] as const).map((one) =>
    key.number(`opening.slope.${one}`),
  ) as [number, number, number];
  compareNumber(notes, key, 'opening.slope.middleMm', lowestCover(room, at, opening.bottom));
  const pitch = (right - left) / key.number('opening.widthMm');
  const z = key.number('opening.bottomMm') + left;
  const over = stockUnder(room, { at: key.number('opening.leftMm'), z, pitch }).low;
  if (over < -notes.tolerance) notes.against.push(`opening.slope: its line is ${-over} under the section`);
  const there = z + pitch * (at - key.number('opening.leftMm')) - key.number('opening.bottomMm');
  if (Math.abs(there - key.number('opening.slope.middleMm')) > notes.tolerance)
    notes.against.push(`opening.slope: its line stands ${there} at the middle, the key says another height`);
}

function questionOf(notes: Notes, key: KeyReader, asked: Asked): Question {
  const carcass = key.has('carcass')
    ? {
        width: key.number('carcass.widthMm'),
        height: key.number('carcass.heightMm'),
        depth: key.number('carcass.depthMm'),
        ...shapeOf(key),
      }
    : null;
  const frame = key.has('frame') ? { width: key.number('frame.widthMm'), height: key.number('frame.heightMm') } : null;
  const put = (name: string, own: readonly number[] | null, wanted: readonly number[] | null | undefined) => {
    if (wanted !== undefined && String(own) !== String(wanted)) {
      notes.against.push(`${name}: asked about ${wanted}, the key answers for ${own}`);
    }
  };
  put('carcass', carcass && [carcass.width, carcass.height, carcass.depth], asked.carcassMm);
  if (key.has('opening')) put('frame', frame && [frame.width, frame.height], asked.frameMm);
  const at = asked.frameAtMm ? { left: asked.frameAtMm[0], bottom: asked.frameAtMm[1] } : null;
  const sized = [carcass?.width, carcass?.height, carcass?.depth, frame?.width, frame?.height].every(
    (size) => size === undefined || size > 0,
  );
  if (!sized) throw new MalformedKey('a carcass and a blank have sizes > 0');
  return { carcass, frame: frame && { ...frame, at }, tolerance: notes.tolerance };
}

/** The shape that the key answers for; the one that was asked about is held against it by `asked`. */
function shapeOf(key: KeyReader): Pick<Sizes, 'slope' | 'notch'> {
  const { slope, notch } = asKey(() => recordOf(key.at('carcass'), 'carcass'));
  return {
    ...(slope === undefined
      ? {}
      : { slope: { left: key.number('carcass.slope.leftMm'), right: key.number('carcass.slope.rightMm') } }),
    ...asKey(() => readNotch(notch, 'carcass.notch')),
  };
}

function compareCarcass(notes: Notes, room: Room, key: KeyReader, oracle: OracleKey): void {
  const { stand, leastSpare } = oracle;
  compareNumber(notes, key, 'carcass.at.leftMm', stand.left);
  compareNumber(notes, key, 'carcass.at.bottomMm', stand.bottom);
  for (const side of ['left', 'right', 'top', 'back'] as const) {
    compareNumber(notes, key, `carcass.clearanceMm.${side}`, stand.clearance[side]);
  }
  compareFits(notes, key, leastSpare);
  if (key.at('carcass.fits') === 'yes') refuseBite(notes, room, key, stand.size);
  const goesIn = key.flag('carcass.goesInBare');
  if (oracle.goesInBare === 'undecided') notes.undecided.push('carcass.goesInBare');
  else if (goesIn !== (oracle.goesInBare === 'yes')) {
    notes.against.push(`carcass.goesInBare: the key says ${goesIn}, the samples say ${!goesIn}`);
  }
  compareTightest(notes, room, key, stand);
  compareStandsUp(notes, key, oracle.standsUpBy);
}

function compareFits(notes: Notes, key: KeyReader, spare: Interval): void {
  const fits = key.at('carcass.fits');
  const [low, high] = [spare.low - notes.tolerance, spare.high + notes.tolerance];
  const could = {
    yes: high > TOUCH + FINEST,
    touches: low <= TOUCH + FINEST && high >= -TOUCH - FINEST,
    no: low < -TOUCH - FINEST,
  };
  if (fits !== 'yes' && fits !== 'touches' && fits !== 'no') {
    throw new MalformedKey(`carcass.fits: expected yes|touches|no, got ${fits}`);
  }
  if (!could[fits]) {
    notes.against.push(`carcass.fits: the key says ${fits}, with ${spoken(spare)} to spare by the samples`);
  }
}

/** A `yes` is pushed in where the key says it stands, past every sample. */
function refuseBite(notes: Notes, room: Room, key: KeyReader, size: Sizes): void {
  const [left, bottom] = [key.number('carcass.at.leftMm'), key.number('carcass.at.bottomMm')];
  const bite = worstBite(room, { left, bottom, ...size });
  // With no plinth it stands on the floor itself, which is certified to a thousandth, and printed to a tenth of that.
  const stands = bite.side === 'floor' && room.brief.plinthMm === 0;
  if (bite.by > (stands ? STANDS : FINEST)) {
    notes.against.push(`carcass.fits: the key says yes, yet ${bite.side} bites by ${bite.by} at ${bite.at}`);
  }
}

function compareTightest(notes: Notes, room: Room, key: KeyReader, stand: Stand): void {
  const sides = ['left', 'right', 'top', 'back'] as const;
  const named = key.list('carcass.tightest', sides.length).map((_, i) => key.at(`carcass.tightest.${i}.side`));
  for (const side of sides) {
    const at = `carcass.tightest.${named.indexOf(side)}`;
    if (!named.includes(side)) {
      notes.against.push(`carcass.tightest: names no place on the ${side}`);
      continue;
    }
    compareNumber(notes, key, `${at}.clearanceMm`, stand.clearance[side]);
    const [x, y, z] = key.list(`${at}.atMm`, 3).map((_, i) => key.number(`${at}.atMm.${i}`)) as [
      number,
      number,
      number,
    ];
    comparePlace(notes, room, stand, { side, x, y, z, clearance: key.number(`${at}.clearanceMm`) });
  }
}

type TightPlace = {
  readonly side: 'left' | 'right' | 'top' | 'back';
  readonly x: number;
  readonly y: number;
  readonly z: number;
  readonly clearance: number;
};

/** Does the place lie on that face or its way in, and is the clearance there what the key says? */
function comparePlace(notes: Notes, room: Room, stand: Stand, place: TightPlace): void {
  const { side } = place;
  const by = notes.tolerance;
  const [walls, own, u, v] = {
    left: [[room.left], place.x, place.y, place.z] as const,
    right: [[room.right], place.x, place.y, place.z] as const,
    top: [room.ceilings, place.z, place.x, place.y] as const,
    back: [[room.back], place.y, place.x, place.z] as const,
  }[side];
  const face = isShaped(stand.size) ? shapedFaceOf(room, stand, place) : faceOf(room, stand);
  const where = `carcass.tightest ${side}: the place ${place.x}, ${place.y}, ${place.z}`;
  if (
    u < face[side].u.low - by ||
    u > face[side].u.high + by ||
    v < face[side].v.low - by ||
    v > face[side].v.high + by
  ) {
    notes.against.push(`${where} is not on that face or its way in`);
    return;
  }
  const found = clearanceNear(walls, { u: [u - by, u + by], v: [v - by, v + by] }, face[side].at);
  if (place.clearance < found.low - by || place.clearance > found.high + by) {
    notes.against.push(`${where} has ${spoken(found)} by the samples, the key says ${place.clearance}`);
  }
  const inward = walls[0]!.inward;
  const ends = [inward * (own - face[side].at.low), inward * (own - face[side].at.high)];
  const off = [Math.min(...ends), Math.max(...ends)] as const;
  const ownLow = Math.min(0, -found.high) - by;
  const ownHigh = Math.max(0, -found.low) + by;
  if (off[1] < ownLow || off[0] > ownHigh)
    notes.against.push(`${where} is neither on the wall nor on the box nor between`);
}

type Face = { readonly at: Interval; readonly u: Interval; readonly v: Interval };

/** Where each face of the carcass is, and what it and its way in take up. */
function faceOf(room: Room, stand: Stand): Record<TightPlace['side'], Face> {
  const { size, left, bottom, backAt } = stand;
  const right = { low: left.low + size.width, high: left.high + size.width };
  const top = { low: bottom.low + size.height, high: bottom.high + size.height };
  const x = { low: left.low, high: right.high };
  const y = { low: room.brief.mouthMm, high: backAt };
  const z = { low: bottom.low, high: top.high };
  return {
    left: { at: left, u: y, v: z },
    right: { at: right, u: y, v: z },
    top: { at: top, u: x, v: y },
    back: { at: exactly(backAt), u: x, v: z },
  };
}

/** The same for a shape, as it is met at one place: its height over x, and where it begins at a height. */
function shapedFaceOf(room: Room, stand: Stand, { x, z }: TightPlace): Record<TightPlace['side'], Face> {
  const { size, left, bottom } = stand;
  const flat = faceOf(room, stand);
  const off = 0.02;
  const heights = (from: number, to: number): Interval => {
    const { breaks, height } = topOf(size, 0);
    const places = [from, to, ...breaks.flatMap((one) => [one - 1e-7, one + 1e-7])]
      .filter((one) => one >= from && one <= to)
      .map((one) => height(Math.min(Math.max(one, 0), size.width)));
    return { low: bottom.low + Math.min(...places), high: bottom.high + Math.max(...places) };
  };
  const begins = (side: 'left' | 'right'): Interval => {
    const at = (height: number) => beginsAt(side, size, Math.max(0, height));
    const [low, high] = [at(z - bottom.high - off), at(z - bottom.low + off)];
    return side === 'left'
      ? { low: left.low + low, high: left.high + (Number.isFinite(high) ? high : low) }
      : { low: left.low + size.width - (Number.isFinite(high) ? high : low), high: left.high + size.width - low };
  };
  const over = heights(x - left.high - off, x - left.low + off);
  return {
    left: { ...flat.left, at: begins('left') },
    right: { ...flat.right, at: begins('right') },
    top: { ...flat.top, at: over },
    back: { ...flat.back, v: { low: bottom.low, high: over.high } },
  };
}

/** The clearances that a face can have at places of a small rectangle. */
function clearanceNear(walls: readonly Wall[], rect: Rect, at: Interval): Interval {
  const inward = walls[0]!.inward;
  const [low, high] = inward > 0 ? [at.low, at.high] : [-at.high, -at.low];
  return {
    low: low - Math.max(...walls.map((wall) => peak(wall, rect).high)),
    high: high - Math.max(...walls.map((wall) => trough(wall, rect))),
  };
}

function compareStandsUp(notes: Notes, key: KeyReader, by: Interval | null): void {
  const path = 'carcass.standsUp';
  if (!by || !key.has(path)) {
    if (key.has(path) !== (by !== null)) {
      notes.against.push(
        `${path}: the key has ${key.has(path) ? 'one' : 'none'}, the brief ${by ? 'asks' : 'does not'}`,
      );
    }
    return;
  }
  compareNumber(notes, key, `${path}.byMm`, by);
  const ok = key.flag(`${path}.ok`);
  if ((ok && by.high < -notes.tolerance) || (!ok && by.low > notes.tolerance)) {
    notes.against.push(`${path}.ok: the key says ${ok}, by ${spoken(by)}`);
  }
}

function compareFrame(notes: Notes, room: Room, key: KeyReader, frame: NonNullable<OracleKey['frame']>): void {
  compareNumber(notes, key, 'frame.at.leftMm', frame.left);
  compareNumber(notes, key, 'frame.at.bottomMm', frame.bottom);
  const sloped = recordOf(key.at('frame'), 'frame')['slope'] !== undefined;
  if (sloped) compareSlopedStock(notes, room, key);
  for (const edge of ['left', 'right', 'top', 'bottom'] as const) {
    if (edge === 'top' && sloped) continue;
    compareList(notes, key, `frame.stockMm.${edge}`, frame.stock[edge]);
  }
}

/** Of a blank with a sloped edge: what comes off that edge, and whether its flat top covers. */
function compareSlopedStock(notes: Notes, room: Room, key: KeyReader): void {
  const [left, right, at, bottom] = (['slope.leftMm', 'slope.rightMm', 'at.leftMm', 'at.bottomMm'] as const).map(
    (one) => key.number(`frame.${one}`),
  ) as [number, number, number, number];
  const pitch = (right - left) / key.number('frame.widthMm');
  const line = { at, z: bottom + left, pitch };
  const seen = seenOverhead(room);
  const slopes = seen.filter(({ wall }) => room.slopes.includes(wall));
  const { low, most } = stockUnder(room, line, slopes);
  compareNumber(notes, key, 'frame.slope.stockMm.0', { low, high: low + 0.01 });
  compareNumber(notes, key, 'frame.slope.stockMm.1', most);
  const top = { at, z: bottom + key.number('frame.heightMm'), pitch: 0 };
  const over = stockUnder(room, top, seen).low;
  compareNumber(notes, key, 'frame.stockMm.top.0', { low: over, high: over + 0.01 });
}

function compareHanging(notes: Notes, key: KeyReader, path: string, hanging: OracleKey['widest']): void {
  const { value, hangsOn } = hanging;
  const there = key.has(path);
  if (hangsOn.high < -notes.tolerance) {
    if (there) notes.against.push(`${path}: the key says ${key.at(path)}, but the others miss by ${spoken(hangsOn)}`);
    return;
  }
  if (hangsOn.low <= notes.tolerance) notes.undecided.push(`${path}: null or not`);
  else if (!there) notes.against.push(`${path}: the key says null, the samples say ${spoken(value)}`);
  if (there) compareNumber(notes, key, path, value);
}

/** The middle is a number; the line itself has to stand under the slope, and at the middle as high as it says. */
function compareEdge(notes: Notes, key: KeyReader, edge: NonNullable<OracleKey['edge']>, low: 'left' | 'right'): void {
  const { hangsOn, middle } = edge;
  if (!key.has('slope')) {
    if (hangsOn.low > notes.tolerance) notes.against.push(`slope: the key says null, the samples ${spoken(middle)}`);
    else if (hangsOn.high >= -notes.tolerance) notes.undecided.push('slope: null or not');
    return;
  }
  if (hangsOn.high < -notes.tolerance) notes.against.push(`slope: the others miss by ${spoken(hangsOn)}`);
  compareNumber(notes, key, 'slope.middleMm', middle);
  const [at, to] = [key.number('slope.lowMm'), key.number('slope.highMm')];
  const [left, right] = low === 'left' ? [at, to] : [to, at];
  const there = left + edge.share * (right - left);
  const said = key.number('slope.middleMm');
  if (Math.abs(there - said) > notes.tolerance)
    notes.against.push(`slope: its line stands ${there} at the middle, the key says ${said}`);
  const under = edge.under(left, right);
  if (under.high < -notes.tolerance || under.low > notes.tolerance)
    notes.against.push(`slope: its line has ${spoken(under)} left under the slope by the samples`);
}

function compareList(notes: Notes, key: KeyReader, path: string, intervals: readonly Interval[]): void {
  key.list(path, intervals.length);
  for (const [i, interval] of intervals.entries()) compareNumber(notes, key, `${path}.${i}`, interval);
}

function compareNumber(notes: Notes, key: KeyReader, path: string, { low, high }: Interval): void {
  const said = key.number(path);
  if (high - low > TOO_WIDE) notes.undecided.push(`${path}: ${spoken({ low, high })}`);
  else notes.widest = Math.max(notes.widest, high - low);
  if (!(said >= low - notes.tolerance && said <= high + notes.tolerance)) {
    notes.against.push(`${path}: the key says ${said}, the samples say ${spoken({ low, high })}`);
  }
}

function spoken({ low, high }: Interval): string {
  return `${low} to ${high}`;
}

/** JSON with its keys in order, so that two equal values read the same. */
function canonical(value: unknown): string {
  return JSON.stringify(value, (_, one) =>
    typeof one === 'object' && one !== null && !Array.isArray(one)
      ? Object.fromEntries(Object.entries(one).sort(([a], [b]) => (a < b ? -1 : 1)))
      : one,
  );
}
