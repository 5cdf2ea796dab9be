/**
 * Briefs for linings, of a window reveal and of a door opening, drawn with the room: sizes are common practice for
 * joinery, from memory, no source.
 */
import { type DrawKey, pick, purpose } from '../../chance/keyed-draws.ts';
import { waviness } from '../../recess/families/drawn-spec.ts';
import type { Fate, RecessSpec, Trim } from '../../recess/recess-spec.ts';
import type { Brief } from '../brief.ts';
import { like } from './like.ts';

/**
 * Room between the opening and the nominal lining, mm, by severity, so that the nominal itself goes in in nearly all
 * rooms.
 */
const spare: Readonly<Record<string, { width: number; height: number }>> = {
  settled: { width: 28, height: 18 },
  old: { width: 40, height: 26 },
  stone: { width: 56, height: 36 },
};

/** Draws the brief of a reveal's lining: jambs, head and board. */
export function drawRevealBrief(spec: RecessSpec): Brief {
  const one = drawsOf(spec, 'exercise/reveal-brief');
  const beadsStay = one(0, [true, false]);
  const board = one(1, ['off', 'cut'] as const);
  const fates: Record<string, Fate> = {};
  for (const t of spec.trims) fates[t.name] = t.kind === 'window-board' ? board : beadsStay ? 'stays' : 'off';
  return liningBrief(spec, {
    one,
    fates,
    bedMm: one(2, [3, 5, 8]),
    finishMm: [],
  });
}

/** Draws the brief of a door lining: two jambs and a head over a floor that may get its finish later. */
export function drawDoorwayBrief(spec: RecessSpec): Brief {
  const one = drawsOf(spec, 'exercise/doorway-brief');
  const fates: Record<string, Fate> = {};
  for (const t of spec.trims) fates[t.name] = t.kind === 'pipe-boxing' ? 'stays' : 'off';
  const thicknessMm = one(0, [0, 0, 8, 12, 15, 18, 22]);
  return liningBrief(spec, {
    one,
    fates,
    bedMm: 0,
    finishMm: thicknessMm > 0 ? [{ surface: 'floor', mm: thicknessMm }] : [],
  });
}

type One = <T>(index: number, of: readonly T[]) => T;

function drawsOf(spec: RecessSpec, name: string): One {
  const why = purpose(name);
  const key: DrawKey = spec.key;
  return (index, of) => of[pick(key, why, { index, count: of.length })] as (typeof of)[number];
}

function liningBrief(
  spec: RecessSpec,
  of: { one: One; fates: Brief['fates']; bedMm: number; finishMm: Brief['finishMm'] },
): Brief {
  const { one, fates, bedMm, finishMm } = of;
  const { width, height, depth } = spec.openingMm;
  const loose = spare[like(spec.severity)] ?? { width: 70, height: 46 };
  const stands = spec.trims.filter((t) => fates[t.name] === 'stays');
  const thick = (surface: Trim['surface']) =>
    Math.max(
      0,
      ...stands.filter((t) => t.surface === surface).map((t) => Math.max(...t.profile.mm.map(([, out]) => out))),
    );
  const pack = one(10, [4, 5, 6, 8]);
  const finish = finishMm.reduce((sum, f) => sum + f.mm, 0);
  const down = (mm: number) => 5 * Math.floor(mm / 5);
  const most = { settled: 24, old: 34, stone: 52 }[like(spec.severity)] ?? 40;
  return {
    openingMm: { width, height, depth },
    mouthMm: spec.mouthMm,
    reference: spec.reference.kind,
    referenceWaverMm: waverMm(spec),
    carcassFrontMm: 0,
    carcassMm: {
      width: { nominalMm: down(width - thick('left') - thick('right') - loose.width), find: true },
      height: { nominalMm: down(height - bedMm - finish - thick('ceiling') - loose.height), find: true },
      depth: { nominalMm: depth, find: true },
    },
    askMm: { left: pack, right: pack, top: one(11, [4, 5, 6]), back: 0 },
    plinthMm: bedMm,
    frame: null,
    finishMm,
    fates,
    access: null,
    lining: { thicknessMm: one(12, [25, 28, 32]), leastStockMm: one(13, [2, 3]), mostStockMm: most },
  };
}

/** How far a reference is seen to waver either way, mm: by its kind and the house's severity, to half a millimetre. */
export function waverMm(spec: Pick<RecessSpec, 'severity' | 'reference'>): number {
  const cornice = { settled: 1, old: 1.5, stone: 2.5 }[like(spec.severity)] ?? 2.5;
  return Math.max(0.5, Math.round(2 * cornice * waviness(spec.reference.kind)) / 2);
}
