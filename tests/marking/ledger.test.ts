/**
 * The ledger's own rules: it adds up exactly, each way that a size is come by is told, a line is where its cause is. (That
 * each line is right is proved by planting, elsewhere.)
 */
import { describe, expect, it } from 'vitest';
import { findLearner, learners } from '../../src/learners/learner.ts';
import { lineNames, lineOf, type SizeLedger, toGrain } from '../../src/marking/ledger.ts';
import { markSurvey, type Report } from '../../src/marking/report.ts';
import type { Act } from '../../src/survey/act.ts';
import { fold } from '../../src/survey/acting.ts';
import type { Survey } from '../../src/survey/survey.ts';
import { drawnParts, exerciseIn, exerciseOf, roomSpec } from '../helpers/rooms.ts';
import { acted, surveyOf } from '../helpers/surveying.ts';
import { placeAt, readAndBook, standTrue } from '../helpers/truths.ts';

const propose = (width: number, more: object = {}): Act => ({
  act: 'propose',
  carcassMm: { width, height: 2200, depth: 420 },
  ...more,
});
const handIn: Act = { act: 'hand-in' };
const ledgersOf = (report: Report) => report.marks!.ledgers;
const ledgerOf = (survey: Survey, size: SizeLedger['size']) =>
  ledgersOf(markSurvey(survey)).find((l) => l.size === size)!;

describe('over what every learner did in 12 rooms, seed "ledger"', () => {
  const marked = learners.flatMap((l) =>
    drawnParts(`ledger ${l.name}`, 12).map((parts) => {
      const survey = l.survey(surveyOf(exerciseOf(parts)));
      return { survey, report: markSurvey(survey) };
    }),
  );

  it('lines add up to what the proposal misses by, to the last bit', () => {
    let sizes = 0;
    for (const { report } of marked)
      for (const l of ledgersOf(report)) {
        if (l.missMm === null) continue;
        sizes++;
        expect(l.lines.reduce((sum, line) => sum + line.mm, 0)).toBe(l.missMm);
        for (const { name, mm } of l.lines) {
          expect(lineNames).toContain(name);
          expect(Number.isInteger(mm * 1024)).toBe(true);
        }
        expect(new Set(l.lines.map((line) => line.name)).size).toBe(l.lines.length);
      }
    expect(sizes).toBeGreaterThan(150);
  });

  it('the miss is the proposal less the key, both in terms of what is made', () => {
    for (const { report } of marked)
      for (const l of ledgersOf(report)) {
        if (l.proposedMm === null) continue;
        expect(Math.abs(l.missMm! - (l.proposedMm - l.keyMm))).toBeLessThan(1 / 1024);
      }
  });

  it('the key in it is that of the answer key, less what is asked', () => {
    for (const { report, survey } of marked) {
      const { key } = report.marks!;
      const { carcassMm, askMm } = survey.world.exercise.brief;
      const of = (size: string) => ledgersOf(report).find((l) => l.size === size)!;
      if (key!.widestMm !== null)
        expect(Math.abs(of('carcass-width').keyMm - (key!.widestMm - askMm.left - askMm.right))).toBeLessThan(0.002);
      if (key!.tallestMm !== null)
        expect(Math.abs(of('carcass-height').keyMm - (key!.tallestMm - askMm.top))).toBeLessThan(0.002);
      if (key!.deepestMm !== null && carcassMm.depth.find)
        expect(Math.abs(of('carcass-depth').keyMm - (key!.deepestMm - askMm.back))).toBeLessThan(0.002);
      expect(
        Math.abs(of('frame-width').keyMm - key!.opening!.widthMm - 2 * survey.world.exercise.brief.frame!.leastStockMm),
      ).toBeLessThan(0.002);
    }
  });

  it('marking twice gives the same report, and leaves the survey as it was', () => {
    for (const { survey, report } of marked.slice(0, 12)) {
      const before = JSON.stringify({ ...survey, world: null });
      expect(markSurvey(survey)).toEqual(report);
      expect(JSON.stringify({ ...survey, world: null })).toBe(before);
    }
  });
});

describe('how a size was come by', () => {
  const exercise = exerciseIn(roomSpec({ defects: { left: [{ kind: 'taper', mm: 6 }] } }), { brief: { frame: null } });
  const width = (survey: Survey) => ledgerOf(acted(survey, handIn), 'carcass-width');
  const read = (survey: Survey, surface: 'left' | 'right', at: { u: number; v: number }, slipMm = 0) =>
    readAndBook(survey, { datum: 'S', place: placeAt(survey, surface, at), slipMm, more: { for: ['carcass-width'] } });
  const start = standTrue(exercise);
  const bothSides = read(read(start, 'left', { u: 430, v: 900 }), 'right', { u: 430, v: 900 });

  it('by offsets: what was read, true, and worked out by the right rule loses nothing but the place', () => {
    // The left wall closes in 6 from front to back: at 430 it is 0.12 short of what it is at 440.
    const l = width(acted(bothSides, propose(Math.floor(2 * (1000 - 6 * (430 / 500 - 0.5) - 6)) / 2)));
    expect(l.how).toBe('offsets');
    expect(lineOf(l, 'coverage')).toBeCloseTo((6 * 10) / 500, 2);
    for (const name of ['set-up', 'rule', 'booking', 'not-read'] as const)
      expect(Math.abs(lineOf(l, name))).toBeLessThan(0.003);
    expect(Math.abs(lineOf(l, 'working-out'))).toBeLessThan(0.51);
  });

  it('a slip in booking is in booking, one in working out in working out, an allowance that is said in its own line', () => {
    const slipped = read(read(start, 'left', { u: 440, v: 900 }, 10), 'right', { u: 440, v: 900 });
    expect(lineOf(width(acted(slipped, propose(990))), 'booking')).toBeCloseTo(10, 2);
    const worked = (mm: number, more = {}) => width(acted(bothSides, propose(mm, more)));
    expect(lineOf(worked(995), 'working-out') - lineOf(worked(985), 'working-out')).toBe(10);
    const allowed = worked(985, { allowanceMm: { 'carcass-width': 4 } });
    expect(lineOf(allowed, 'allowance')).toBe(-4);
    expect(lineOf(allowed, 'working-out') - lineOf(worked(985), 'working-out')).toBe(4);
  });

  it('rounding is named within booking, half a graduation a term at most', () => {
    const rounded = (l: number, r: number) =>
      width(
        acted(read(read(start, 'left', { u: 440, v: 900 }, l), 'right', { u: 440, v: 900 }, r), propose(990)),
      ).lines.find((line) => line.name === 'booking')!;
    expect(rounded(0.2, -0.3).ofWhichRoundingMm).toBeCloseTo(-0.1, 3);
    expect(rounded(7, 0.25)).toMatchObject({ ofWhichRoundingMm: expect.closeTo(0.75, 3), mm: expect.closeTo(7.25, 3) });
  });

  it('booked without a reading, or out of place, counts in not-read alone', () => {
    const place = placeAt(start, 'left', { u: 300, v: 1500 });
    const invented = acted(bothSides, {
      act: 'book',
      what: 'offset',
      valueMm: 480,
      datum: 'S',
      place,
      for: ['carcass-width'],
    });
    const l = width(acted(invented, propose(970)));
    expect(lineOf(l, 'not-read')).toBeCloseTo(480 - (500 - 6 * (430 / 500 - 0.5)), 2);
    expect(lineOf(l, 'booking')).toBeCloseTo(0, 2);
  });

  it('by tapes where a side has no offset: method is what a tape cannot see', () => {
    const place = placeAt(start, 'left', { u: 0, v: 900 });
    const taped = acted(start, { act: 'span', place, to: 'right' });
    const done = taped.entries.at(-1)!.outcome;
    if (!done.ok) throw new Error('refused');
    const l = width(
      acted(
        taped,
        { act: 'book', what: 'span', valueMm: done.tapeMm!, place, to: 'right', reading: taped.entries.length },
        propose(1000),
      ),
    );
    expect(l.how).toBe('spans');
    // At the front the wall stands 3 + 2.28 further out than at the carcass's back.
    expect(lineOf(l, 'coverage')).toBeCloseTo((6 * 440) / 500, 2);
    expect(Math.abs(lineOf(l, 'method'))).toBeLessThan(0.05);
  });

  it('not surveyed: one line from the key to the proposal', () => {
    const l = width(acted(read(start, 'left', { u: 430, v: 900 }), propose(900)));
    expect(l.how).toBe('not-surveyed');
    expect(l.lines.map((line) => line.name)).toEqual(['not-surveyed']);
    expect(l.missMm).toBeCloseTo(900 - (1000 - 6 * (440 / 500 - 0.5) - 6), 2);
  });

  it('as it stands: a size that is not to be found, and by how much it was changed', () => {
    const asked = {
      ...exercise,
      brief: { ...exercise.brief, carcassMm: { ...exercise.brief.carcassMm, width: { nominalMm: 940, find: false } } },
    };
    const l = ledgerOf(acted(standTrue(asked), propose(943), handIn), 'carcass-width');
    expect(l).toMatchObject({ how: 'as-it-stands', keyMm: 940, missMm: 3, lines: [{ name: 'working-out', mm: 3 }] });
  });

  it('not proposed: no lines', () => {
    const framed = exerciseIn(roomSpec());
    const l = ledgerOf(acted(standTrue(framed), propose(940), handIn), 'frame-width');
    expect(l).toMatchObject({ how: 'not-proposed', proposedMm: null, missMm: null, lines: [] });
  });

  it('a trim that comes off under the rule’s end is out of place', () => {
    const trimmed = exerciseIn(
      roomSpec({
        trims: [
          {
            name: 'box',
            kind: 'skirting',
            surface: 'left',
            uMm: [0, 500],
            vMm: [800, 1000],
            profile: {
              along: 'v',
              mm: [
                [800, 20],
                [1000, 20],
              ],
            },
          },
        ],
      }),
      { brief: { frame: null, fates: { box: 'off' } } },
    );
    const on = standTrue(trimmed);
    const bound = read(read(read(on, 'left', { u: 430, v: 900 }), 'left', { u: 430, v: 1500 }), 'right', {
      u: 430,
      v: 900,
    });
    const l = width(acted(bound, propose(970)));
    // 480 on the box is booked and read, but not on what the carcass will meet.
    expect(lineOf(l, 'not-read')).toBeCloseTo(-20, 2);
    expect(lineOf(l, 'coverage')).toBeCloseTo(0, 2);
  });
});

describe('a survey that was not handed in', () => {
  it('is not marked: counts alone', () => {
    const careful = findLearner('careful')!;
    const parts = drawnParts('not handed in', 1)[0]!;
    const survey = careful.survey(surveyOf(exerciseOf(parts)));
    const before = survey.entries
      .slice(0, -1)
      .reduce<Survey>((now, e) => fold(now, e.act, e.outcome), surveyOf(exerciseOf(parts)));
    const report = markSurvey(before);
    expect(report.marks).toBeNull();
    expect(report.counts.readings).toBe(survey.readings.length);
    expect(markSurvey(survey).marks).not.toBeNull();
  });
});

describe('the grain', () => {
  it('is 1/1024 mm, rounded once', () => {
    expect(toGrain(1 / 2048 + 1e-9)).toBe(1 / 1024);
    expect(toGrain(-1000.0001) * 1024).toBe(Math.round(-1000.0001 * 1024));
  });
});
