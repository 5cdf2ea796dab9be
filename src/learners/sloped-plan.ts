/**
 * The reading plan of a carcass under a slope: offsets from the level line up to the slope at chainages along it, the walls
 * only as high as the carcass stands beside them, the back only under its top.
 *
 * @source five chainages along a rake: common practice, no source (two miss a bow that five meet); seven are our own
 */
import { type Brief, nominalCarcass } from '../exercise/brief.ts';
import { slopedStretch, topAt, topOf } from '../exercise/carcass-shape.ts';
import type { Side, Trim } from '../recess/recess-spec.ts';
import type { SizeName } from '../survey/size.ts';
import {
  carcassDepths,
  carcassHeights,
  cornerMm,
  type Density,
  evenSteps,
  type PlannedReading,
} from './reading-plan.ts';

/** Chainages along a slope: from the carcass's low edge to where its top is flat, both ends too. */
export const slopeChainages = 7;

/**
 * Plans the offsets for a carcass with a sloped top.
 *
 * @param trims - those that are seen: what stays under the slope, a purlin say, is read on its own
 */
export function planUnderSlope(brief: Brief, density: Density, trims: readonly Trim[] = []): readonly PlannedReading[] {
  return [
    ...wallReadings(brief, density),
    ...backReadings(brief, density),
    ...floorReadings(brief, density),
    ...overheadReadings(brief, density, trims),
  ];
}

/**
 * Gives where a level is stood from which one rule reaches what is planned: its level line under the low end of a slope,
 * its square line near the high end, where a rule held level from the wall meets it before it meets the slope.
 */
export function standingPlace(brief: Brief): { readonly xMm: number; readonly heightMm: number } {
  const { width, height } = brief.openingMm;
  if (!brief.slope) return { xMm: 0, heightMm: Math.round(height * 0.45) };
  const low = brief.plinthMm + brief.slope.lowMm;
  const xMm = (brief.slope.low === 'left' ? 1 : -1) * Math.max(0, width / 2 - fromHighWall(width));
  return { xMm: 0 + Math.round(xMm), heightMm: Math.round(Math.min(height * 0.45, low * 0.7)) };
}

/**
 * How far from the high wall the square line stands: within one leg of the rule, so that no leg has to pass under the slope,
 * and such that the legs that are opened to the low wall do not come to the high one; else a little further out.
 */
function fromHighWall(width: number): number {
  const past = (mm: number) => legMm * Math.ceil((width - mm) / legMm) - (width - mm);
  const reaches = (mm: number) => width - mm <= longestMm && past(mm) >= 15 && past(mm) <= mm - 100;
  for (let mm = legMm - 15; mm >= 130; mm -= 5) if (reaches(mm)) return mm;
  for (let mm = legMm + 15; mm < width / 2; mm += 5) if (reaches(mm)) return mm;
  return width / 2;
}

const legMm = 200;
/** What a rule of 2000 mm reaches with walls that stand off, mm. */
const longestMm = 1900;

/** How high the carcass stands over x of the room, by its nominal sizes. */
function topOver(brief: Brief, xMm: number): number {
  const nominal = nominalCarcass(brief);
  const x = Math.min(Math.max(xMm + nominal.widthMm / 2, 0), nominal.widthMm);
  return topAt(topOf(nominal), x);
}

function wallReadings(brief: Brief, density: Density): PlannedReading[] {
  const depths = carcassDepths(brief);
  const { from } = carcassHeights(brief);
  const half = brief.carcassMm.width.nominalMm / 2;
  return (['left', 'right'] as const).flatMap((surface) => {
    const to = from + topOver(brief, surface === 'left' ? -half : half) - 35;
    return evenSteps(depths.from, depths.to, density.wallDepths).flatMap((yMm) =>
      evenSteps(from, to, density.wallHeights).map((zMm) => at('S', { surface, yMm, zMm }, ['carcass-width'])),
    );
  });
}

function backReadings(brief: Brief, density: Density): PlannedReading[] {
  if (!brief.carcassMm.depth.find) return [];
  const { from } = carcassHeights(brief);
  const half = brief.carcassMm.width.nominalMm / 2 - cornerMm;
  return evenSteps(-half, half, density.backWidths + 2).flatMap((xMm) =>
    evenSteps(from, from + topOver(brief, xMm) - 50, density.backHeights).map((zMm) =>
      at('F', { surface: 'back', xMm, zMm }, ['carcass-depth']),
    ),
  );
}

/** The floor is put to every size that stands on it, by its places. */
function floorReadings(brief: Brief, density: Density): PlannedReading[] {
  const half = brief.openingMm.width / 2 - 25;
  return evenSteps(carcassDepths(brief).from, carcassDepths(brief).to, density.flatDepths).flatMap((yMm) =>
    evenSteps(-half, half, density.flatWidths + 2).map((xMm) => at('L', { surface: 'floor', xMm, yMm })),
  );
}

/** How far from the edge of a beam a rule is held to it, mm: the hand is not surer. */
const edgeMm = 14;

/** How far off the line where slope and ceiling meet a rule is held to the ceiling, mm. */
const clearMm = 40;

/** Along the slope where the top is sloped, along the ceiling where it is flat. */
function overheadReadings(brief: Brief, density: Density, trims: readonly Trim[]): PlannedReading[] {
  const nominal = nominalCarcass(brief);
  const half = nominal.widthMm / 2;
  const [from, to] = slopedStretch(nominal) ?? [0, 0];
  const ends = { low: from - half + cornerMm, high: to - half - cornerMm };
  const beams = trims.filter((t) => t.surface === 'slope' && brief.fates[t.name] === 'stays');
  const onBeams = beams.flatMap(({ uMm: [u0, u1] }) => evenSteps(u0 + edgeMm, u1 - edgeMm, 3));
  const slope = [...evenSteps(ends.low, ends.high, slopeChainages), ...onBeams];
  const flat =
    brief.slope?.low === 'left' ? [to - half + clearMm, half - cornerMm] : [cornerMm - half, from - half - clearMm];
  const isFlat = brief.carcassMm.height.find && (flat[1] as number) - (flat[0] as number) > 0;
  const ceiling = isFlat ? evenSteps(flat[0] as number, flat[1] as number, density.flatWidths) : [];
  return evenSteps(carcassDepths(brief).from, carcassDepths(brief).to, density.flatDepths).flatMap((yMm) => [
    ...slope.map((xMm) => at('L', { surface: 'slope', xMm, yMm })),
    ...ceiling.map((xMm) => at('L', { surface: 'ceiling', xMm, yMm }, ['carcass-height'])),
  ]);
}

function at(
  datum: PlannedReading['datum'],
  place: { surface: Side; xMm?: number; yMm?: number; zMm?: number },
  sizes?: readonly SizeName[],
): PlannedReading {
  return { datum, place, ...(sizes ? { for: sizes } : {}) };
}
