/** Samples that are not what they say are refused, with the reason. */
import { describe, expect, test } from 'vitest';
import { madeRoom, samplesOf } from './made-room.ts';
import { readSamples } from './samples.ts';
import { sheetOf } from './sheet.ts';

type Loose = Record<string, unknown>;

const good = () => samplesOf(madeRoom()) as Loose & { surfaces: Loose[]; trims: Loose[]; brief: Loose };
const skirting = (other: Loose = {}) => ({
  name: 'skirting',
  surface: 'left',
  uMm: [-100, 400],
  vMm: [-256, 150],
  profile: {
    along: 'v',
    mm: [
      [-256, 18],
      [150, 4],
    ],
  },
  fate: 'stays',
  ...other,
});

describe('samples', () => {
  test('what a room prints is read, trims and all', () => {
    const read = readSamples({ ...good(), trims: [skirting()] });
    expect(read.surfaces.map(({ side }) => side)).toEqual(['left', 'right', 'back', 'floor', 'ceiling']);
    expect(read.brief.carcassMm).toEqual({ width: 960, height: 2200, depth: 350 });
    expect(read.trims[0]?.profile.mm).toEqual([
      [-256, 18],
      [150, 4],
    ]);
  });

  const refused: readonly (readonly [string, unknown, RegExp])[] = [
    ['another format', { ...good(), format: 'offtrue-log' }, /offtrue-samples version 1/],
    ['a newer version', { ...good(), version: 2 }, /offtrue-samples version 1/],
    ['a step that does not divide the knots', { ...good(), stepMm: 3 }, /3 mm does not divide the 128 mm/],
    ['two mouths', { ...good(), mouthMm: -90 }, /mouthMm: -90, but the brief says -100/],
    ['a brief without a nominal', { ...good(), brief: { ...good().brief, carcassMm: {} } }, /carcassMm.width/],
    ['a trim on no surface', { ...good(), trims: [skirting({ surface: 'breast' })] }, /lies on 0 surfaces/],
    ['a trim on the floor', { ...good(), trims: [skirting({ surface: 'floor' })] }, /no trims on a floor/],
    ['a profile that stops short', { ...good(), trims: [skirting({ vMm: [-256, 151] })] }, /cover the band/],
    ['an unknown fate', { ...good(), trims: [skirting({ fate: 'goes' })] }, /stays\|off\|cut/],
  ];
  test.each(refused)('%s is refused', (_, json, reason) => {
    expect(() => readSamples(json)).toThrow(reason);
  });

  test('axes, rows and heights that do not fit are refused', () => {
    const withLeft = (other: Loose) => {
      const json = good();
      return { ...json, surfaces: json.surfaces.map((one) => (one['name'] === 'left' ? { ...one, ...other } : one)) };
    };
    expect(() => readSamples(withLeft({ u: { axis: 'x', fromMm: -384, count: 73 } }))).toThrow(/expected y, got x/);
    expect(() => readSamples(withLeft({ v: { axis: 'z', fromMm: -256, count: 7 } }))).toThrow(/expected 7 rows/);
    expect(() => readSamples(withLeft({ knots: { stepMm: 128, u0Mm: -380, v0Mm: -256 } }))).toThrow(/miss the knots/);
    const heights = structuredClone(good().surfaces[0]?.['heightsMm']) as (number | null)[][];
    heights[5]![6] = null;
    expect(() => readSamples(withLeft({ heightsMm: heights }))).toThrow(
      /heightsMm\[5\]\[6\]: expected a finite number/,
    );
  });

  test('heights rounded to the micron, or a bend within a span, are told by their fourth differences', () => {
    const sheetFrom = (left: (u: number, v: number) => number) => {
      const samples = readSamples(samplesOf(madeRoom({ left })));
      return sheetOf(samples.surfaces[0]!, samples.stepMm);
    };
    const lean = (u: number, v: number) => -500 + v / 317 + u / 211;
    expect(() => sheetFrom(lean)).not.toThrow();
    expect(() => sheetFrom((u, v) => Math.round(lean(u, v) * 1e3) / 1e3)).toThrow(/not cubic between knots/);
    expect(() => sheetFrom((_, v) => -500 + Math.abs(v - 1000) / 1000)).toThrow(/not cubic between knots/);
    expect(() => sheetFrom((u) => -500 + Math.abs(u - 64) / 1000)).toThrow(/not cubic between knots/);
  });
});
