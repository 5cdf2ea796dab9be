/**
 * The lesson of the product: of the carcasses and frames that come of measuring three widths at the front, and of
 * surveying with care, how many cannot be fitted. The same rooms, the same kit.
 */
import { openCode } from '../../src/exercise/exercise-code.ts';
import { findLearner } from '../../src/learners/learner.ts';
import { markSurvey } from '../../src/marking/report.ts';
import type { Verdict } from '../../src/marking/verdict.ts';
import { severities } from '../../src/recess/severity.ts';
import { beginSurvey } from '../../src/survey/survey.ts';
import { openWorld } from '../../src/survey/world.ts';
import { drawnCode, drawsOf } from './draws.ts';
import {
  type Case,
  count,
  counted,
  eachCase,
  fail,
  type Proof,
  percent,
  type Result,
  type Tally,
  table,
} from './proof.ts';

export const lessonProof: Proof = {
  name: 'lesson',
  says: 'how many carcasses will not go in, by three widths at the front and with care',
  full: 2000,
  small: 90,
  prove: (share) => eachCase(share, proveLesson),
  conclude,
};

const names = ['three-widths', 'careful'] as const;

/** What is counted of a verdict. */
const counts = ['will not go in', 'goes in, too tight', 'frame does not cover', 'anything scrap'] as const;

function proveLesson(tally: Tally, at: Case): void {
  const code = drawnCode(drawsOf('lesson', at.seed, at.index), at.index);
  const opened = openCode(code);
  if (!opened.ok) throw new Error(opened.error.says);
  const world = openWorld(opened.value);
  const { severity } = opened.value.spec;
  for (const name of names) {
    const { marks } = markSurvey(findLearner(name)?.survey(beginSurvey(world)) ?? beginSurvey(world));
    if (!marks) {
      fail(tally, at, `${code}: ${name} handed nothing in`);
      continue;
    }
    for (const of of [severity, 'all']) {
      count(tally, `${name}/${of}`);
      for (const what of counts) if (isSo(marks.verdict, what)) count(tally, `${name}/${of}/${what}`);
    }
    const word = marks.verdict.carcass?.goesInBare === false;
    if (word !== isSo(marks.verdict, 'will not go in') && marks.verdict.carcass)
      fail(tally, at, `${code}: ${name}: the verdict and the key differ on whether it goes in`);
  }
}

function isSo(verdict: Verdict, what: (typeof counts)[number]): boolean {
  const has = (...codes: string[]) => verdict.reasons.some((r) => codes.includes(r.code));
  switch (what) {
    case 'will not go in':
      return has('carcass/does-not-go-in', 'carcass/outside');
    case 'goes in, too tight':
      return has('carcass/clearance');
    case 'frame does not cover':
      return has('frame/does-not-cover');
    case 'anything scrap':
      return verdict.word === 'scrap';
  }
}

function conclude(tally: Tally): Result {
  const of = (name: string, severity: string, what: string) =>
    percent(counted(tally, `${name}/${severity}/${what}`), counted(tally, `${name}/${severity}`));
  const rows = names.flatMap((name) =>
    [...severities.map((s) => s.name), 'all'].map((severity) => [
      name,
      severity,
      String(counted(tally, `${name}/${severity}`)),
      ...counts.map((what) => of(name, severity, what)),
    ]),
  );
  const lost = (name: string, what: string) => counted(tally, `${name}/all/${what}`);
  const failures = (['will not go in', 'frame does not cover'] as const)
    .filter((what) => lost('careful', what) >= lost('three-widths', what) / 4)
    .map((what) => `${what}: ${lost('careful', what)} with care, ${lost('three-widths', what)} by three widths`);
  return { lines: table([['learner', 'rooms are', 'rooms', ...counts], ...rows]), failures };
}
