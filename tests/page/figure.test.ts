/** Figures at the box under the loupe: what is taken, what is asked about, what is told. */
import { afterEach, describe, expect, test } from 'vitest';
import { askBefore, nudgeMm, padKeys, parseFigure, tooFine } from '../../src/page/read/figure.ts';
import { speakIn } from '../../src/recess/lengths.ts';

afterEach(() => speakIn('mm'));

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

describe('in inches', () => {
  test.each([
    ['23-5/16', 592.1375],
    ['23 5/16"', 592.1375],
    ['23.5', 596.9],
    ['23½', 596.9],
    ['23 ½ in', 596.9],
    ['½', 12.7],
    ['1\' 11-1/2"', 596.9],
    ['23\u20115/16"', 592.1375],
    ['5/32', 3.96875],
    ['0', 0],
  ])('%j is %d', (text, mm) => {
    speakIn('in-16');
    expect(parseFigure(text)).toBeCloseTo(mm, 9);
  });

  test.each(['', '-4', '23-', '5/', '23-5/15', '197', "23'", '1/3', '½½'])('%j is none', (text) => {
    speakIn('in-16');
    expect(parseFigure(text)).toBeNull();
  });

  test('it is read to half a graduation, nudged by one, and asked about to the inch', () => {
    speakIn('in-16');
    expect([25.4 / 32, 25.4 / 64].map(tooFine)).toEqual([false, true]);
    expect(nudgeMm()).toBe(25.4 / 32);
    expect(padKeys().slice(-6)).toEqual(['/2', '/4', '/8', '/16', '/32', '.']);
    expect(askBefore(25.4 * 40, 25.4 * 19.4)).toBe('The loupe shows about 19". To book 40" all the same, press again.');
    speakIn('in-32');
    expect([25.4 / 64, 25.4 / 128].map(tooFine)).toEqual([false, true]);
    expect(padKeys().slice(-6)).toEqual(['/4', '/8', '/16', '/32', '/64', '.']);
  });
});
