/**
 * What would have been read at a place of the uncovered room is what the rule shows there: the learner's own acts folded in
 * a world that has no errors from the start, and the rule held there, give the same number to the bit. Another way, it is
 * how far the place lies from the line, by the line's equation.
 */
import { describe, expect, test } from 'vitest';
import { openCode, writeCode } from '../../src/exercise/exercise-code.ts';
import { signedDistance } from '../../src/geometry/plane.ts';
import { findLearner } from '../../src/learners/learner.ts';
import { uncoverRoom } from '../../src/marking/uncovered-room.ts';
import { wouldHaveRead } from '../../src/marking/would-read.ts';
import { openCore } from '../../src/page/state/core.ts';
import { families } from '../../src/recess/families/families.ts';
import { fold, perform } from '../../src/survey/acting.ts';
import { beginSurvey, type Survey } from '../../src/survey/survey.ts';
import { openWorld } from '../../src/survey/world.ts';
import { drawsOf } from '../prove/draws.ts';

/** The same acts in a world that never had errors. */
function exactly(survey: Survey): Survey {
  const { exercise } = survey.world;
  const { wornMm: _worn, ...rule } = exercise.kit.rule;
  const world = openWorld({ ...exercise, kit: { ...exercise.kit, rule: { ...rule, errors: false } } });
  const acts = survey.entries.filter((e) => e.act.act !== 'hand-in');
  return acts.reduce((now, e) => fold(now, e.act, e.outcome), beginSurvey(world));
}

describe.each(families.map((f) => f.name))('in a room of the family %s', (family) => {
  const structure = families.find((f) => f.name === family)!.structures[0]!.name;
  const opened = openCode(writeCode({ family, structure, severity: 'old', kit: 'site', seed: 4711 }));
  if (!opened.ok) throw new Error(opened.error.says);
  const done = findLearner('careful')!.survey(beginSurvey(openWorld(opened.value)));
  const exact = exactly(done);
  const draws = drawsOf('would-read', family);
  const room = uncoverRoom(done);
  const curves = [...room.walls, ...room.others];
  const places = Array.from({ length: 60 }, () => {
    const { side, atMm, alongMm } = draws.one(curves);
    const along = draws.one(alongMm);
    return side === 'left' || side === 'right' || side === 'back'
      ? { side, u: atMm, v: along }
      : { side, u: along, v: atMm };
  });

  test('it equals the outcome of the rule there to the bit, with errors off', () => {
    let read = 0;
    for (const place of places) {
      const would = wouldHaveRead(done, place);
      if (!would.ok) continue;
      const { survey, outcome } = perform(exact, { act: 'read', datum: would.datum, place: would.place });
      if (!outcome.ok || !outcome.edgesMm) throw new Error('the rule itself was refused');
      expect(Object.is(would.seenMm, (outcome.edgesMm[0] + outcome.edgesMm[1]) / 2)).toBe(true);
      const taken = survey.readings.at(-1)!;
      expect(would.seenMm).toBeCloseTo(Math.abs(signedDistance(taken.plane, taken.point)), 6);
      read++;
    }
    expect(read).toBeGreaterThan(5);
  });

  test('it is of the place that was asked, to the millimetre that a place is said in', () => {
    for (const place of places) {
      const would = wouldHaveRead(done, place);
      if (!would.ok) {
        expect(would.says).toMatch(/^No reading there \(.+\): .+\.$/);
        continue;
      }
      const at = perform(exact, { act: 'read', datum: would.datum, place: would.place }).survey.readings.at(-1)!.place!;
      expect(at.side).toBe(place.side);
      expect(Math.abs(at.u - place.u)).toBeLessThan(1.5);
      expect(Math.abs(at.v - place.v)).toBeLessThan(1.5);
    }
  });

  test('it is told after hand-in alone', () => {
    const before = done.entries.filter((e) => e.act.act !== 'hand-in');
    const core = openCore(opened.value, before);
    expect(core.wouldRead(places[0]!)).toBeNull();
    core.act({ act: 'hand-in' });
    expect(core.wouldRead(places[0]!)).toEqual(wouldHaveRead(done, places[0]!));
  });
});
