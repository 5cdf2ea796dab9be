/**
 * Briefs for the plain wall: shelves that are scribed to it, or a free-standing carcass. Sizes are common practice for
 * fitted joinery, from memory, no source.
 */
import { type DrawKey, pick, purpose } from '../../chance/keyed-draws.ts';
import type { Fate, RecessSpec, Trim } from '../../recess/recess-spec.ts';
import type { Brief } from '../brief.ts';
import { like } from './like.ts';
import { clearOfSkirting, mostOut, mostTall, seenWaver } from './wall-brief.ts';

const why = purpose('exercise/plain-wall-brief');

/** How far a carcass stays off what it is found by, and the most that a fitter scribes off a shelf, mm, by severity. */
const spare: Readonly<Record<string, { height: number; depth: number; scribe: number }>> = {
  settled: { height: 24, depth: 18, scribe: 35 },
  old: { height: 36, depth: 28, scribe: 55 },
  stone: { height: 52, depth: 40, scribe: 80 },
};

/**
 * Draws the brief of a plain wall: shelves or a carcass.
 *
 * @param spec - the room; only its outline, its trims and its severity are looked at, never its defects
 */
export function drawPlainWallBrief(spec: RecessSpec): Brief {
  return pick(spec.key, why, { index: 0, count: 2 }) === 0 ? shelvesBrief(spec) : carcassBrief(spec);
}

type One = <T>(index: number, of: readonly T[]) => T;

function drawsOf(key: DrawKey): One {
  return (index, of) => of[pick(key, why, { index, count: of.length })] as (typeof of)[number];
}

function down(mm: number): number {
  return 10 * Math.floor(mm / 10);
}

/** What both kinds of brief share. */
function common(spec: RecessSpec) {
  const { width, height, depth } = spec.openingMm;
  return {
    openingMm: { width, height, depth },
    mouthMm: spec.mouthMm,
    reference: spec.reference.kind,
    referenceWaverMm: seenWaver(spec.severity),
    frame: null,
  } as const;
}

/** A stack of shelves whose fronts stand on the face line: what is on the wall stays, and they keep clear of it. */
function shelvesBrief(spec: RecessSpec): Brief {
  const one = drawsOf(spec.key);
  const { width, height, depth } = spec.openingMm;
  const thicknessMm = one(1, [22, 25, 28, 32]);
  const lengthMm = down(width - one(2, [100, 200, 300]));
  const least = one(3, [3, 4, 5]);
  const mostStockMm = (spare[like(spec.severity)] ?? { scribe: 90 }).scribe;
  return {
    ...common(spec),
    carcassFrontMm: 0,
    // No carcass is made: its sizes stand for the place that the shelves take up.
    carcassMm: {
      width: { nominalMm: lengthMm, find: false },
      height: { nominalMm: down(height - 400), find: false },
      depth: { nominalMm: down(depth - 80), find: false },
    },
    askMm: { left: 0, right: 0, top: 0, back: 0 },
    plinthMm: 100,
    finishMm: [],
    fates: Object.fromEntries(spec.trims.map((t): [string, Fate] => [t.name, 'stays'])),
    access: null,
    shelves: {
      heightsMm: shelfHeights(spec, {
        lengthMm,
        thicknessMm,
        first: one(4, [260, 320, 400]),
        step: one(5, [280, 330, 380]),
      }),
      thicknessMm,
      lengthMm,
      leastStockMm: least,
      mostStockMm,
    },
  };
}

/** Even heights, each moved up past what is on the wall there, as many as there is height for. */
function shelfHeights(
  spec: RecessSpec,
  of: { lengthMm: number; thicknessMm: number; first: number; step: number },
): number[] {
  const clear = 45;
  const half = of.lengthMm / 2;
  const blocks = (z: number) =>
    spec.trims.find(
      (t) =>
        t.surface === 'back' &&
        t.uMm[0] - clear <= half &&
        t.uMm[1] + clear >= -half &&
        t.vMm[0] - clear <= z + of.thicknessMm &&
        t.vMm[1] + clear >= z,
    );
  const heights: number[] = [];
  const top = spec.openingMm.height - 260;
  for (let z = of.first; z <= top && heights.length < 6; z += of.step) {
    for (let held = blocks(z); held; held = blocks(z)) z = 10 * Math.ceil((held.vMm[1] + clear + 1) / 10);
    if (z <= top) heights.push(z);
  }
  return heights;
}

/** A carcass that stands by itself before the wall, as wide as it was ordered. */
function carcassBrief(spec: RecessSpec): Brief {
  const one = drawsOf(spec.key);
  const { width, height, depth } = spec.openingMm;
  const loose = spare[like(spec.severity)] ?? { height: 60, depth: 50 };
  const wide = Math.min(down(width - 200), one(1, [800, 1000, 1200, 1500, 1800, 2400]));
  const keep = { skirting: one(2, [true, false]), band: one(3, [true, false]), rails: one(4, [true, false]) };
  const fates = Object.fromEntries(spec.trims.map((t) => [t.name, fateOf(t, keep)]));
  const stays = (kinds: readonly Trim['kind'][]) =>
    spec.trims.filter((t) => kinds.includes(t.kind) && fates[t.name] === 'stays');
  const front = one(5, [18, 20, 22]);
  const finish = one(6, [0, 0, 0, 12, 18]);
  const skirtings = spec.trims.filter((t) => t.kind === 'skirting');
  const plinth = clearOfSkirting(mostTall(skirtings) - finish, one(7, [80, 100, 120]));
  const skirting = mostTall(stays(['skirting'])) > plinth + finish ? mostOut(stays(['skirting'])) : 0;
  const behind = Math.max(skirting, mostOut(stays(['dado-rail', 'picture-rail'])));
  const tall = down(height - plinth - finish - mostOut(stays(['cornice', 'coving'])) - loose.height);
  const cutOuts = spec.trims.filter((t) => isWithin(t, { half: wide / 2, from: plinth + finish }));
  const diagonal = Math.sqrt(height * height + depth * depth);
  return {
    ...common(spec),
    carcassFrontMm: front,
    carcassMm: {
      width: { nominalMm: wide, find: false },
      height: { nominalMm: tall, find: true },
      depth: { nominalMm: down(depth - front - loose.depth - behind), find: true },
    },
    askMm: { left: 0, right: 0, top: one(8, [5, 6, 8, 10]), back: one(9, [3, 5, 8]) },
    plinthMm: plinth,
    finishMm: finish > 0 ? [{ surface: 'floor', mm: finish }] : [],
    fates,
    access: { clearHeightMm: 10 * Math.ceil((diagonal - one(10, [0, 60, 120])) / 10), plinthSeparate: true },
    ...(cutOuts.length > 0
      ? { cutOuts: cutOuts.map((t) => t.name), cutOutSpareMm: { least: one(11, [3, 5]), most: 15 } }
      : {}),
  };
}

function fateOf(trim: Trim, keep: { skirting: boolean; band: boolean; rails: boolean }): Fate {
  switch (trim.kind) {
    case 'skirting':
      return keep.skirting ? 'stays' : 'off';
    case 'cornice':
    case 'coving':
      return keep.band ? 'stays' : 'cut';
    case 'dado-rail':
    case 'picture-rail':
      return keep.rails ? 'stays' : 'off';
    default:
      return 'cut';
  }
}

/** A socket or a pipe boxing that lies wholly behind the carcass. */
function isWithin(trim: Trim, of: { half: number; from: number }): boolean {
  if (trim.kind !== 'socket-box' && trim.kind !== 'pipe-boxing') return false;
  return trim.uMm[0] >= 40 - of.half && trim.uMm[1] <= of.half - 40 && trim.vMm[0] >= of.from + 40;
}
