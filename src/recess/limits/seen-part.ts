/**
 * The part of a surface that is measured: what can be seen of it, its bands taken off.
 *
 * Side walls from their beginning to the nominal back, floor and ceiling from the reach before the mouth to the back, all
 * between the nominal walls, floor and ceiling; on by the reach where a side is open or runs on into the room. Under a
 * slope walls end at it, the back is cut along it, and the ceiling begins where it meets it.
 */
import { slopeHeight } from '../defect-shapes.ts';
import { extentsOf, isOpen, type RecessSpec, type Side } from '../recess-spec.ts';

export interface SeenPart {
  readonly u: readonly [number, number];
  readonly v: readonly [number, number];
  /** Beside that, v is at most `at` + `perU` * u: the back under a slope. */
  readonly under: { readonly at: number; readonly perU: number } | null;
}

/** Parts narrower than this are not measured. */
const leastMm = 100;

/** Gives the part of a side that is measured; null where it is open or next to nothing of it is seen. */
export function seenPart(spec: RecessSpec, side: Side): SeenPart | null {
  if (isOpen(spec, side)) return null;
  const part = wholePart(spec, side);
  return part.u[1] - part.u[0] < leastMm || part.v[1] - part.v[0] < leastMm ? null : part;
}

/** Gives the stretch of a part along an axis, where it is crossed at a place of the other; null where it is too short. */
export function stretchOf(part: SeenPart, along: 'u' | 'v', across: number): readonly [number, number] | null {
  const { under } = part;
  if (!under) return part[along];
  let [from, to] = part[along];
  if (along === 'v') to = Math.min(to, under.at + under.perU * across);
  else if (under.perU > 0) from = Math.max(from, (across - under.at) / under.perU);
  else if (under.perU < 0) to = Math.min(to, (across - under.at) / under.perU);
  return to - from < leastMm ? null : [from, to];
}

/** Says whether a place lies in a part. */
export function isIn(part: SeenPart, u: number, v: number): boolean {
  const { under } = part;
  return (
    u >= part.u[0] &&
    u <= part.u[1] &&
    v >= part.v[0] &&
    v <= part.v[1] &&
    (under === null || v <= under.at + under.perU * u)
  );
}

function wholePart(spec: RecessSpec, side: Side): SeenPart {
  const { width, height, depth } = spec.openingMm;
  const { x, y } = extentsOf(spec);
  const before: readonly [number, number] = [y[0], depth];
  if (side === 'left' || side === 'right') {
    const top = spec.slope
      ? Math.min(height, slopeHeight(spec.slope, width, side === 'left' ? -width / 2 : width / 2))
      : height;
    return { u: side === spec.breastSide ? [spec.mouthMm, depth] : before, v: [0, top], under: null };
  }
  const across: readonly [number, number] = [
    isOpen(spec, 'left') ? x[0] : -width / 2,
    isOpen(spec, 'right') ? x[1] : width / 2,
  ];
  if (side === 'back') return { u: across, v: [0, height], under: underSlope(spec) };
  return { u: side === 'floor' ? across : meetSlope(spec, side, across), v: before, under: null };
}

function underSlope(spec: RecessSpec): SeenPart['under'] {
  if (!spec.slope) return null;
  const { width } = spec.openingMm;
  const at = slopeHeight(spec.slope, width, 0);
  return { at, perU: ((spec.slope.low === 'left' ? 1 : -1) * spec.slope.riseMmPerM) / 1000 };
}

/** The slope as far as the ceiling, the ceiling from there on. */
function meetSlope(
  spec: RecessSpec,
  side: 'ceiling' | 'slope',
  across: readonly [number, number],
): readonly [number, number] {
  const under = underSlope(spec);
  if (!under || isOpen(spec, 'ceiling')) return across;
  const meet = Math.min(Math.max((spec.openingMm.height - under.at) / under.perU, across[0]), across[1]);
  const low = under.perU > 0;
  return (side === 'slope') === low ? [across[0], meet] : [meet, across[1]];
}
