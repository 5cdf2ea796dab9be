/**
 * A thrown line has a width that grows with the distance from the level: what the eye takes off its middle is an error.
 *
 * Closed form: at a distance D the line is w = w0 + g D wide, so its near edge reads w / 2 short; a width that is read so on
 * both sides comes out short by half of both widths. Widths and growth are the kit's; typical, no source.
 */
import { describe, expect, it } from 'vitest';
import type { Act } from '../../src/survey/act.ts';
import { acted, doneOf, surveyIn } from '../helpers/surveying.ts';

const [w0, growth] = [1.5, 0.25];
const survey = (xMm: number) =>
  acted(
    surveyIn({ seed: 'wide line' }, { level: { lineWidthMm: w0, lineGrowthMmPerM: growth } }),
    { act: 'stand', xMm, yMm: 0, heightMm: 1000 },
    { act: 'settle' },
  );
const read = (surface: 'left' | 'right', yMm: number): Act => ({
  act: 'read',
  datum: 'S',
  place: { surface, yMm, zMm: 1000 },
});

describe('a wide line', () => {
  it.each([60, 200, 440])('%i in, it is as wide as its distance makes it, the rule’s crossing in its middle', (yMm) => {
    const at = survey(0);
    const [near, far] = doneOf(at, read('left', yMm)).edgesMm!;
    // The rule lies level with the crossing point and runs out from the wall along x: the line is met yMm off, near enough.
    const seenFrom = yMm / 1000;
    expect(far - near).toBeCloseTo(w0 + growth * seenFrom, 1);
    expect(far - near).toBeGreaterThan(w0);
  });

  it('read at its near edge on both sides, a width comes out short by half of both widths; at its middle, not', () => {
    const at = survey(35);
    const edges = (['left', 'right'] as const).map((surface) => doneOf(at, read(surface, 400)).edgesMm!);
    const wide = edges.map(([near, far]) => far - near);
    const byMiddle = edges.reduce((sum, [near, far]) => sum + (near + far) / 2, 0);
    const byNear = edges.reduce((sum, [near]) => sum + near, 0);
    expect(byMiddle - byNear).toBeCloseTo((wide[0]! + wide[1]!) / 2, 9);
    // The room is true and 1000 wide; the hand's frame is turned a little, which a square line does not see twice.
    expect(Math.abs(byMiddle - 1000)).toBeLessThan(0.05);
    expect(1000 - byNear).toBeGreaterThan(w0 - 0.05);
  });

  it('off its middle the same way on both sides, one side reads long and the other short: that cancels', () => {
    const at = survey(-20);
    const [left, right] = (['left', 'right'] as const).map((surface) => doneOf(at, read(surface, 300)).edgesMm!);
    // The line's left edge is the near one from the left wall and the far one from the right.
    expect(left![0] + right![1]).toBeCloseTo((left![0] + left![1] + right![0] + right![1]) / 2, 1);
  });
});
