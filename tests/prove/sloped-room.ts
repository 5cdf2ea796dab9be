/**
 * Rooms for the proof of sloped and notched carcasses: under a stair, under a roof slope, beside a boxed beam; with trims
 * that stay on every surface, one of them where a sloped top begins.
 */
import { drawKey } from '../../src/chance/keyed-draws.ts';
import type { Brief } from '../../src/exercise/brief.ts';
import type { Exercise } from '../../src/exercise/exercise.ts';
import { openCode, seedCount, writeCode } from '../../src/exercise/exercise-code.ts';
import { slopeHeight } from '../../src/recess/defect-shapes.ts';
import { familyOf } from '../../src/recess/families/families.ts';
import { drawSurfaces } from '../../src/recess/families/small-defects.ts';
import { extentsOf, type RecessSpec, type Side, type SlopeSpec, type Trim } from '../../src/recess/recess-spec.ts';
import { severities } from '../../src/recess/severity.ts';
import { exerciseIn } from '../helpers/rooms.ts';
import type { Draws } from './draws.ts';

/** Rooms of our own, then those that codes draw. */
export const slopedKinds = ['stair', 'roof', 'beam', 'stair and beam', 'under-stair', 'roof-slope'] as const;
export type SlopedKind = (typeof slopedKinds)[number];

/** Degrees of pitch by their rise, mm per m: tan of 30, 34, 38, 42, 46 and 50, rounded. */
const rises = [577, 675, 781, 900, 1036, 1192];

/** An exercise in a drawn room of a kind. */
export function slopedRoom(draws: Draws, kind: SlopedKind): Exercise {
  return kind === 'under-stair' || kind === 'roof-slope' ? roomOfCode(draws, kind) : ownRoom(draws, kind);
}

function roomOfCode(draws: Draws, family: 'under-stair' | 'roof-slope'): Exercise {
  const structure = draws.one(familyOf(family).structures).name;
  const severity = draws.one(severities).name;
  const opened = openCode(writeCode({ family, structure, severity, kit: 'site', seed: draws.pick(seedCount) }));
  if (!opened.ok) throw new Error(opened.error.says);
  return opened.value;
}

function ownRoom(draws: Draws, kind: Exclude<SlopedKind, 'under-stair' | 'roof-slope'>): Exercise {
  const low = draws.one(['left', 'right'] as const);
  const width = 10 * Math.round(draws.between(80, 180));
  const slope: SlopeSpec = { low, lowMm: 10 * Math.round(draws.between(45, 130)), riseMmPerM: draws.one(rises) };
  const end = slopeHeight(slope, width, low === 'left' ? width / 2 : -width / 2);
  // Under a stair the ceiling is seldom met; under a roof it cuts the slope off.
  const over = kind === 'roof' ? draws.between(0.35, 0.9) * (end - slope.lowMm) + slope.lowMm : end + 200;
  const height = kind === 'beam' ? 2400 : 10 * Math.round(Math.min(Math.max(over, 900), 2700) / 10);
  const openingMm = { width, height, depth: 10 * Math.round(draws.between(33, 80)) };
  const severity = draws.one(severities);
  const base = { openingMm, mouthMm: -10 * draws.pick(7) };
  const sloped = kind !== 'beam';
  const sides: Side[] = ['left', 'right', 'back', 'floor', 'ceiling', ...(sloped ? (['slope'] as const) : [])];
  const key = drawKey(`sloped/${draws.pick(2 ** 30)}`);
  const beam =
    kind === 'beam' || kind === 'stair and beam' ? drawnBeam(draws, base, low === 'left' ? 'right' : 'left') : null;
  const spec: RecessSpec = {
    format: 'offtrue-spec',
    version: 1,
    family: 'under-stair',
    structure: 'drawn',
    severity: severity.name,
    ...base,
    breastSide: null,
    key: [...key],
    surfaces: drawSurfaces({ family: 'under-stair', key, severity, openingMm, sides, own: [] }),
    ...(sloped ? { slope } : {}),
    trims: [...(beam ? [beam.trim] : []), ...drawnTrims(draws, { ...base, slope: sloped ? slope : null })],
    reference: { kind: 'square-to-wall', heightMm: 500, wavesMm: [0, 0, 0, 0, 0, 0, 0] },
  };
  return exerciseIn(spec, { brief: drawnBrief(draws, spec, beam) });
}

interface Beam {
  readonly trim: Trim;
  readonly side: 'left' | 'right';
  readonly wide: number;
  readonly drop: number;
}

type Base = Pick<RecessSpec, 'openingMm' | 'mouthMm'>;

/** A boxed beam in an upper corner, all the way in. */
function drawnBeam(draws: Draws, base: Base, side: 'left' | 'right'): Beam {
  const { x, y } = extentsOf(base);
  const half = base.openingMm.width / 2;
  const [wide, drop] = [draws.between(80, 260), draws.between(60, 320)];
  const uMm: [number, number] = side === 'left' ? [x[0], -half + wide] : [half - wide, x[1]];
  const profile: Trim['profile'] = {
    along: 'u',
    mm: [
      [uMm[0], drop],
      [uMm[1], drop],
    ],
  };
  return { trim: { name: 'beam', kind: 'beam', surface: 'ceiling', uMm, vMm: [...y], profile }, side, wide, drop };
}

function drawnTrims(draws: Draws, base: Base & { slope: SlopeSpec | null }): Trim[] {
  const { x, y, z } = extentsOf(base);
  const trims: Trim[] = [];
  const band = (of: Omit<Trim, 'name'>) => trims.push({ name: `trim ${trims.length}`, ...of });
  const some = (oneIn: number) => draws.pick(oneIn) === 0;
  const tall = draws.between(60, 170);
  const out = draws.between(12, 22);
  for (const surface of ['left', 'right', 'back'] as const)
    if (some(2)) {
      const uMm: [number, number] = surface === 'back' ? [...x] : [...y];
      const mm: [number, number][] = [
        [z[0], out],
        [tall - 15, out],
        [tall, out / 2],
      ];
      band({ kind: 'skirting', surface, uMm, vMm: [z[0], tall], profile: { along: 'v', mm } });
    }
  if (!base.slope) return trims;
  const { low, lowMm } = base.slope;
  if (some(3)) {
    // A rail just over the low side, where the sloped top draws back.
    const from = lowMm + draws.between(-120, 120);
    const mm: [number, number][] = [
      [from, 10],
      [from + 12, 32],
      [from + 40, 24],
    ];
    band({ kind: 'picture-rail', surface: low, uMm: [...y], vMm: [from, from + 40], profile: { along: 'v', mm } });
  }
  if (some(3)) {
    const at = draws.between(-0.4, 0.4) * base.openingMm.width;
    const mm: [number, number][] = [
      [at - 45, 8],
      [at, 26],
      [at + 45, 12],
    ];
    band({ kind: 'beam', surface: 'slope', uMm: [at - 45, at + 45], vMm: [...y], profile: { along: 'u', mm } });
  }
  if (some(3)) {
    const at = draws.between(0.2, 0.8) * base.openingMm.depth;
    const mm: [number, number][] = [
      [at - 30, 6],
      [at + 30, 22],
    ];
    band({ kind: 'beam', surface: 'slope', uMm: [...x], vMm: [at - 30, at + 30], profile: { along: 'v', mm } });
  }
  return trims;
}

/** A brief whose nominal is a little smaller than the room, or now and then a little larger. */
function drawnBrief(draws: Draws, spec: RecessSpec, beam: Beam | null): Partial<Brief> {
  const { width, height, depth } = spec.openingMm;
  const loose = draws.one([14, 22, 30, 40, 60]) - (draws.pick(6) === 0 ? 20 : 0);
  const plinth = draws.one([0, 60, 90, 120]);
  const thick = spec.trims.filter((t) => t.kind === 'skirting').length > 0 && draws.pick(3) > 0 ? 44 : 0;
  const made = { width: width - loose - thick, height: height - plinth - loose, depth: depth - 20 - loose - thick / 2 };
  const find = (nominalMm: number) => ({ nominalMm: Math.max(60, Math.round(nominalMm)), find: true });
  const { slope } = spec;
  const at = (share: number) =>
    slope ? Math.round(slopeHeight(slope, width, share * made.width) - plinth - loose) : 0;
  const ends = [at(-0.5), at(0.5)].sort((a, b) => a - b);
  return {
    carcassMm: { width: find(made.width), height: find(made.height), depth: find(made.depth) },
    askMm: { left: draws.pick(6), right: draws.pick(6), top: draws.pick(12), back: draws.pick(10) },
    plinthMm: plinth,
    access:
      draws.pick(3) === 0 ? null : { clearHeightMm: height + draws.pick(300), plinthSeparate: draws.pick(2) === 0 },
    ...(slope
      ? {
          slope: {
            low: slope.low,
            lowMm: Math.max(0, ends[0] as number),
            highMm: Math.max(0, ends[1] as number),
            find: true,
          },
        }
      : {}),
    ...(beam
      ? { notch: { side: beam.side, widthMm: Math.round(beam.wide + loose / 2), heightMm: Math.round(beam.drop + 4) } }
      : {}),
  };
}
