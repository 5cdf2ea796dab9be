/**
 * Standing a carcass up: corner to corner it must be under the clear height.
 *
 * | statement | source | status |
 * |---|---|---|
 * | sqrt(h² + d²) must be under the ceiling; 6 ft x 2.5 ft needs 6.5 ft exactly | "Minimum ceiling height to move a closet to upright position", https://math.stackexchange.com/questions/339221/ , with a proof | V: read there |
 * | 2300 x 600 is 2376.97 and passes 2400; 2350 x 600 is 2425.39 and fails; at 2400 and 600 the tallest is 2323.79 | closed form, recomputed; the project's list of check values, 8 | D |
 *
 * Tolerance: half a unit in the last printed digit.
 */
import { describe, expect, it } from 'vitest';
import { standsUp } from '../../src/marking/answer-key.ts';
import { briefFor, roomSpec } from '../helpers/rooms.ts';

const foot = 304.8;
const under = (clearHeightMm: number, heightMm: number, depthMm: number, plinthMm = 0) =>
  standsUp(briefFor(roomSpec(), { access: { clearHeightMm, plinthSeparate: plinthMm === 0 }, plinthMm }), {
    widthMm: 900,
    heightMm,
    depthMm,
  })!;

describe('corner to corner', () => {
  it('6 ft by 2.5 ft stands up under 6.5 ft, with nothing to spare', () => {
    expect(Math.abs(under(6.5 * foot, 6 * foot, 2.5 * foot).byMm)).toBeLessThan(0.00005);
    expect(under(6.5 * foot + 0.01, 6 * foot, 2.5 * foot).ok).toBe(true);
    expect(under(6.5 * foot - 0.01, 6 * foot, 2.5 * foot).ok).toBe(false);
  });

  it.each([
    [2300, 2376.97, true],
    [2350, 2425.39, false],
  ])('%d by 600 is %d: under 2400 it is %s', (heightMm, diagonal, ok) => {
    const found = under(2400, heightMm, 600);
    expect(found.ok).toBe(ok);
    expect(Math.abs(2400 - found.byMm - diagonal)).toBeLessThan(0.005);
  });

  it('under 2400 and 600 deep the tallest is 2323.79', () => {
    expect(under(2400, 2323.79 - 0.005, 600).ok).toBe(true);
    expect(under(2400, 2323.79 + 0.005, 600).ok).toBe(false);
  });

  it('a plinth that does not come separately is stood up with it', () => {
    expect(under(2400, 2200, 600, 100).byMm).toBe(under(2400, 2300, 600).byMm);
  });

  it('with nothing to bring in there is no answer', () => {
    expect(standsUp(briefFor(roomSpec(), { access: null }), { widthMm: 1, heightMm: 1, depthMm: 1 })).toBeNull();
  });
});
