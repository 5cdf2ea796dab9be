/**
 * Briefs for carcasses with a sloped top, under a stair and under a roof, drawn with the room: sizes are common practice
 * for fitted joinery, from memory, no source.
 */
import { type DrawKey, pick, purpose } from '../../chance/keyed-draws.ts';
import type { Fate, RecessSpec, SlopeSpec, Trim } from '../../recess/recess-spec.ts';
import type { Brief } from '../brief.ts';
import { like } from './like.ts';
import { waverMm } from './lining-brief.ts';

/** A flat top narrower than this is made as it stands, mm: a rule has no room beside the slope. */
const widthOfFlatMm = 220;

/** Room between the opening and the nominal carcass, mm, by severity, so that the nominal itself goes in in nearly all rooms. */
const spare: Readonly<Record<string, { width: number; overhead: number; depth: number }>> = {
  settled: { width: 26, overhead: 30, depth: 18 },
  old: { width: 38, overhead: 46, depth: 28 },
  stone: { width: 54, overhead: 68, depth: 40 },
};

/** Draws the brief of a carcass under a stair. */
export function drawUnderStairBrief(spec: RecessSpec): Brief {
  const one = drawsOf(spec, 'exercise/under-stair-brief');
  const fates: Record<string, Fate> = {};
  for (const t of spec.trims) fates[t.name] = t.kind === 'skirting' ? 'off' : 'stays';
  return slopedBrief(spec, { one, fates, plinthMm: one(0, [80, 100, 120]), way: ['door'] });
}

/** Draws the brief of a carcass under a roof slope: it comes up a stair that turns. */
export function drawRoofSlopeBrief(spec: RecessSpec): Brief {
  const one = drawsOf(spec, 'exercise/roof-slope-brief');
  const fates: Record<string, Fate> = {};
  for (const t of spec.trims) fates[t.name] = t.kind === 'skirting' ? 'off' : 'stays';
  return slopedBrief(spec, { one, fates, plinthMm: one(0, [60, 80, 100]), way: ['door', 'turn'] });
}

type One = <T>(index: number, of: readonly T[]) => T;

function drawsOf(spec: RecessSpec, name: string): One {
  const why = purpose(name);
  const key: DrawKey = spec.key;
  return (index, of) => of[pick(key, why, { index, count: of.length })] as (typeof of)[number];
}

interface SlopedDraw {
  readonly one: One;
  readonly fates: Brief['fates'];
  readonly plinthMm: number;
  /** What the way in has beside the room where it is stood up. */
  readonly way: readonly ('door' | 'turn')[];
}

function slopedBrief(spec: RecessSpec, of: SlopedDraw): Brief {
  const { one, fates, plinthMm } = of;
  const { slope } = spec;
  if (!slope) throw new RangeError(`brief: a ${spec.family} has a slope`);
  const { width, height, depth } = spec.openingMm;
  const loose = spare[like(spec.severity)] ?? { width: 70, overhead: 90, depth: 50 };
  const out = standingOut(spec, fates);
  const frontMm = one(10, [18, 20, 22]);
  const side = one(11, [3, 4, 5]);
  const carcass = {
    width: down(width - loose.width - out('left') - out('right')),
    depth: down(depth - frontMm - loose.depth - out('back')),
  };
  const line = slopeLine({ slope, width, carcassWidth: carcass.width, highOut: out(highOf(slope)) });
  const under = plinthMm + loose.overhead + out('slope');
  const [lowMm, highMm] = [down(line.lowMm - under), down(line.highMm - under)];
  const flat = spec.surfaces.ceiling ? down(height - plinthMm - loose.overhead - out('ceiling')) : null;
  const tall = flat === null ? 10 * Math.ceil((highMm + loose.overhead) / 10) : Math.min(flat, highMm);
  return {
    openingMm: { width, height, depth },
    mouthMm: spec.mouthMm,
    reference: spec.reference.kind,
    referenceWaverMm: waverMm(spec),
    carcassFrontMm: frontMm,
    carcassMm: {
      width: { nominalMm: carcass.width, find: true },
      height: { nominalMm: tall, find: flat !== null && 1000 * (highMm - flat) >= widthOfFlatMm * slope.riseMmPerM },
      depth: { nominalMm: carcass.depth, find: one(12, [true, true, false]) },
    },
    askMm: { left: side, right: side, top: one(13, [5, 6, 8]), back: one(14, [5, 8, 10]) },
    plinthMm,
    frame: null,
    finishMm: [],
    fates,
    access: access(of, { width: carcass.width, height: tall, depth: carcass.depth }),
    slope: { low: slope.low, lowMm, highMm, find: true },
  };
}

/** Where the slope's plane stands over the edges of a carcass that shares what is spare between the walls. */
function slopeLine(of: { slope: SlopeSpec; width: number; carcassWidth: number; highOut: number }) {
  const { slope, width, carcassWidth, highOut } = of;
  const inward = (width - highOut - carcassWidth) / 2;
  const at = (mm: number) => slope.lowMm + (slope.riseMmPerM * mm) / 1000;
  return { lowMm: at(inward), highMm: at(inward + carcassWidth) };
}

function highOf(slope: SlopeSpec): 'left' | 'right' {
  return slope.low === 'left' ? 'right' : 'left';
}

/** How far what stays stands out of a side, at most. */
function standingOut(spec: RecessSpec, fates: Brief['fates']): (side: Trim['surface']) => number {
  const stays = spec.trims.filter((t) => fates[t.name] === 'stays');
  return (side) =>
    Math.max(0, ...stays.filter((t) => t.surface === side).map((t) => Math.max(...t.profile.mm.map(([, mm]) => mm))));
}

/** The room where it is stood up, the door and the turn, each a little more or a little less than the nominal needs. */
function access(
  of: SlopedDraw,
  nominal: { width: number; height: number; depth: number },
): NonNullable<Brief['access']> {
  const { one, way } = of;
  const { width, height, depth } = nominal;
  const diagonal = Math.sqrt(height * height + depth * depth);
  const [small, middle] = [width, height, depth].sort((a, b) => a - b) as [number, number, number];
  const fives = (mm: number) => 5 * Math.ceil(mm / 5);
  return {
    clearHeightMm: 10 * Math.ceil((diagonal + one(20, [30, 70, 120])) / 10),
    plinthSeparate: true,
    ...(way.includes('door')
      ? {
          door: {
            widthMm: fives(small + one(21, [-15, 25, 45, 80])),
            heightMm: fives(Math.max(1960, middle + one(22, [30, 60]))),
          },
        }
      : {}),
    ...(way.includes('turn')
      ? {
          turn: {
            beforeMm: one(23, [900, 1000, 1150, 1300]),
            afterMm: one(24, [900, 1050, 1200, 1350]),
            heightMm: one(25, [1960, 2050, 2150]),
          },
        }
      : {}),
  };
}

function down(mm: number): number {
  return 5 * Math.floor(mm / 5);
}
