/**
 * Keeps a spec inside a document's limits: what is drawn too large is made smaller, each surface by one factor, so that
 * which surface is bad, and how, is still what the structure drew.
 *
 * Every room has a share drawn. No surface takes more of its limit than that; those that would take more are scaled down to
 * it, then both sides of a size that would. Half of the rooms are *at the limit*: their share lies between 0.94 and 0.97,
 * and what is scaled is scaled up again, all by one factor, until the worst surface takes just that. What no rule of the
 * document sees is left as it was drawn.
 */
import { between, type DrawKey, pick, purpose } from '../../chance/keyed-draws.ts';
import type { HeightField } from '../../geometry/height-field.ts';
import { buildFields } from '../defect-shapes.ts';
import { builtSides, type Defect, type RecessSpec, type Side, type SurfaceSpec } from '../recess-spec.ts';
import { isSeen, type Limits } from './limits.ts';
import { seenPart } from './seen-part.ts';
import { sheetOf } from './sheet.ts';
import { sizeShares } from './size-share.ts';
import { worstShare } from './worst-share.ts';

/** How much of its limits a room is drawn to take. */
export interface Target {
  readonly atLimit: boolean;
  /** At the limit: what its worst surface takes, near enough; else: what none takes more of. */
  readonly share: number;
}

/** Gives the target that a room's key draws. */
export function targetOf(key: DrawKey): Target {
  const atLimit = pick(key, whyTarget, { index: 0, count: 2 }) === 0;
  const [from, to] = atLimit ? [0.94, 0.97] : [0.4, 0.9];
  return { atLimit, share: between(key, whyTarget, { index: 1, from, to }) };
}

/** Keeps a spec inside limits, each recess of a pair by itself; without limits it is the spec itself. */
export function limitSpec(spec: RecessSpec, limits: Limits | undefined): RecessSpec {
  if (!limits) return spec;
  const target = targetOf(spec.key);
  const { second, ...first } = spec;
  const kept = limitRecess(first, limits, target);
  if (!second) return kept;
  const { atXMm: _at, ...its } = second;
  return { ...kept, second: { ...second, surfaces: limitRecess({ ...first, ...its }, limits, target).surfaces } };
}

function limitRecess(spec: RecessSpec, limits: Limits, { atLimit, share }: Target): RecessSpec {
  const worst = surfaceShares(spec, limits, buildFields(spec));
  const factors = new Map<Side, number>();
  for (const [side, taken] of worst) factors.set(side, Math.min(1, share / taken));
  const sized = sizeFactors(spec, limits, { factors, share });
  if (atLimit) {
    const most = Math.max(sized.share, ...[...worst].map(([side, taken]) => taken * (factors.get(side) ?? 1)));
    for (const [side, factor] of factors) factors.set(side, (factor * share) / most);
  }
  return scaled(spec, limits, factors);
}

const whyTarget = purpose('recess/limits/target');

/** What each surface that is seen takes of its limit, those of nothing left out. */
function surfaceShares(
  spec: RecessSpec,
  limits: Limits,
  fields: Readonly<Record<Side, HeightField>>,
): ReadonlyMap<Side, number> {
  const shares = new Map<Side, number>();
  for (const side of builtSides(spec)) {
    const part = seenPart(spec, side);
    const worst = part && worstShare(sheetOf(spec, side, { field: fields[side], part }), limits.surfaces);
    if (worst && worst.share > 0) shares.set(side, worst.share);
  }
  return shares;
}

/** Scales both sides of each size that takes too much, and gives the most that one then takes. */
function sizeFactors(
  spec: RecessSpec,
  limits: Limits,
  by: { factors: Map<Side, number>; share: number },
): { share: number } {
  const { factors, share } = by;
  if (limits.sizes.length === 0) return { share: 0 };
  const now = () => sizeShares(spec, buildFields(scaled(spec, limits, factors)), limits.sizes);
  for (const size of now())
    if (size.share > share)
      for (const side of size.sides) factors.set(side, ((factors.get(side) ?? 1) * share) / size.share);
  return { share: Math.max(0, ...now().map((size) => size.share)) };
}

/** Scales the surfaces, each by its factor: what the document sees of them, and their unevenness. */
function scaled(spec: RecessSpec, limits: Limits, factors: ReadonlyMap<Side, number>): RecessSpec {
  const surfaces = { ...spec.surfaces };
  for (const [side, factor] of factors) {
    const surface = surfaces[side];
    if (surface && factor !== 1)
      surfaces[side] = scaledSurface(surface, factor, (d) => isSeen(limits, side, d), limits.sizes.length > 0);
  }
  return { ...spec, surfaces };
}

function scaledSurface(
  surface: SurfaceSpec,
  factor: number,
  seen: (d: Defect) => boolean,
  sized: boolean,
): SurfaceSpec {
  return {
    offsetMm: sized ? toFineGrain(surface.offsetMm * factor) : surface.offsetMm,
    wobbleMm: toFineGrain(surface.wobbleMm * factor),
    defects: surface.defects
      .map((d) => (seen(d) ? { ...d, mm: toFineGrain(d.mm * factor) } : d))
      .filter((d) => d.mm !== 0),
  };
}

/** Whole 256ths of a millimetre: as a size is drawn in sixteenths, it is kept short, and never -0. */
function toFineGrain(mm: number): number {
  return 0 + Math.round(mm * 256) / 256;
}
