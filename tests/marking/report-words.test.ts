/**
 * The report and the key in words: every size, line, heading and number that the data has.
 */
import { describe, expect, it } from 'vitest';
import { nominalCarcass } from '../../src/exercise/brief.ts';
import { learners } from '../../src/learners/learner.ts';
import { answerKey } from '../../src/marking/answer-key.ts';
import { type LineName, lineNames, type SizeLedger } from '../../src/marking/ledger.ts';
import { markSurvey } from '../../src/marking/report.ts';
import { headingWords, lineWords, sayKey, sayLedger, sayReport } from '../../src/marking/report-words.ts';
import { headingNames } from '../../src/marking/score.ts';
import { sizeWords } from '../../src/marking/size-words.ts';
import { sizeNames } from '../../src/survey/size.ts';
import { drawnParts, exerciseOf } from '../helpers/rooms.ts';
import { surveyIn, surveyOf } from '../helpers/surveying.ts';

const reports = learners.flatMap((l) =>
  drawnParts(`words ${l.name}`, 6).map((p) => markSurvey(l.survey(surveyOf(exerciseOf(p))))),
);
const tenth = (mm: number) => String(Math.round(mm * 10) / 10);

describe('a report in words, of 18 surveys', () => {
  it('says each size, what was sent, what the room allows, and by how much it missed', () => {
    for (const report of reports) {
      const said = sayReport(report);
      for (const l of report.marks!.ledgers) {
        const line = said.find((s) => s.startsWith(`${sizeWords[l.size]}: `))!;
        expect(line).toContain(String(l.proposedMm));
        if (l.how === 'as-it-stands') continue;
        expect(line).toContain(tenth(l.keyMm));
        expect(line).toContain(`${tenth(Math.abs(l.missMm!))} too ${l.missMm! > 0 ? 'large' : 'small'}`);
      }
    }
  });

  it('says every line that comes to something, the largest first', () => {
    for (const report of reports)
      for (const l of report.marks!.ledgers) {
        if (l.how === 'as-it-stands') continue;
        // Parts of a line stand below it, further in.
        const isPart = (s: string) => s.startsWith(' '.repeat(10));
        const all = sayLedger(l).slice(1);
        const said = all.filter((s) => !isPart(s));
        const told = l.lines.filter((line) => Math.abs(line.mm) >= 0.05);
        const parts = told.flatMap((line) => line.parts ?? []).filter((p) => Math.abs(p.mm) >= 0.05);
        expect(all.filter(isPart).map((s) => Number.parseFloat(s))).toEqual(parts.map((p) => Number(tenth(p.mm))));
        const large = l.lines.filter((line) => Math.abs(line.mm) >= 0.05);
        expect(said).toHaveLength(large.length);
        for (const line of large)
          expect(said.some((s) => s.includes(lineWords[line.name]) && s.includes(tenth(line.mm)))).toBe(true);
        const sizes = said.map((s) => Math.abs(Number.parseFloat(s)));
        expect(sizes).toEqual([...sizes].sort((a, b) => b - a));
      }
  });

  it('says every heading with its points, and the total', () => {
    for (const report of reports) {
      const said = sayReport(report).join('\n');
      const { score } = report.marks!;
      for (const h of score.headings)
        expect(said).toMatch(new RegExp(`${headingWords[h.name]} +${h.points} of ${h.of}`));
      const held = score.cap && score.total < score.uncapped;
      expect(said).toContain(held ? `held to ${score.total} by ${score.cap}` : `${score.total} of 100`);
      expect(said).not.toMatch(/undefined|NaN|\[object/);
    }
  });

  it('says that nothing was handed in, and no more', () => {
    expect(sayReport(markSurvey(surveyIn()))).toEqual(['not handed in: there is nothing to mark yet']);
  });
});

describe('a ledger in words', () => {
  const base: SizeLedger = {
    size: 'carcass-depth',
    how: 'offsets',
    keyMm: 400,
    proposedMm: 407,
    missMm: 7,
    lines: [],
    overMadeMm: 28,
    counting: [],
    decidedAt: [],
  };

  it('says what was lost where', () => {
    const said = sayLedger({
      ...base,
      lines: [
        { name: 'coverage', mm: 6 },
        { name: 'set-up', mm: 1.25 },
        { name: 'booking', mm: -0.41, ofWhichRoundingMm: -0.2 },
        { name: 'rule', mm: 0.04 },
      ],
    });
    expect(said).toEqual([
      'carcass depth: sent 407, the room allows 400 with what the brief asks: 7 too large',
      '       +6 because the places that decide were not read',
      '     +1.3 in the set-up',
      '     -0.4 in booking (of which -0.2 by rounding)',
    ]);
  });

  it('says what was not proposed, made as it stands, or changed', () => {
    expect(sayLedger({ ...base, proposedMm: null, missMm: null, how: 'not-proposed' })).toEqual([
      'carcass depth: not proposed',
    ]);
    expect(sayLedger({ ...base, how: 'as-it-stands', proposedMm: 400, missMm: 0 })).toEqual([
      'carcass depth: 400, made as it stands',
    ]);
    expect(sayLedger({ ...base, how: 'as-it-stands', proposedMm: 397, missMm: -3 })).toEqual([
      'carcass depth: 397, made as it stands, changed by -3',
    ]);
  });

  it('has words for every size, line and heading', () => {
    expect(Object.keys(sizeWords).sort()).toEqual([...sizeNames].sort());
    expect(Object.keys(lineWords).sort()).toEqual(([...lineNames] as LineName[]).sort());
    expect(Object.keys(headingWords).sort()).toEqual([...headingNames].sort());
  });
});

describe('a key in words', () => {
  it('says every number of it', () => {
    for (const parts of drawnParts('key words', 10)) {
      const exercise = exerciseOf(parts);
      const frame = { widthMm: exercise.brief.openingMm.width + 15, heightMm: exercise.brief.openingMm.height + 15 };
      const found = answerKey(surveyOf(exercise).world.recess, exercise, {
        carcass: nominalCarcass(exercise.brief),
        frame,
      });
      if (!found.ok) throw new Error(found.error.says);
      const { key } = found;
      const numbers = new Set(
        sayKey(key)
          .join(' ')
          .match(/-?\d+(\.\d+)?/g),
      );
      const all = [
        key.widestMm!,
        key.tallestMm!,
        key.deepestMm!,
        key.opening!.widthMm,
        key.opening!.heightMm,
        ...Object.values(key.carcass!.clearanceMm).map((mm) => mm!),
        ...Object.values(key.frame!.stockMm).flat(),
        ...key.plinthMm,
        ...key.marginsMm!,
        key.mouthWidthMm!,
        Math.abs(key.carcass!.standsUp!.byMm),
      ];
      for (const mm of all) expect(numbers).toContain(tenth(mm));
    }
  });

  it('says where there is none', () => {
    const exercise = exerciseOf(drawnParts('key words', 1)[0]!);
    const found = answerKey(surveyOf(exercise).world.recess, exercise);
    if (!found.ok) throw new Error(found.error.says);
    const said = sayKey({ ...found.key, widestMm: null, opening: null }).join('\n');
    expect(said).toContain('widest carcass none: the other two sizes alone do not go in');
    expect(said).toContain('opening at the face line: none');
  });
});
