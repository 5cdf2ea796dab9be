/** Figures at the box under the loupe: what is taken, what is asked about, what is told. */
import { describe, expect, test } from 'vitest';
import { askBefore, parseFigure, tooFine } from '../../src/page/read/figure.ts';

describe('a typed figure', () => {
  test.each([
    ['592.5', 592.5],
    ['592,5', 592.5],
    [' 592. ', 592],
    ['.5', 0.5],
    ['0', 0],
    ['5000', 5000],
  ])('%j is %d', (text, mm) => expect(parseFigure(text)).toBe(mm));

  test.each(['', '1e3', '0x10', '-4', '5001', '59 2', '5.9.2', 'Infinity', '.'])('%j is none', (text) =>
    expect(parseFigure(text)).toBeNull(),
  );

  test('far from the loupe it is asked about, to the ten; near it or beside no loupe it is not', () => {
    expect(askBefore(5000, 472)).toBe('The loupe shows about 470. To book 5000 all the same, press again.');
    expect(askBefore(0, 472)).not.toBeNull();
    expect(askBefore(622, 472)).toBeNull();
    expect(askBefore(621.5, 471.4)).not.toBeNull();
    expect(askBefore(5000, null)).toBeNull();
  });

  test('finer than half a millimetre is told', () => {
    expect([590, 590.5, null].map(tooFine)).toEqual([false, false, false]);
    expect([590.3, 590.25].map(tooFine)).toEqual([true, true]);
  });
});
