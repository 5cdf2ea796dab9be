/**
 * Two walls that lean the same way.
 *
 * | statement | source | status |
 * |---|---|---|
 * | both walls lean the same way 8 mm in 2400: every tape width reads 1000, the widest plumb carcass is 992 | closed form, elementary geometry; the project's list of check values, 6.4 | D |
 * | 8 mm is the most that a wall up to 3 m high may be out of plumb | NHBC Standards 2020, chapter 9.1.3, https://nhbc-standards.co.uk/2020/9-finishes/9-1-a-consistent-approach-to-finishes/9-1-3-walls-and-ceilings/ | V: the publisher's page, read in part |
 *
 * Tolerance: half of the last printed digit, 0.5 mm; what is seen is far nearer. The room is built, taped by acts and
 * keyed as any other is.
 */
import { describe, expect, it } from 'vitest';
import { answerKey } from '../../src/marking/answer-key.ts';
import type { SurfacePlace } from '../../src/survey/act.ts';
import { exerciseIn, roomSpec } from '../helpers/rooms.ts';
import { doneOf, surveyOf } from '../helpers/surveying.ts';
import { placeAt, standTrue } from '../helpers/truths.ts';

describe.each([
  ['left', 1],
  ['right', -1],
] as const)('8 mm in 2400, both to the %s', (_, sign) => {
  // The ceiling stands 10 clear, so that a carcass of the whole 2400 is asked about.
  const spec = roomSpec({
    offsets: { ceiling: -10 },
    defects: { left: [{ kind: 'lean', mm: -8 * sign }], right: [{ kind: 'lean', mm: 8 * sign }] },
  });
  const size = (nominalMm: number) => ({ nominalMm, find: true });
  const exercise = exerciseIn(spec, {
    brief: { plinthMm: 0, carcassMm: { width: size(940), height: size(2400), depth: size(420) } },
  });

  it('every tape width reads 1000', () => {
    const survey = surveyOf(exercise);
    for (const u of [0, 250, 440])
      for (const v of [20, 700, 1200, 1900, 2380]) {
        const { tapeMm } = doneOf(survey, { act: 'span', place: placeAt(survey, 'left', { u, v }), to: 'right' });
        expect(Math.abs(tapeMm! - 1000)).toBeLessThan(0.05);
      }
  });

  it('the widest plumb carcass is 992', () => {
    const found = answerKey(surveyOf(exercise).world.recess, exercise);
    if (!found.ok) throw new Error(found.error.says);
    expect(Math.abs(found.key.widestMm! - 992)).toBeLessThan(0.005);
    const touching = (widthMm: number) => {
      const of = answerKey(surveyOf(exercise).world.recess, exercise, {
        carcass: { widthMm, heightMm: 2400, depthMm: 420 },
      });
      return of.ok && of.key.carcass!.goesInBare;
    };
    expect([touching(991.98), touching(992.02)]).toEqual([true, false]);
  });

  it('offsets from a square line find the 992 that the tape does not', () => {
    const survey = standTrue(exercise);
    const offset = (surface: SurfacePlace['surface'], v: number) => {
      const [near, far] = doneOf(survey, { act: 'read', datum: 'S', place: placeAt(survey, surface, { u: 200, v }) })
        .edgesMm!;
      return (near + far) / 2;
    };
    const least = (surface: 'left' | 'right') => Math.min(offset(surface, 1), offset(surface, 2399));
    expect(Math.abs(least('left') + least('right') - 992)).toBeLessThan(0.02);
  });
});
