/**
 * A rule marked in inches, through the command line: readings, bookings, the sheet, the sums and the report are in inches and
 * fractions; the physics are those of the same rule in mm.
 */
import { afterEach, describe, expect, it } from 'vitest';
import { sayOutcome } from '../../src/cli/outcome-words.ts';
import { tellStory } from '../../src/cli/story.ts';
import { readTyped } from '../../src/cli/typed-act.ts';
import { sayBrief } from '../../src/exercise/brief-words.ts';
import type { Exercise } from '../../src/exercise/exercise.ts';
import { openCode, writeCode } from '../../src/exercise/exercise-code.ts';
import { findLearner } from '../../src/learners/learner.ts';
import { markSurvey, reportOf } from '../../src/marking/report.ts';
import { sayReport } from '../../src/marking/report-words.ts';
import { graduationMm, speakIn, type Units } from '../../src/recess/lengths.ts';
import type { Act } from '../../src/survey/act.ts';
import { perform } from '../../src/survey/acting.ts';
import { saySheet } from '../../src/survey/field-sheet-words.ts';
import type { Survey } from '../../src/survey/survey.ts';
import { readingDeviation, uReading } from '../../src/survey/uncertainty.ts';
import { surveyOf } from '../helpers/surveying.ts';

afterEach(() => speakIn('mm'));

function exerciseIn(units: Units): Exercise {
  const opened = openCode(
    writeCode({ family: 'alcove', severity: 'old', structure: 'same-lean', kit: 'guided', seed: 314 }),
  );
  if (!opened.ok) throw new Error(opened.error.says);
  const { kit } = opened.value;
  return { ...opened.value, code: null, kit: { ...kit, rule: { ...kit.rule, ...(units === 'mm' ? {} : { units }) } } };
}

/** Types lines, and gives what was answered last. */
function typed(start: Survey, lines: readonly string[]): { survey: Survey; said: string[] } {
  let [survey, said]: [Survey, string[]] = [start, []];
  for (const line of lines) {
    const read = readTyped(line, survey);
    if (!('act' in read)) throw new Error(`${line}: ${JSON.stringify(read)}`);
    const done = perform(survey, read.act as Act);
    survey = done.survey;
    said = sayOutcome(survey.entries.at(-1)!, survey.world.exercise.brief.reference);
  }
  return { survey, said };
}

describe('typed', () => {
  it('the same places in inches and in mm read the same, to the bit', () => {
    const mm = typed(surveyOf(exerciseIn('mm')), ['stand 0 0 1016', 'settle', 'read S left 101.6 1219.2']);
    speakIn('in-16');
    const inches = typed(surveyOf(exerciseIn('in-16')), ['stand 0 0 40', 'settle', 'read S left 4 48']);
    const edges = (s: Survey) => s.readings.at(-1)!.edgesMm;
    expect(edges(inches.survey)).toEqual(edges(mm.survey));
    expect(inches.said[0]).toMatch(/past \d+(-\d+\/(2|4|8|16))?" .* to \d+(-\d+\/(2|4|8|16))?"/);
    expect(inches.said[0]).toMatch(/it reads \d+(-\d+\/(2|4|8|16|32))?"/);
    // The aids read out to half of a sixteenth.
    const out = inches.survey.entries.at(-1)!.outcome;
    const halves = (out.ok ? out.readOutMm! : NaN) / (graduationMm('in-16') / 2);
    expect(Math.abs(halves - Math.round(halves))).toBeLessThan(1e-9);
  });

  it('fractions are booked as mm, and stand on the sheet as fractions', () => {
    speakIn('in-16');
    const lines = ['stand 0 0 40', 'settle', 'read S left 4 48', 'book 18-15/16', 'propose carcass 36-1/4 84 11-13/16'];
    const { survey } = typed(surveyOf(exerciseIn('in-16')), lines);
    expect(survey.bookings[0]!.said.valueMm).toBeCloseTo(481.0125, 9);
    expect(survey.proposal?.carcassMm).toMatchObject({ width: 36.25 * 25.4, height: 84 * 25.4 });
    const sheet = saySheet(survey).join('\n');
    expect(sheet).toContain('18-15/16"');
    expect(sheet).toContain('inches: a row');
  });

  it('what is no length is refused as ever', () => {
    speakIn('in-16');
    const read = readTyped('raise 1/3', surveyOf(exerciseIn('in-16')));
    expect('complaint' in read).toBe(true);
    speakIn('mm');
    expect('complaint' in readTyped('raise 1/2', surveyOf(exerciseIn('mm')))).toBe(true);
  });
});

describe.each([
  ['in-16', 32],
  ['in-32', 64],
] as const)('the careful learner with a rule of %s', (units, parts) => {
  const survey = findLearner('careful')!.survey(surveyOf(exerciseIn(units)));

  it('books and sends whole halves of a graduation, and the carcass goes in', () => {
    const whole = (mm: number) => {
      const n = (mm / 25.4) * parts;
      expect(Math.abs(n - Math.round(n))).toBeLessThan(1e-6);
    };
    for (const b of survey.bookings) whole(b.said.valueMm);
    whole(survey.proposal!.carcassMm!.width);
    const { marks } = markSurvey(survey);
    for (const l of marks!.ledgers) expect(Math.abs(l.missMm ?? Infinity)).toBeLessThan(3);
    expect(marks!.ledgers.some((l) => l.lines.some((x) => Math.abs(x.ofWhichRoundingMm ?? 0) > 0.01))).toBe(true);
  });

  it('brief, sheet, report and story say no mm but slopes', () => {
    speakIn(units);
    const { brief } = survey.world.exercise;
    const other = findLearner('three-widths')!.survey(surveyOf(exerciseIn(units)));
    const reports = [survey, other].flatMap((s) => sayReport(reportOf(s)));
    const said = [...sayBrief(brief), ...saySheet(survey), ...saySheet(other), ...reports, ...tellStory(survey)];
    const inMm = said.filter((line) => /\bmm\b/.test(line.replaceAll(/mm (in )?a metre/g, '')));
    expect(inMm).toEqual([]);
    expect(said.filter((line) => line.includes('"')).length).toBeGreaterThan(40);
    // A figure of three places without a mark would be a length left in mm.
    const bare = said.filter((line) =>
      /(^|[ (])\d{3,}(\.\d)?(?![\d"/-])/.test(
        line.replaceAll(/act \d+|(in|of) 100|\d+ times|\d+ of \d+|\d+ (acts|readings|bookings)/g, ''),
      ),
    );
    expect(bare).toEqual([]);
  });
});

describe('how sure a reading is', () => {
  it('the half graduation counts by what it is: 1/32 inch is more than half a millimetre, 1/64 less', () => {
    const u = (units: Units) => readingDeviation(exerciseIn(units).kit);
    expect(u('mm')).toBe(uReading);
    expect(u('in-16')).toBeCloseTo(Math.sqrt(0.15 ** 2 / 2 + (25.4 / 64) ** 2 / 3), 9);
    expect(u('in-16')).toBeGreaterThan(u('mm'));
    expect(u('in-32')).toBeLessThan(u('mm'));
  });
});
