/**
 * Scripted learners: each surveys any room to a hand-in through the one door, the same way every time.
 */
import { describe, expect, it } from 'vitest';
import { unitsOf } from '../../src/exercise/kit.ts';
import { findLearner, learners } from '../../src/learners/learner.ts';
import { faceLineOff } from '../../src/marking/face-line.ts';
import { markSurvey } from '../../src/marking/report.ts';
import { readTo } from '../../src/recess/lengths.ts';
import { checkNames, outOfTrue, worstFault } from '../../src/survey/level-body.ts';
import { bookedOffsets } from '../../src/survey/offsets.ts';
import type { Survey } from '../../src/survey/survey.ts';
import { workOut } from '../../src/survey/working-out.ts';
import { drawnParts, exerciseOf } from '../helpers/rooms.ts';
import { surveyOf } from '../helpers/surveying.ts';

const codes = drawnParts('learners', 20).map(exerciseOf);
const surveys = new Map(learners.map((l) => [l.name, codes.map((e) => l.survey(surveyOf(e)))]));
const of = (name: string): readonly Survey[] => surveys.get(name)!;
const acts = (survey: Survey, name: string) => survey.entries.filter((e) => e.act.act === name);
const median = (numbers: readonly number[]) => [...numbers].sort((a, b) => a - b)[numbers.length >> 1]!;

describe.each(learners)('the $name learner in 20 rooms, seed "learners"', ({ name, survey }) => {
  it('hands in, with a proposal for all that is asked', () => {
    for (const done of of(name)) {
      expect(done.handedIn).toBe(true);
      expect(done.entries.at(-1)!.act.act).toBe('hand-in');
      expect(done.proposal!.carcassMm).toBeDefined();
      expect(done.proposal!.frameMm).toBeDefined();
      const { carcassMm } = done.world.exercise.brief;
      // What is not to be found goes as it stands.
      if (!carcassMm.depth.find) expect(done.proposal!.carcassMm!.depth).toBe(carcassMm.depth.nominalMm);
    }
  });

  it('does the same when it does it again', () => {
    for (const i of [0, 7]) expect(survey(surveyOf(codes[i]!)).entries).toEqual(of(name)[i]!.entries);
  });

  it('says whether the carcass can be stood up', () => {
    for (const done of of(name)) expect(done.answers.map((a) => a.question)).toEqual(['stand-up']);
  });

  it('is found by its name', () => {
    expect(findLearner(name)?.name).toBe(name);
  });
});

it('no other is found', () => {
  expect(findLearner('clairvoyant')).toBeNull();
});

describe('the careful learner with a level that may be out of true', () => {
  const kits = ['faulty', 'two-levels'];
  const rooms = kits.flatMap((kit) =>
    drawnParts(`careful, ${kit}`, 8).map((parts) => exerciseOf({ ...parts, severity: 'settled', kit })),
  );
  const noSpare = rooms.slice(0, 8).map((e) => {
    const level = { ...e.kit.level, spare: false };
    return { ...e, code: null, kit: { ...e.kit, level } };
  });
  const careful = findLearner('careful')!;
  const verdictsOf = (s: Survey) =>
    s.entries.flatMap(({ act }) => (act.act === 'check' && act.verdict !== undefined ? [act] : []));

  it.each([
    ['swaps it', rooms],
    ['allows for it where there is no other', noSpare],
  ] as const)('checks it first, judges it rightly, and %s', (_, exercises) => {
    let bad = 0;
    for (const exercise of exercises) {
      const done = careful.survey(surveyOf(exercise));
      const first = done.entries.findIndex((e) => e.act.act === 'stand');
      const checks = done.entries.slice(0, first).filter((e) => e.act.act === 'check');
      expect(checks.length).toBeGreaterThanOrEqual(8);
      const level = done.world.bodies[0]!;
      const out = checkNames.filter((check) => outOfTrue(level, exercise.kit, check) > 0);
      const said = verdictsOf(done).filter((a) => a.verdict === 'do-not-use');
      expect(said.map((a) => a.check)).toEqual(out);
      for (const a of said) expect(Math.abs(Math.abs(a.errorMmPerM!) - worstFault(level, a.check))).toBeLessThan(0.3);
      bad += out.length;
      const { marks } = markSurvey(done);
      for (const l of marks!.ledgers) {
        const line = l.lines.find((x) => x.name === 'set-up');
        if (line) expect(Math.abs(line.mm)).toBeLessThan(1.5);
      }
    }
    expect(bad).toBeGreaterThan(2);
  });

  it('finds a knock by looking at its marks, and reads again what it spoilt', () => {
    let knocked = 0;
    for (const exercise of rooms.slice(8)) {
      const done = careful.survey(surveyOf(exercise));
      if (done.readings.length <= done.world.knock!.afterReadings) continue;
      knocked++;
      expect(done.bookings.some((b) => b.struck)).toBe(true);
      const parts = markSurvey(done).marks!.ledgers.flatMap((l) => l.lines.flatMap((line) => line.parts ?? []));
      const worst = Math.max(...parts.filter((p) => p.cause === 'knock').map((p) => Math.abs(p.mm)));
      expect(worst).toBeLessThan(0.3);
    }
    expect(knocked).toBe(8);
  });
});

describe('the careful learner', () => {
  const done = of('careful');

  it('is refused seldom: under 3 acts of 100, over all, and never more than 10 of 100', () => {
    const shares = done.map((s) => s.entries.filter((e) => !e.outcome.ok).length / s.entries.length);
    expect(shares.reduce((sum, s) => sum + s, 0) / shares.length).toBeLessThan(0.03);
    expect(Math.max(...shares)).toBeLessThan(0.1);
  });

  it('clears all that comes off, and reads nothing that does or may be cut', () => {
    for (const s of done) {
      const { fates } = s.world.exercise.brief;
      expect([...s.cleared].sort()).toEqual(
        Object.keys(fates)
          .filter((n) => fates[n] === 'off')
          .sort(),
      );
      const booked = new Set(s.bookings.map((b) => b.said.reading));
      for (const e of s.entries)
        if (e.act.act === 'read' && e.outcome.ok && booked.has(e.n))
          expect(fates[e.outcome.on ?? ''] ?? 'stays').toBe('stays');
    }
  });

  it('lines its face line up on the reference: within 1.5 mm at both ends of the opening', () => {
    for (const s of done) {
      const off = faceLineOff(s)!;
      expect(Math.max(Math.abs(off.leftMm), Math.abs(off.rightMm))).toBeLessThan(1.5);
    }
  });

  it('reads every side from its own datum, far and near, and books each reading to half a graduation', () => {
    for (const s of done) {
      const offsets = bookedOffsets(s).filter((o) => !o.check);
      const count = (side: string) => offsets.filter((o) => o.side === side).length;
      for (const side of ['left', 'right']) expect(count(side)).toBeGreaterThan(20);
      for (const side of ['floor', 'ceiling']) expect(count(side)).toBeGreaterThan(12);
      expect(count('back') > 0).toBe(s.world.exercise.brief.carcassMm.depth.find);
      const datum = { left: 'S', right: 'S', back: 'F', floor: 'L', ceiling: 'L', slope: 'L' };
      for (const o of offsets) {
        expect(o.datum).toBe(datum[o.side]);
        expect(o.valueMm).toBeCloseTo(readTo(unitsOf(s.world.exercise.kit), o.valueMm), 9);
        expect(o.said.reading).toBeDefined();
      }
    }
  });

  it('sends what its sheet works out to, by the right rules', () => {
    for (const s of done) {
      const said = s.proposal!;
      const worked = Object.fromEntries(workOut(s).map((w) => [w.size, w.workshopMm]));
      expect(said.carcassMm!.width).toBe(worked['carcass-width']);
      expect(said.carcassMm!.height).toBe(worked['carcass-height']);
      expect(said.frameMm).toEqual({ width: worked['frame-width'], height: worked['frame-height'] });
    }
  });

  it('makes closing checks, and its carcass goes in', () => {
    let goesIn = 0;
    for (const s of done) {
      expect(s.bookings.filter((b) => b.said.check).length).toBeGreaterThanOrEqual(3);
      if (markSurvey(s).marks!.verdict.carcass!.goesInBare) goesIn++;
    }
    expect(goesIn).toBeGreaterThanOrEqual(19);
  });
});

describe('the three-widths learner', () => {
  const done = of('three-widths');

  it('only tapes widths and heights, three of each at the front, heights under a cornice that stays too; it reads depths alone', () => {
    for (const s of done) {
      const tapes = acts(s, 'span').filter((e) => e.outcome.ok);
      const from = (surface: string) =>
        tapes.filter((e) => e.act.act === 'span' && 'surface' in e.act.place && e.act.place.surface === surface);
      const { brief, spec } = s.world.exercise;
      const cornice = spec.trims.some((t) => t.kind === 'cornice' && brief.fates[t.name] === 'stays');
      const under = brief.carcassFrontMm + brief.carcassMm.depth.nominalMm;
      const depths = (surface: string) =>
        from(surface).map((e) => (e.act.act === 'span' && 'surface' in e.act.place ? e.act.place.yMm : null));
      expect(depths('left')).toEqual([0, 0, 0]);
      expect(depths('floor')).toEqual(cornice ? [0, 0, 0, under, under, under] : [0, 0, 0]);
      for (const e of acts(s, 'read')) expect(e.act).toMatchObject({ datum: 'F', place: { surface: 'back' } });
      expect(s.bookings.filter((b) => b.said.what === 'offset').every((b) => b.said.datum === 'F')).toBe(true);
    }
  });

  it('never lines the level up: it is stood once and not touched', () => {
    for (const s of done) expect(['move', 'turn', 'aim', 'mark'].flatMap((a) => acts(s, a))).toEqual([]);
    for (const s of done) expect(s.setUps).toBe(1);
  });

  it('fares worse than the careful one', () => {
    const totals = (name: string) => of(name).map((s) => markSurvey(s).marks!.score.total);
    expect(median(totals('three-widths'))).toBeLessThan(median(totals('careful')) - 20);
  });
});

describe('the random learner', () => {
  it('tries acts of many kinds, refused or not, and is marked all the same', () => {
    const tried = new Set(of('random').flatMap((s) => s.entries.map((e) => e.act.act)));
    for (const act of ['read', 'span', 'mark', 'turn', 'move', 'settle', 'aim', 'strike', 'stand', 'propose'] as const)
      expect(tried).toContain(act);
    expect(of('random').some((s) => s.readings.length > 0)).toBe(true);
    for (const s of of('random')) expect(markSurvey(s).marks).not.toBeNull();
    expect(new Set(of('random').map((s) => JSON.stringify(s.entries.slice(0, 20).map((e) => e.act)))).size).toBe(20);
  });
});
