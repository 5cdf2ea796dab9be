/**
 * The heading for checking the level: each of the three routines gone through and judged before the first reading, and
 * judged rightly. It is there where the exercise says that it is scored and the kit states what its levels may be out by.
 */
import { levelLimits } from '../exercise/kit.ts';
import type { ActOf } from '../survey/act.ts';
import { fold } from '../survey/acting.ts';
import { checkWays } from '../survey/instrument-check.ts';
import { type CheckName, checkNames, type LevelBody, worstFault } from '../survey/level-body.ts';
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

/** The verdicts on each routine that was gone through before it, with the level then in use, before the first reading. */
function judgements(survey: Survey): ReadonlyMap<CheckName, Judgement> {
  const judged = new Map<CheckName, Judgement>();
  const gone = new Map<string, number>();
  const verdicts = new Map<string, ActOf<'check'>[]>();
  let now = beginSurvey(survey.world);
  for (const { act, outcome, n } of survey.entries) {
    if (act.act === 'read' && outcome.ok) break;
    if (act.act === 'check' && outcome.ok) {
      const level = act.level ?? 1;
      const key = `${act.check}/${level}/${now.swapped.includes(level)}`;
      const routine = gone.get(key);
      if (act.verdict === undefined) gone.set(key, n);
      else if (routine !== undefined) {
        const all = [...(verdicts.get(key) ?? []).filter((v) => v.of !== act.of), act];
        verdicts.set(key, all);
        judged.set(act.check, { right: areRight(now, level, all), acts: [routine, n] });
      }
    }
    now = fold(now, act, outcome);
  }
  return judged;
}

/** Whether the verdicts by one check, the last each way, are right: what is out is not used, or its error is allowed for. */
function areRight(survey: Survey, level: 1 | 2, verdicts: readonly ActOf<'check'>[]): boolean {
  const [{ check }] = verdicts as [ActOf<'check'>];
  const { kit } = survey.world.exercise;
  const body = bodyInUse(survey, level);
  const limit = levelLimits(kit)?.[check] ?? 0;
  const notUsed = verdicts.some((v) => v.verdict === 'do-not-use');
  const out = faultsOf(body, check).filter(({ mmPerM }) => Math.abs(mmPerM) > limit + eitherWayMmPerM);
  if (out.length === 0) return !notUsed || worstFault(body, check) >= limit - eitherWayMmPerM;
  const isAllowed = ({ way, mmPerM }: (typeof out)[number]) =>
    verdicts.some(
      (v) =>
        v.allow && (v.of ?? checkWays[check][0]) === way && Math.abs((v.errorMmPerM ?? 0) - mmPerM) <= eitherWayMmPerM,
    );
  return notUsed || out.every(isAllowed);
}

/** What a level is out by each way that a check is made, mm a metre. */
function faultsOf(
  { faults }: LevelBody,
  check: CheckName,
): readonly { readonly way: ActOf<'check'>['of']; readonly mmPerM: number }[] {
  if (!faults) return [];
  const of = {
    level: [
      { way: 'fore', mmPerM: 1000 * faults.levelFore },
      { way: 'side', mmPerM: 1000 * faults.levelSide },
    ],
    plumb: [
      { way: 'S', mmPerM: 1000 * faults.plumbS },
      { way: 'F', mmPerM: 1000 * faults.plumbF },
    ],
    square: [{ way: undefined, mmPerM: 1000 * faults.square }],
  } as const;
  return of[check];
}
