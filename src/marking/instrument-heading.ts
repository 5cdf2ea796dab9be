/**
 * The heading for checking the level: each of the three routines gone through and judged before the first reading, and
 * judged rightly. It is there where the exercise says that it is scored and the kit states what its levels may be out by.
 */
import { levelLimits } from '../exercise/kit.ts';
import type { ActOf } from '../survey/act.ts';
import { fold } from '../survey/acting.ts';
import { type CheckName, checkNames, outOfTrue, worstFault } from '../survey/level-body.ts';
import { bodyInUse } from '../survey/set-up-acts.ts';
import { beginSurvey, type Survey } from '../survey/survey.ts';
import type { Evidence, Heading } from './score.ts';

/** So near to its limit a level may be judged either way: marks and hand show no more, mm a metre. */
const eitherWayMmPerM = 0.2;

/** Gives the heading; nothing where it is not scored. */
export function instrumentHeading(survey: Survey): readonly Heading[] {
  const { headings, kit } = survey.world.exercise;
  const { points, scored } = headings.instrument;
  if (scored !== true || !levelLimits(kit)) return [];
  const judged = judgements(survey);
  const shares = checkNames.map((check) => {
    const one = judged.get(check);
    return one === undefined ? 0 : one.right ? 1 : 0.5;
  });
  const share = shares.reduce((sum: number, s) => sum + s, 0) / checkNames.length;
  return [
    {
      name: 'instrument',
      points: Math.round(points * share * 10) / 10,
      of: points,
      evidence: checkNames.map((check): Evidence => {
        const one = judged.get(check);
        const value = one === undefined ? 'not checked' : one.right ? 'judged rightly' : 'judged wrongly';
        return { what: 'level check', of: check, value, acts: one?.acts ?? [] };
      }),
    },
  ];
}

interface Judgement {
  readonly right: boolean;
  readonly acts: readonly number[];
}

/** The last verdict on each routine that was gone through before it, with the level then in use, before the first reading. */
function judgements(survey: Survey): ReadonlyMap<CheckName, Judgement> {
  const judged = new Map<CheckName, Judgement>();
  const gone = new Map<string, number>();
  let now = beginSurvey(survey.world);
  for (const { act, outcome, n } of survey.entries) {
    if (act.act === 'read' && outcome.ok) break;
    if (act.act === 'check' && outcome.ok) {
      const level = act.level ?? 1;
      const key = `${act.check}/${level}/${now.swapped.includes(level)}`;
      const routine = gone.get(key);
      if (act.verdict === undefined) gone.set(key, n);
      else if (routine !== undefined)
        judged.set(act.check, {
          right: isRight(now, { ...act, level, verdict: act.verdict }),
          acts: [routine, n],
        });
    }
    now = fold(now, act, outcome);
  }
  return judged;
}

function isRight(survey: Survey, act: ActOf<'check'> & { level: 1 | 2; verdict: 'use' | 'do-not-use' }): boolean {
  const { kit } = survey.world.exercise;
  const body = bodyInUse(survey, act.level);
  const limit = levelLimits(kit)?.[act.check] ?? 0;
  if (Math.abs(worstFault(body, act.check) - limit) <= eitherWayMmPerM) return true;
  // One that is out may be used with its error allowed for, if that was found as it is.
  if (act.allow) return Math.abs(worstFault(body, act.check) - Math.abs(act.errorMmPerM ?? 0)) <= eitherWayMmPerM;
  return outOfTrue(body, kit, act.check) > 0 === (act.verdict === 'do-not-use');
}
