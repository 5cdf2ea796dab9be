/**
 * Lengths said and typed: mm as ever; inches and fractions of a rule marked in sixteenths or thirty-seconds.
 *
 * @source an inch is 25.4 mm; a figure midway between two graduations goes to the even one (NIST Handbook 44, section 10.3, as
 *   collected in the project's published checks, part 9.2). The equivalents in mm are those that follow from the first.
 */
import fc from 'fast-check';
import { afterEach, describe, expect, it } from 'vitest';
import {
  graduationMm,
  readTo,
  sayLength,
  sayWithUnit,
  sayWritten,
  speakIn,
  typedLength,
} from '../../src/recess/lengths.ts';

const seed = 20_417;
afterEach(() => speakIn('mm'));

describe('inches', () => {
  it.each([
    [25.4, '1"'],
    [0, '0"'],
    [12.7, '1/2"'],
    [1.5875, '1/16"'],
    [0.79375, '1/32"'],
    [481.0125, '18-15/16"'],
    [-60.325, '-2-3/8"'],
    [914.4, '36"'],
  ])('%f mm is %s by sixteenths, read to half of one', (mm, said) => {
    expect(sayLength(mm, 'in-16')).toBe(said);
    expect(typedLength(said, 'in-16')).toBeCloseTo(mm, 9);
    expect(typedLength(said.replace('"', ''), 'in-16')).toBeCloseTo(mm, 9);
  });

  it('a sixty-fourth is read off a rule of thirty-seconds alone', () => {
    const mm = 25.4 * (3 + 7 / 64);
    expect(sayLength(mm, 'in-32')).toBe('3-7/64"');
    // Midway between 3/32 and 4/32: the even one.
    expect(sayLength(mm, 'in-16')).toBe('3-1/8"');
  });

  it('midway between two, the even one', () => {
    const half = graduationMm('in-16') / 2;
    for (let n = 0; n < 12; n++) {
      const even = n % 2 === 0 ? n : n + 1;
      expect(readTo('in-16', (n + 0.5) * half)).toBeCloseTo(even * half, 9);
      expect(readTo('in-16', (n + 0.49) * half)).toBeCloseTo(n * half, 9);
      expect(readTo('in-16', (n + 0.51) * half)).toBeCloseTo((n + 1) * half, 9);
    }
  });

  it('what is said is within a quarter of a graduation, and is read back as what it says', () => {
    const units = fc.constantFrom('in-16' as const, 'in-32' as const);
    fc.assert(
      fc.property(units, fc.double({ min: -3000, max: 3000, noNaN: true }), (u, mm) => {
        const back = typedLength(sayLength(mm, u), u)!;
        expect(Math.abs(back - mm)).toBeLessThan(graduationMm(u) / 4 + 1e-5);
        expect(sayLength(back, u)).toBe(sayLength(mm, u));
        expect(back).toBeCloseTo(readTo(u, mm), 6);
      }),
      { seed },
    );
  });

  it.each(['', '18-', '15/17', '1/2/3', '18  15/16', 'x', '.', '1//2', '3-4', '--2', '18-15/16mm'])(
    '%j is no length',
    (word) => {
      expect(typedLength(word, 'in-16')).toBeNull();
    },
  );

  it('plain figures are inches, with a point or without', () => {
    expect(typedLength('18.5', 'in-32')).toBeCloseTo(469.9, 9);
    expect(typedLength('-2', 'in-32')).toBeCloseTo(-50.8, 9);
  });
});

describe('mm', () => {
  it('are said to a tenth, or as they were written; fractions are no lengths', () => {
    expect([sayLength(482.46), sayWritten(482.46), sayWithUnit(3)]).toEqual(['482.5', '482.46', '3 mm']);
    expect([typedLength('482.5'), typedLength('1/2'), typedLength(undefined)]).toEqual([482.5, null, null]);
    expect([readTo('mm', 10.25), readTo('mm', 10.2)]).toEqual([10.5, 10]);
  });

  it('one unit is spoken at a time', () => {
    speakIn('in-32');
    expect([sayLength(25.4), sayWithUnit(25.4), typedLength('1/2')]).toEqual(['1"', '1"', 12.7]);
  });
});
