/**
 * A fact of the trade: common practice, no source.
 *
 * Offsets from a plumb square line read 975 top left, 1053 top right, 979 bottom left, 1050 bottom right. A tape would say
 * 2028 and 2029; the frame must be 979 + 1053 = 2032. Depths of 632, 629, 621 on one side and 614, 620, 620 on the other
 * allow nothing deeper than 614. These numbers stand in this test alone.
 */
import { expect, it } from 'vitest';
import { answerKey } from '../../src/marking/answer-key.ts';
import type { Act, SurfacePlace } from '../../src/survey/act.ts';
import { workOutSize } from '../../src/survey/working-out.ts';
import { exerciseIn, roomSpec } from '../helpers/rooms.ts';
import { acted, doneOf, handOf, surveyOf } from '../helpers/surveying.ts';

it('a frame is the widest left and the widest right, a carcass the least depth', () => {
  // The walls as they were found: left at -979 below and -975 above, right at 1050 and 1053; the back at 614 at its nearest.
  const openingMm = { width: 2030, height: 2400, depth: 640 };
  const spec = roomSpec({
    openingMm,
    offsets: { left: 1015 - 977, right: -(1051.5 - 1015) },
    defects: { left: [{ kind: 'lean', mm: 4 }], right: [{ kind: 'lean', mm: -3 }] },
  });
  const exercise = exerciseIn(spec);
  const found = answerKey(surveyOf(exercise).world.recess, exercise);
  if (!found.ok) throw new Error(found.error.says);
  expect(found.key.opening!.widthMm).toBeCloseTo(2032, 1);

  // The same by the sheet: the square line is x = 0, so the level stands where the hand reaches that.
  const fresh = surveyOf(exercise);
  const at = handOf(fresh, { x: 0, y: 0, z: 1100 });
  const { xAxis } = fresh.world.hand;
  const survey = acted(
    fresh,
    { act: 'stand', xMm: at.x, yMm: at.y, heightMm: at.z },
    { act: 'settle' },
    { act: 'turn', byMmPerM: (-1000 * xAxis.y) / xAxis.x },
  );
  const book = (datum: string, place: SurfacePlace, valueMm: number): Act => ({
    act: 'book',
    what: 'offset',
    datum,
    place,
    valueMm,
  });
  const faces = (['left', 'right'] as const).flatMap((surface) =>
    [0, 2400].map((z): SurfacePlace => ({ surface, along: 'F', zMm: handOf(survey, { x: 0, y: 0, z }).z })),
  );
  const read = faces.map((place) => {
    const [near, far] = doneOf(survey, { act: 'read', datum: 'S', place }).edgesMm!;
    return (near + far) / 2;
  });
  expect(read).toEqual([979, 975, 1050, 1053].map((mm) => expect.closeTo(mm, 2)));
  const written = acted(survey, ...faces.map((place, i) => book('S', place, Math.round(read[i]! * 2) / 2)));
  expect(workOutSize(written, 'frame-width').offsetsMm).toBe(2032);
  // A tape would say:
  expect([Math.round(read[1]! + read[3]!), Math.round(read[0]! + read[2]!)]).toEqual([2028, 2029]);

  const depths = [632, 629, 621, 614, 620, 620].map((mm, i) =>
    book('F', { surface: 'back', xMm: i < 3 ? -900 : 900, zMm: 300 + 900 * (i % 3) }, mm),
  );
  expect(workOutSize(acted(survey, ...depths), 'carcass-depth').offsetsMm).toBe(614);
});
