/**
 * M28 and M29: a trim that stays decides, and nothing was read on it: a skirting below, a cornice above.
 */
import { axesOf, type Side, type Trim } from '../../recess/recess-spec.ts';
import type { SizeName } from '../../survey/size.ts';
import { byTightest } from './catching.ts';
import { type Evidence, leftOutMm, stayingAt } from './evidence.ts';
import { type Found, type Mistake, type MistakeId, nothingMm } from './mistake.ts';

export const skirtingMissed: Mistake = missed('M28', 'skirting left out', {
  kinds: ['skirting'],
  where: [
    ['carcass-width', 'left'],
    ['carcass-width', 'right'],
    ['carcass-depth', 'back'],
  ],
  happened: 'A skirting stays, and the carcass has to pass it: it is nearer than the wall above it.',
  did: 'You read the wall above the skirting and nothing on the skirting itself.',
  next: 'Read to the face of a skirting that stays, wherever the carcass comes down to it.',
});

export const corniceMissed: Mistake = missed('M29', 'cornice left out', {
  kinds: ['cornice', 'coving'],
  where: [['carcass-height', 'ceiling']],
  happened: 'A cornice stays, and the top of the carcass comes under it: it hangs lower than the ceiling beside it.',
  did: 'You read up to the bare ceiling and nothing up to the cornice.',
  next: 'Read up to the underside of a cornice that stays, wherever the carcass comes under it.',
});

interface Missing {
  readonly kinds: readonly Trim['kind'][];
  readonly where: readonly (readonly [SizeName, Side])[];
  readonly happened: string;
  readonly did: string;
  readonly next: string;
}

function missed(id: MistakeId, name: string, of: Missing): Mistake {
  return { id, name, find: (from) => find(from, of) };
}

function find(from: Evidence, of: Missing): Found | null {
  const costs = of.where
    .filter(([size, side]) => isMissed(from, of.kinds, { size, side }))
    .map(([size, side], i) => ({ size, side, i, mm: leftOutMm(from, size, side) }));
  const bySize = new Map<SizeName, number>();
  for (const c of costs) bySize.set(c.size, (bySize.get(c.size) ?? 0) + c.mm);
  const costMm = Math.max(0, ...bySize.values());
  const [worst] = [...costs].sort((a, b) => b.mm - a.mm || a.i - b.i);
  if (costMm <= nothingMm || !worst) return null;
  const sizes = [worst.size, ...[...bySize.keys()].filter((size) => size !== worst.size)];
  return {
    costMm,
    sizes,
    acts: sizes.flatMap((size) => from.placesRead(size).map((p) => p.n)),
    caught: byTightest(from, worst.size, worst.side, (at) => isKind(stayingAt(from, worst.side, at), of.kinds)),
    happened: [of.happened],
    did: [of.did],
    next: [of.next],
  };
}

/** A trim of the kind decides on the side, the side was read, and none of what was read was on such a trim. */
function isMissed(from: Evidence, kinds: Missing['kinds'], of: { size: SizeName; side: Side }): boolean {
  if (!from.sizes.includes(of.size)) return false;
  const places = from.placesRead(of.size).filter((p) => p.side === of.side && p.trueMm !== null);
  const decided = from.domain(of.size).decidedAt.find((d) => d.side === of.side);
  if (places.length === 0 || !decided) return false;
  const axes = axesOf(of.side);
  const trim = stayingAt(from, of.side, { u: decided.at[axes.u], v: decided.at[axes.v] });
  return isKind(trim, kinds) && !places.some((p) => isKind(p.at.on, kinds));
}

function isKind(trim: Trim | null, kinds: Missing['kinds']): boolean {
  return trim !== null && kinds.includes(trim.kind);
}
