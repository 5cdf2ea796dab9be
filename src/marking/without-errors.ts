/**
 * A survey as it stands with the errors of rule, hand and eye off: what an act would show of the room itself. It is acted
 * through the same door as everyone's, and nothing of it stands in the log.
 */
import { nominalObstruction } from '../recess/defect-shapes.ts';
import { axesOf, type Side, trueOf } from '../recess/recess-spec.ts';
import type { Act, SurfacePlace } from '../survey/act.ts';
import { perform } from '../survey/acting.ts';
import type { Done, Outcome } from '../survey/outcome.ts';
import { drawRuleErrors } from '../survey/rule.ts';
import type { Survey } from '../survey/survey.ts';

/** Gives a survey as it stands with the errors of rule, hand and eye off, and all lines told in mm. */
export function withoutErrors(survey: Survey): Survey {
  const { world } = survey;
  const { wornMm: _worn, ...rule } = world.exercise.kit.rule;
  const kit = { ...world.exercise.kit, rule: { ...rule, errors: false } };
  const exercise = { ...world.exercise, kit, aids: { ...world.exercise.aids, seenInMm: true } };
  return { ...survey, handedIn: false, world: { ...world, exercise, rule: drawRuleErrors(world.key, kit.rule) } };
}

/** Acts without errors. */
export function actExactly(survey: Survey, act: Act): Outcome {
  return perform(withoutErrors(survey), act).outcome;
}

/** Acts without errors; null when it is refused. */
export function wouldSee(survey: Survey, act: Act): Done | null {
  const outcome = actExactly(survey, act);
  return outcome.ok ? outcome : null;
}

/** Gives where on its surface a place is said to be so that it is found at own coordinates, to the whole millimetre. */
export function handPlaceOf(
  from: { readonly survey: Survey; readonly bay: 1 | 2 },
  side: Side,
  at: { readonly u: number; readonly v: number },
): SurfacePlace {
  const { survey, bay } = from;
  const surface = { surface: side, ...(bay === 1 ? {} : { bay }) };
  const { shift, xAxis } = survey.world.hand;
  const { x: c, y: s } = xAxis;
  const { spec } = survey.world.exercise;
  const axes = axesOf(side);
  if (axes.across === 'z') {
    const [dx, dy] = [at.u - shift.x, at.v - shift.y];
    return { ...surface, xMm: whole(c * dx + s * dy), yMm: whole(c * dy - s * dx) };
  }
  const straight = trueOf(side, nominalObstruction(spec, side, 0));
  const zMm = whole(at.v - shift.z);
  if (side === 'back') return { ...surface, xMm: whole((at.u - shift.x + s * straight) / c), zMm };
  return { ...surface, yMm: whole((at.u - shift.y - s * straight) / c), zMm };
}

function whole(mm: number): number {
  return 0 + Math.round(mm);
}
