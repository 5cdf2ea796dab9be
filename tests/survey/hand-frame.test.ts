/**
 * The hand's frame: within 8 mm and 6 mrad of the room's, and never told.
 */
import { describe, expect, it } from 'vitest';
import { drawKey } from '../../src/chance/keyed-draws.ts';
import { directionToRoom, drawHandFrame, toRoom } from '../../src/survey/hand-frame.ts';
import { evenness, meanAndDeviation, tally } from '../helpers/statistics.ts';
import { acted, handOf, roomOf, standing, surveyIn } from '../helpers/surveying.ts';

const frames = Array.from({ length: 4000 }, (_, i) => drawHandFrame(drawKey(`frame ${i}`)));

describe('4,000 hand frames, seeds "frame 0" to "frame 3999"', () => {
  it.each(['x', 'y', 'z'] as const)('are shifted along %s by up to 8 mm, evenly', (axis) => {
    const shifts = frames.map((f) => f.shift[axis]);
    expect(Math.max(...shifts.map(Math.abs))).toBeLessThanOrEqual(8);
    expect(
      Math.abs(
        evenness(
          tally(
            shifts.map((s) => Math.floor((s + 8) * 2)),
            32,
          ),
        ),
      ),
    ).toBeLessThan(4.5);
  });

  it('are turned by up to 6 mrad, either way alike, with a unit axis', () => {
    const turns = frames.map(({ xAxis }) => Math.atan2(xAxis.y, xAxis.x));
    expect(Math.max(...turns.map(Math.abs))).toBeLessThanOrEqual(0.006 + 1e-12);
    expect(Math.max(...turns.map(Math.abs))).toBeGreaterThan(0.0058);
    expect(Math.abs(meanAndDeviation(turns).mean)).toBeLessThan((4.5 * 0.0035) / Math.sqrt(4000));
    for (const { xAxis } of frames) expect(Math.hypot(xAxis.x, xAxis.y)).toBeCloseTo(1, 14);
  });

  it('carry places and directions as a turn and a shift do', () => {
    for (const seed of ['a', 'b', 'c']) {
      const survey = surveyIn({ seed });
      for (const p of [
        { x: 0, y: 0, z: 0 },
        { x: -480, y: 350, z: 1700 },
      ]) {
        const [here, own] = [toRoom(survey.world.hand, p), roomOf(survey, p)];
        for (const axis of ['x', 'y', 'z'] as const) expect(here[axis]).toBeCloseTo(own[axis], 9);
        for (const axis of ['x', 'y', 'z'] as const) expect(handOf(survey, here)[axis]).toBeCloseTo(p[axis], 9);
      }
      const d = directionToRoom(survey.world.hand, { x: 3, y: 4 });
      expect(Math.hypot(d.x, d.y)).toBeCloseTo(5, 12);
    }
  });

  it('typing zero does not find the face line', () => {
    let near = 0;
    for (let i = 0; i < 200; i++) {
      const survey = acted(surveyIn({ seed: `zero ${i}` }), ...standing);
      const { nx, ny, c } = survey.planes['F']!;
      const at = (x: number) => (c - nx * x) / ny;
      if (Math.abs(at(-500)) < 0.3 && Math.abs(at(500)) < 0.3) near++;
    }
    expect(near).toBeLessThan(4);
  });
});
