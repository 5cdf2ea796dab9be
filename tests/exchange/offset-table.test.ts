import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { nearnessTo, readOffsetTable, sayNearness, withReadings } from '../../src/exchange/offset-table.ts';
import { readOutlineLine } from '../../src/exchange/outline-line.ts';
import { exerciseOfRoom } from '../../src/exchange/own-room-file.ts';
import type { OwnRoom } from '../../src/exercise/own/own-room.ts';
import { heightAt } from '../../src/geometry/height-field.ts';
import { buildRecess } from '../../src/recess/recess.ts';

const seed = 7_741;
const room: OwnRoom = { format: 'offtrue-room', version: 1, family: 'alcove' };
const specOf = (of: OwnRoom) => {
  const made = exerciseOfRoom(of);
  if (!made.ok) throw new Error(made.says);
  return made.value.spec;
};
const spec = specOf(room);

/** The recess through a table, and how near it comes. */
function through(read: ReturnType<typeof readOffsetTable>) {
  if (!read.ok) throw new Error(read.says);
  const recess = buildRecess(specOf(withReadings(room, spec, read.value)));
  return { recess, near: nearnessTo(recess, read.value) };
}

describe('a table of offsets', () => {
  test('three heights by two depths: the surface goes through them', () => {
    const { recess, near } = through(
      readOffsetTable(
        'surface,along,up,offset\nleft,20,300,0\nleft,380,300,1\nleft,20,1200,4\nleft,380,1200,6\nleft,20,2100,2\nleft,380,2100,-1\n',
        spec,
      ),
    );
    expect(near).toMatchObject([{ side: 'left', count: 6 }]);
    expect(near[0]?.worstMm).toBeLessThan(0.02);
    expect(heightAt(recess.fields.left, 380, 1200)).toBeCloseTo(-594, 1);
    expect(sayNearness(near[0] as NonNullable<(typeof near)[0]>)).toMatch(
      /^left: 6 places, the surface comes within 0\.0\d of each/,
    );
  });

  test('offsets as a rule reads them, from lines that stand where they are told', () => {
    // From S at 15 right of the middle, 609 to the left wall: the wall is at -594, 6 into the recess.
    const csv =
      'surface;along;up;in;offset;from\nleft;20;1200;;609;S\nright;20;1200;;583,5;S\nback;0;1200;;402;F\nfloor;0;;100;1097;L\nceiling;0;;100;1310;L\n';
    const { recess } = through(readOffsetTable(csv, spec, { S: 15, F: 2, L: 1100 }));
    const { left, right, back, floor, ceiling } = recess.fields;
    expect(heightAt(left, 20, 1200)).toBeCloseTo(-594, 2);
    expect(0 - heightAt(right, 20, 1200)).toBeCloseTo(598.5, 2);
    expect(0 - heightAt(back, 0, 1200)).toBeCloseTo(404, 2);
    expect(heightAt(floor, 0, 100)).toBeCloseTo(3, 2);
    expect(0 - heightAt(ceiling, 0, 100)).toBeCloseTo(2410, 2);
  });

  test(`any full net of readings 250 or more apart is met within a tenth (seed ${seed})`, () => {
    const mm = fc.integer({ min: -24, max: 24 }).map((n) => n / 2);
    fc.assert(
      fc.property(fc.array(mm, { minLength: 15, maxLength: 15 }), (offsets) => {
        const rows = [-500, -250, 0, 250, 500].flatMap((along, i) =>
          [300, 1200, 2100].map((up, j) => `back,${along},${up},${offsets[3 * i + j]}`),
        );
        const { near } = through(readOffsetTable(`surface,along,up,offset\n${rows.join('\n')}\n`, spec));
        // Neighbours up to 24 apart in 250 are no wall, and still they are met.
        expect(near[0]?.worstMm).toBeLessThan(0.1);
      }),
      { seed, numRuns: 40 },
    );
  });

  test('what is not read is told of: readings that no smooth surface meets leave a stated residue', () => {
    const { near } = through(
      readOffsetTable('surface,along,up,offset\nleft,100,1200,0\nleft,101,1200,4\nleft,300,300,1\n', spec),
    );
    expect(near[0]?.worstMm).toBeGreaterThan(1.9);
    expect(near[0]?.worstMm).toBeLessThan(2.1);
  });

  test.each([
    ['', /expected a head and rows below it/],
    ['surface,along,up,offset\n', /expected a head and rows below it/],
    ['surface,along,up\nleft,1,2', /expected a column offset/],
    [
      'surfaces,along,up,offset\nleft,1,2,3',
      /offsets, head: expected a column .* the nearest that is known is "surface"/,
    ],
    ['surface,along,up,offset\nlfet,100,200,3', /line 2: expected a surface .* the nearest that is known is "left"/],
    ['surface,along,up,offset\nleft,100,200,x', /line 2, offset: expected a number, got "x"/],
    ['surface,along,up,offset\nleft,100,200,"3', /line 2: Quoted field unterminated/],
    ['surface,along,up,offset\n\nleft,100,200,1e3', /line 3, offset: expected a number/],
    ['surface,along,up,offset\nleft,0.1,1.2,3\nleft,0.3,2.1,4', /expected millimetres, got places up to 2.1/],
    ['surface,along,up,offset\nleft,100,1200,0.004', /expected millimetres, got offsets up to 0.004/],
    ['surface,along,up,offset\nleft,100,9000,3', /line 2, up: expected -200 to 2600, got 9000/],
    ['surface,along,up,in,offset\nleft,100,900,50,3', /line 2, in: expected none/],
    ['surface,along,up,offset,from\nleft,100,900,590,F', /line 2, from: the left is read from S/],
    ['surface,along,up,offset,offset\nleft,100,900,590,3', /the column "offset" stands twice/],
    ['surface,along,up,offset\nleft,100,900,5,3', /line 2: expected 4 cells, got 5/],
    ['surface,along,up,offset\nslope,100,900,5', /line 2: the slope is open/],
  ])('%j is refused', (csv, says) => {
    const read = readOffsetTable(csv, spec);
    expect(read.ok ? 'taken' : read.says).toMatch(says);
  });
});

describe('a line round the recess', () => {
  test('a plan: three walls, each as the line is, at every height', () => {
    const { recess, near } = through(
      readOutlineLine('x,y\n-602,-40\n-598,200\n-590,398\n0,405\n596,401\n604,0\n', spec),
    );
    expect(near.map((n) => n.side)).toEqual(['left', 'back', 'right']);
    for (const n of near) expect(n.worstMm).toBeLessThan(0.5);
    for (const z of [0, 1200, 2400]) {
      expect(heightAt(recess.fields.left, 200, z)).toBeCloseTo(-598, 0);
      expect(0 - heightAt(recess.fields.right, 200, z)).toBeCloseTo(600, 0);
    }
  });

  test('a section: floor, back and ceiling', () => {
    const { near } = through(readOutlineLine('y;z\n0;0\n400;8,5\n396;2395\n0;2404\n', spec));
    expect(near.map((n) => n.side)).toEqual(['floor', 'back', 'ceiling']);
    for (const n of near) expect(n.worstMm).toBeLessThan(0.01);
  });

  test.each([
    [
      'x,q\n1,2\n3,4',
      /x, y or y, z or x, z for a line round the recess, or surface, .* for a table of offsets, got x, q/,
    ],
    ['x,y\n-.6,0\n-.6,.4', /expected millimetres, got places up to 0.6/],
    ['y,z\n0,0\n0,2400', /line 3: expected to run along a surface, got a piece across the mouth/],
    ['x,y\n-600,0\n-350,400', /line 3: expected within 200 of the left's straight outline, got 250 into/],
    ['x,y\n-600,0', /expected two points or more, got 1/],
  ])('%j is refused', (csv, says) => {
    const read = readOutlineLine(csv, spec);
    expect(read.ok ? 'taken' : read.says).toMatch(says);
  });
});
