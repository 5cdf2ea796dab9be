/**
 * A survey written by a test: a level put on the true datums, rule and hand without error, so that what is read is the
 * true offset and nothing is lost but what a test plants.
 */
import type { Exercise } from '../../src/exercise/exercise.ts';
import type { Act, SurfacePlace } from '../../src/survey/act.ts';
import type { Survey } from '../../src/survey/survey.ts';
import { acted, doneOf, handOf, middleOf, surveyOf } from './surveying.ts';

/** Begins with the level settled on x = 0, y = 0 and square to both. */
export function standTrue(exercise: Exercise): Survey {
  const fresh = surveyOf(exercise);
  const at = handOf(fresh, { x: 0, y: 0, z: 1100 });
  const { xAxis } = fresh.world.hand;
  return acted(
    fresh,
    { act: 'stand', xMm: at.x, yMm: at.y, heightMm: at.z },
    { act: 'settle' },
    { act: 'turn', byMmPerM: (-1000 * xAxis.y) / xAxis.x },
  );
}

/** The hand's words for a place that is given in the room by a surface's own coordinates. */
export function placeAt(survey: Survey, surface: SurfacePlace['surface'], own: { u: number; v: number }): SurfacePlace {
  const { width, height, depth } = survey.world.exercise.spec.openingMm;
  const { shift, xAxis } = survey.world.hand;
  const [c, s] = [xAxis.x, xAxis.y];
  // The hand says two coordinates; the third is the straight outline's. Solved for the room's two.
  if (surface === 'left' || surface === 'right') {
    const x = surface === 'left' ? -width / 2 : width / 2;
    return { surface, yMm: (own.u - shift.y - s * x) / c, zMm: own.v - shift.z };
  }
  if (surface === 'back') return { surface, xMm: (own.u - shift.x + s * depth) / c, zMm: own.v - shift.z };
  const hand = handOf(survey, { x: own.u, y: own.v, z: surface === 'floor' ? 0 : height });
  return { surface, xMm: hand.x, yMm: hand.y };
}

/** Reads an offset and books what was read, off by a slip. */
export function readAndBook(
  survey: Survey,
  from: { datum: string; place: SurfacePlace; slipMm?: number; more?: Partial<Extract<Act, { act: 'book' }>> },
): Survey {
  const act: Act = { act: 'read', datum: from.datum, place: from.place };
  const valueMm = middleOf(doneOf(survey, act)) + (from.slipMm ?? 0);
  const read = acted(survey, act);
  return acted(read, {
    act: 'book',
    what: 'offset',
    valueMm,
    datum: from.datum,
    place: from.place,
    reading: read.entries.length,
    ...from.more,
  });
}
