/**
 * Readings on bands that stay: the face of a rail or a boxing, the underside of a beam or a cornice, where it stands out
 * most. A plan of even steps can miss a narrow one, and no one who looks would.
 */
import { finishOn } from '../exercise/brief.ts';
import type { Exercise } from '../exercise/exercise.ts';
import type { Trim } from '../recess/recess-spec.ts';
import { carcassDepths, carcassHeights, evenSteps, type PlannedReading, wallSizes } from './reading-plan.ts';

type Stretch = readonly [number, number];

/** Readings along one band are no further apart than this, and keep this far inside its edges, mm. */
const apartMm = 450;
const insideMm = 12;

/** Plans readings on every band that stays and that the carcass comes to. */
export function bandReadings({ spec, brief }: Exercise): readonly PlannedReading[] {
  const half = brief.carcassMm.width.nominalMm / 2 - insideMm;
  const heights = { from: brief.plinthMm + finishOn(brief, 'floor'), to: carcassHeights(brief).to };
  const depths = carcassDepths(brief);
  return spec.trims
    .filter((t) => brief.fates[t.name] === 'stays')
    .flatMap((t): PlannedReading[] => {
      if (t.surface === 'ceiling') {
        const at = placesOn(t, { u: [-half, half], v: [depths.from, depths.to] });
        return at.map(([xMm, yMm]) => reading('L', { surface: 'ceiling', xMm, yMm }, 'carcass-height'));
      }
      if (t.surface === 'left' || t.surface === 'right') {
        const { surface } = t;
        const at = placesOn(t, { u: [depths.from, depths.to], v: [heights.from, heights.to] });
        return at.map(([yMm, zMm]) => ({ datum: 'S', place: { surface, yMm, zMm }, for: wallSizes(brief, surface) }));
      }
      if (t.surface !== 'back' || !brief.carcassMm.depth.find) return [];
      const at = placesOn(t, { u: [-half, half], v: [heights.from, heights.to] });
      return at.map(([xMm, zMm]) => reading('F', { surface: 'back', xMm, zMm }, 'carcass-depth'));
    });
}

function reading(
  datum: string,
  place: PlannedReading['place'],
  size: 'carcass-height' | 'carcass-depth',
): PlannedReading {
  return { datum, place, for: [size] };
}

/** Places over the part of a band that stands out most, as far as it lies within limits: u, v. */
function placesOn(trim: Trim, limits: { u: Stretch; v: Stretch }): (readonly [number, number])[] {
  const along = trim.profile.along;
  const deepest = deepestStretch(trim);
  const u = common(along === 'u' ? deepest : (trim.uMm as Stretch), limits.u);
  const v = common(along === 'v' ? deepest : (trim.vMm as Stretch), limits.v);
  if (!u || !v) return [];
  return steps(u).flatMap((at) => steps(v).map((across) => [at, across] as const));
}

function steps([from, to]: Stretch): readonly number[] {
  const count = to - from < 30 ? 1 : Math.max(2, Math.ceil((to - from) / apartMm) + 1);
  return evenSteps(from, to, count).map(Math.round);
}

/** The stretch of a profile over which it is at its most. */
function deepestStretch(trim: Trim): Stretch {
  const most = Math.max(...trim.profile.mm.map(([, out]) => out));
  const at = trim.profile.mm.filter(([, out]) => out === most).map(([place]) => place);
  return [Math.min(...at), Math.max(...at)];
}

/** What two stretches have in common, a little inside; null where there is nothing. */
function common(a: Stretch, b: Stretch): Stretch | null {
  const from = Math.max(a[0], b[0]);
  const to = Math.min(a[1], b[1]);
  if (to < from) return null;
  const inside = Math.min(insideMm, (to - from) / 2);
  return [from + inside, to - inside];
}
