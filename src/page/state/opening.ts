/**
 * Opening an alcove: the exercise of a code, and for a newcomer the level already standing and lined up.
 */

import type { Exercise } from '../../exercise/exercise.ts';
import { type CodeResult, openCode, seedCount, writeCode } from '../../exercise/exercise-code.ts';
import { isPhysical } from '../../exercise/kit.ts';
import { takeInHand } from '../../learners/hand.ts';
import { standOnReference } from '../../learners/lining-up.ts';
import { standingPlace } from '../../learners/sloped-plan.ts';
import { familyOf } from '../../recess/families/families.ts';
import { beginSurvey, type Entry } from '../../survey/survey.ts';
import { openWorld } from '../../survey/world.ts';

/** Gives the code of a fresh room. */
export function freshCode(kit: string, severity = 'settled', family = 'alcove'): string {
  const draw = new Uint32Array(2);
  crypto.getRandomValues(draw);
  const seed = (draw[0] ?? 0) % seedCount;
  const { structures } = familyOf(family);
  const structure = structures[(draw[1] ?? 0) % structures.length]?.name ?? '';
  return writeCode({ family, severity, structure, kit, seed });
}

/** Gives the exercise of a code. */
export function exerciseOfCode(code: string): CodeResult<Exercise> {
  return openCode(code);
}

/**
 * Gives the acts by which a level is stood in the mouth, lined up and settled, with what came of them; none where the
 * level itself may be out, for then it is checked first.
 */
export function standingStart(exercise: Exercise): readonly Entry[] {
  if (isPhysical(exercise.kit)) return [];
  const hand = takeInHand(beginSurvey(openWorld(exercise)));
  const { spec, brief } = exercise;
  for (const trim of spec.trims) if (brief.fates[trim.name] === 'off') hand.act({ act: 'clear', trim: trim.name });
  const { heightMm, xMm } = standingPlace(brief);
  standOnReference(hand, heightMm, xMm);
  return hand.now().entries;
}
