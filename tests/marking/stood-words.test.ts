/**
 * How a line stood, in words; figures by hand.
 */
import { describe, expect, it } from 'vitest';
import { sayStood } from '../../src/marking/stood-words.ts';

const brief = { openingMm: { width: 1000, height: 2400, depth: 400 } };
const upright = (
  n: { nx: number; ny: number; nz: number },
  through: { x: number; y: number; z: number },
  datum: string,
) => {
  const length = Math.hypot(n.nx, n.ny, n.nz);
  const c = (n.nx * through.x + n.ny * through.y + n.nz * through.z) / length;
  return { datum, nx: n.nx / length, ny: n.ny / length, nz: n.nz / length, c };
};

describe('how a line stood', () => {
  it('F turned and behind, plumb: as far off at each end', () => {
    const plane = upright({ nx: -0.002, ny: 1, nz: 0 }, { x: 0, y: 3, z: 0 }, 'F');
    expect(sayStood(plane, brief)).toBe(
      'F stood 2 behind the true face line at the left and 4 behind the true face line at the right',
    );
  });

  it('F leaning is told half-way up, and its lean', () => {
    // Its top leans into the recess by 2 mm in a metre: 3 behind at 1200 up, 0.6 behind at the floor.
    const plane = upright({ nx: 0, ny: 1, nz: -0.002 }, { x: 0, y: 3, z: 1200 }, 'F2');
    expect(sayStood(plane, brief)).toBe(
      'F2 stood 3 behind the true face line at the left and 3 behind the true face line at the right, and leant 2 mm in a metre, its top into the recess',
    );
    expect(sayStood({ ...plane, nx: -plane.nx, ny: -plane.ny, nz: -plane.nz, c: -plane.c }, brief)).toBe(
      sayStood(plane, brief),
    );
  });

  it('S off square, and leaning to the left', () => {
    const plane = upright({ nx: 1, ny: 0.004, nz: 0.0015 }, { x: 0, y: 0, z: 1000 }, 'S');
    expect(sayStood(plane, brief)).toBe(
      'S ran 4 mm in a metre off square to the face line, and leant 1.5 mm in a metre, its top to the left',
    );
  });

  it('L rising by 3 and 4 in a metre on its two ways rises by 5', () => {
    const plane = upright({ nx: -0.003, ny: -0.004, nz: 1 }, { x: 0, y: 0, z: 900 }, 'L');
    expect(sayStood(plane, brief)).toContain(', and rose 5 mm in a metre on its steepest way');
    expect(sayStood({ datum: 'L', nx: 0, ny: 0, nz: 1, c: 900 }, brief)).toBe(
      'L stood off the height that was carried to it',
    );
  });
});
