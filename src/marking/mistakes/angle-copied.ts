/**
 * M35: a slope taken as one straight line: an angle, or two places, where it bellies or sags between them.
 */
import type { SizeName } from '../../survey/size.ts';
import { lineOf } from '../ledger.ts';
import { handPlaceOf } from '../without-errors.ts';
import { byReading } from './catching.ts';
import { type Evidence, leftOutMm } from './evidence.ts';
import { type Caught, type Mistake, nothingMm } from './mistake.ts';

/** Places nearer to each other than this along the slope are one chainage, mm. */
const oneChainageMm = 60;
const edges = ['slope-low', 'slope-high'] as const;

export const angleCopied: Mistake = {
  id: 'M35',
  name: 'angle copied, not offsets',
  find: (from) => {
    const sizes = edges.filter((size) => from.sizes.includes(size) && isStraight(from, size));
    const costs = sizes.map((size) => ({
      size,
      mm: Math.abs(lineOf(from.ledger(size), 'coverage') - leftOutMm(from, size, 'floor')),
    }));
    const sorted = [...costs].sort((a, b) => b.mm - a.mm || edges.indexOf(a.size) - edges.indexOf(b.size));
    const [worst] = sorted;
    if (!worst || worst.mm <= nothingMm) return null;
    const read = onSlope(from, worst.size);
    return {
      costMm: worst.mm,
      sizes: sorted.filter((c) => c.mm > nothingMm).map((c) => c.size),
      acts: read.map((p) => p.n),
      caught: between(from, worst.size),
      happened: [
        'The slope is not one straight line. Between the places that were read it comes lower, or stands higher, and the top of the carcass does not follow it.',
      ],
      did: [`You read up to the slope at ${chainages(from, worst.size).length} chainages and drew a straight line.`],
      next: [
        'Read up to the slope from the level line at five places along it or more, and at the front and the back.',
      ],
    };
  },
};

function isStraight(from: Evidence, size: SizeName): boolean {
  const count = chainages(from, size).length;
  return count > 0 && count <= 2;
}

function onSlope(from: Evidence, size: SizeName) {
  return from.placesRead(size).filter((p) => p.side === 'slope' && p.trueMm !== null);
}

/** The chainages that a slope was read at, from left to right. */
function chainages(from: Evidence, size: SizeName): readonly number[] {
  const all = onSlope(from, size)
    .map((p) => p.at.u)
    .sort((a, b) => a - b);
  return all.filter((u, i) => i === 0 || u - (all[i - 1] as number) > oneChainageMm);
}

/** Catches by the place that the slope's line rests on, away from what was read; else half-way between. */
function between(from: Evidence, size: SizeName): Caught | null {
  const read = chainages(from, size);
  const isNew = (u: number) => read.every((r) => Math.abs(r - u) > oneChainageMm);
  const { decidedAt, rects } = from.domain(size);
  const rests = decidedAt.flatMap(({ side, at }) => (side === 'slope' && isNew(at.x) ? [{ u: at.x, v: at.y }] : []));
  const halfWay = (rects.slope ?? []).flatMap((r) =>
    [0.5, 0.35, 0.65].map((share) => ({ u: r.u0 + share * (r.u1 - r.u0), v: (r.v0 + r.v1) / 2 })),
  );
  for (const at of [...rests, ...halfWay.filter((p) => isNew(p.u))]) {
    const caught = byReading(from, size, handPlaceOf(from, 'slope', at));
    if (caught) return caught;
  }
  return null;
}
