/**
 * Working out: the right rules over what stands on the sheet, transfers, rounding for the workshop, uncertainties.
 */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Act, SurfacePlace } from '../../src/survey/act.ts';
import { bookedOffsets, grouped, putTo } from '../../src/survey/offsets.ts';
import {
  forWorkshop,
  offsetsOverMade,
  rightRule,
  type SizeName,
  sizeNames,
  sizesOf,
  toBeFound,
} from '../../src/survey/size.ts';
import { uSize } from '../../src/survey/uncertainty.ts';
import { uncertaintyWords } from '../../src/survey/uncertainty-words.ts';
import { workOut, workOutSize } from '../../src/survey/working-out.ts';
import { acted, standing, surveyIn } from '../helpers/surveying.ts';

const book = (datum: string, place: SurfacePlace, valueMm: number, more: object = {}): Act => ({
  act: 'book',
  what: 'offset',
  valueMm,
  datum,
  place,
  ...more,
});
const left = (zMm: number, yMm = 100): SurfacePlace => ({ surface: 'left', yMm, zMm });
const right = (zMm: number, yMm = 100): SurfacePlace => ({ surface: 'right', yMm, zMm });
const back = (xMm: number, zMm: number): SurfacePlace => ({ surface: 'back', xMm, zMm });
const flat = (surface: 'floor' | 'ceiling', xMm: number, yMm = 100): SurfacePlace => ({ surface, xMm, yMm });
const fresh = surveyIn();
const made = (size: SizeName, ...acts: Act[]) => workOutSize(acted(fresh, ...acts), size);

describe('the right rules', () => {
  it('a carcass takes the tightest of each side, less what is asked', () => {
    const acts = [
      book('S', left(300), 503),
      book('S', left(900), 498.5),
      book('S', left(2000, 350), 501),
      book('S', right(300), 499),
      book('S', right(900), 502),
    ];
    const width = made('carcass-width', ...acts);
    expect(width.offsetsMm).toBe(498.5 + 499);
    // Asked: 3 left and 3 right.
    expect(width.workshopMm).toBe(991.5);
    expect(width.terms.filter((t) => t.counts).map((t) => t.valueMm)).toEqual([498.5, 499]);
    const depth = made('carcass-depth', book('F', back(-200, 900), 498), book('F', back(200, 900), 495));
    // The front of the carcass stands 20 behind the face line; 8 is asked behind.
    expect([depth.offsetsMm, depth.workshopMm]).toEqual([495, 467]);
    const height = made(
      'carcass-height',
      book('L', flat('floor', -200), 1099),
      book('L', flat('floor', 200), 1102),
      book('L', flat('ceiling', -200), 1301),
      book('L', flat('ceiling', 200), 1297),
    );
    // Plinth 100, 6 asked over.
    expect([height.offsetsMm, height.workshopMm]).toEqual([2396, 2290]);
  });

  it('a frame takes the widest of each side at the face line, and the least stock', () => {
    const onFace = (surface: 'left' | 'right', zMm: number): SurfacePlace => ({ surface, along: 'F', zMm });
    const survey = acted(
      fresh,
      ...standing,
      book('S', onFace('left', 300), 503),
      book('S', onFace('left', 1800), 499),
      book('S', onFace('right', 300), 497),
      book('S', onFace('right', 1800), 500.5),
      book('S', right(900, 400), 510),
    );
    const width = workOutSize(survey, 'frame-width');
    expect([width.offsetsMm, width.workshopMm]).toEqual([1003.5, 1011.5]);
  });

  it('over any offsets: least and least, or most and most, seed 81', () => {
    const terms = fc.array(
      fc.record({
        side: fc.constantFrom('left' as const, 'right' as const),
        valueMm: fc.integer({ min: 1, max: 2000 }),
      }),
      { maxLength: 12 },
    );
    fc.assert(
      fc.property(terms, (list) => {
        const of = (side: string) => list.filter((t) => t.side === side).map((t) => t.valueMm);
        const [l, r] = [of('left'), of('right')];
        const whole = l.length > 0 && r.length > 0;
        expect(rightRule('carcass-width', list)?.valueMm ?? null).toBe(whole ? Math.min(...l) + Math.min(...r) : null);
        expect(rightRule('frame-width', list)?.valueMm ?? null).toBe(whole ? Math.max(...l) + Math.max(...r) : null);
        for (const i of rightRule('carcass-width', list)?.counting ?? [])
          expect(list[i]!.valueMm).toBe(Math.min(...of(list[i]!.side)));
      }),
      { seed: 81 },
    );
  });

  it('with a side missing, a size has no answer', () => {
    const width = made('carcass-width', book('S', left(900), 500));
    expect(width).toMatchObject({ offsetsMm: null, workshopMm: null, uMm: null });
    expect(workOut(fresh).map((w) => w.workshopMm)).toEqual([null, null, null, null, null]);
  });

  it('what is made and its offsets differ by what the brief asks', () => {
    const { brief } = fresh.world.exercise;
    expect(sizesOf(brief).map((s) => offsetsOverMade(s, brief))).toEqual([6, 106, 28, -8, -8]);
    expect(sizesOf({ ...brief, frame: null })).toEqual(['carcass-width', 'carcass-height', 'carcass-depth']);
    expect(toBeFound('frame-width', { ...brief, frame: null })).toBe(false);
    const { carcassMm } = brief;
    const asItIs = { ...brief, carcassMm: { ...carcassMm, depth: { ...carcassMm.depth, find: false } } };
    expect(sizesOf(asItIs).map((s) => toBeFound(s, asItIs))).toEqual([true, true, false, true, true]);
  });
});

describe('rounding for the workshop', () => {
  it.each([
    ['carcass-width', 991.49, 991],
    ['carcass-width', 991.5, 991.5],
    ['carcass-height', 2289.999, 2289.5],
    ['carcass-depth', 466.25, 466],
    ['frame-width', 1011.01, 1011.5],
    ['frame-width', 1011.5, 1011.5],
    ['frame-height', 2400.51, 2401],
  ] as const)('%s of %d becomes %d', (size, mm, rounded) => {
    expect(forWorkshop(size, mm)).toBe(rounded);
  });

  it('never makes a carcass larger or a frame smaller, nor by half a millimetre, seed 82', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 4000, noNaN: true }), (mm) => {
        const [down, up] = [forWorkshop('carcass-width', mm), forWorkshop('frame-width', mm)];
        expect(down <= mm && mm - down <= 0.5 && up >= mm && up - mm <= 0.5).toBe(true);
        expect([down * 2, up * 2].every(Number.isInteger)).toBe(true);
      }),
      { seed: 82 },
    );
  });
});

describe('which bookings go to which size', () => {
  it('are told by their place and datum where they say nothing', () => {
    const { brief } = fresh.world.exercise;
    const survey = acted(
      fresh,
      ...standing,
      book('S', left(900), 500),
      book('S', { surface: 'left', along: 'F', zMm: 900 }, 500),
      book('S', left(900, 0), 500),
      book('S', left(20), 500),
      book('L', left(900), 500),
      book('F', back(0, 900), 500),
      book('F', back(0, 2390), 500),
      book('L', flat('floor', 0), 1100),
      book('L', { surface: 'floor', along: 'F', xMm: 0 }, 1100),
      book('S', left(900), 500, { check: true }),
      book('S', left(20), 500, { for: ['carcass-width'] }),
    );
    expect(bookedOffsets(survey).map((o) => putTo(o, brief))).toEqual([
      ['carcass-width'],
      ['carcass-width', 'frame-width'],
      ['carcass-width', 'frame-width'],
      [],
      [],
      ['carcass-depth'],
      [],
      ['carcass-height'],
      ['carcass-height', 'frame-height'],
      [],
      ['carcass-width'],
    ]);
  });

  it('within 5 mm of each other from one datum are one place, and averaged', () => {
    const survey = acted(
      fresh,
      book('S', left(900), 500),
      book('S', left(905), 503),
      book('S', left(911), 490),
      book('S2', left(900), 480),
    );
    const groups = grouped(bookedOffsets(survey));
    expect(groups.map((g) => [g.datum, g.meanMm, g.bookings.length])).toEqual([
      ['S', 501.5, 2],
      ['S', 490, 1],
      ['S2', 480, 1],
    ]);
  });
});

describe('transfers', () => {
  const both = [
    book('S', left(900), 500),
    book('S', right(900), 500),
    book('S2', left(1500), 538),
    book('S2', right(1500), 465),
  ];

  it('bring S2 to S: offsets to the left shrink by the step to the right, those to the right grow', () => {
    // S2 stands 40 right of S: 538 - 40 = 498, 465 + 40 = 505.
    const width = made('carcass-width', ...both, { act: 'carry', from: 'S2', to: 'S', stepMm: 40 });
    expect(width.base).toBe('S');
    expect(width.terms.map((t) => [t.datum, t.valueMm])).toEqual([
      ['S', 500],
      ['S', 500],
      ['S2', 498],
      ['S2', 505],
    ]);
    expect(width.offsetsMm).toBe(998);
    expect(width.notCarried).toEqual([]);
  });

  it('are the same said the other way round, and the last one said counts', () => {
    const width = made(
      'carcass-width',
      ...both,
      { act: 'carry', from: 'S2', to: 'S', stepMm: 3 },
      { act: 'carry', from: 'S', to: 'S2', stepMm: -40 },
    );
    expect(width.offsetsMm).toBe(998);
  });

  it('of a face line and a level line: deeper and higher are +', () => {
    // F2 stands 30 in front of F: -30. An offset back from it is 30 too long.
    const depth = made('carcass-depth', book('F', back(-200, 900), 500), book('F2', back(200, 900), 525), {
      act: 'carry',
      from: 'F2',
      to: 'F',
      stepMm: -30,
    });
    expect(depth.offsetsMm).toBe(495);
    const height = made(
      'carcass-height',
      book('L', flat('floor', 0), 1100),
      book('L2', flat('ceiling', 0), 1000),
      book('L2', flat('floor', 200), 1390),
      { act: 'carry', from: 'L2', to: 'L', stepMm: 300 },
    );
    // Up from L: 1300. Down from L: 1100 and 1090.
    expect(height.offsetsMm).toBe(2390);
  });

  it('that were not carried over are named, and the offsets taken as they stand', () => {
    const width = made('carcass-width', ...both);
    expect(width.notCarried).toEqual(['S2']);
    expect(width.offsetsMm).toBe(500 + 465);
  });

  it('bring offsets all from a later set-up to the first one that they are carried to', () => {
    const width = made('carcass-width', ...both.slice(2), { act: 'carry', from: 'S2', to: 'S', stepMm: 40 });
    expect([width.base, width.offsetsMm]).toEqual(['S', 1003]);
  });
});

describe('uncertainties', () => {
  const sized = surveyIn({ seed: 'u' }, { errors: true, brief: { referenceWaverMm: 1.5 } }).world.exercise;
  const term = { lengthMm: 500, readings: 1, x: 0, y: 100 };
  // By hand. Rule, class II: 0.3 + 0.2 x 1 + 0.2 + 0.3 for its joints = 1.0, a half-width. Eye: two edges of 0.15, and 0.25 either way.
  const rule = 1 / Math.sqrt(3);
  const eye = Math.sqrt(0.15 ** 2 / 2 + 0.25 ** 2 / 3);

  it('add the rule’s limits as they stand, the eye’s as squares', () => {
    expect(uSize(sized, 'carcass-width', [term, term])).toBeCloseTo(Math.sqrt((2 * rule) ** 2 + 2 * eye ** 2), 9);
    expect(uSize(sized, 'carcass-height', [term, { ...term, lengthMm: 1300 }])).toBeCloseTo(
      Math.sqrt((rule + 1.2 / Math.sqrt(3)) ** 2 + 2 * eye ** 2),
      9,
    );
  });

  it('let the eye’s part shrink with readings averaged, the rule’s not', () => {
    const four = { ...term, readings: 4 };
    expect(uSize(sized, 'carcass-width', [four, four])).toBeCloseTo(Math.sqrt((2 * rule) ** 2 + (2 * eye ** 2) / 4), 9);
  });

  it('take the set-up for what turns or moves the size: widths at two depths, and depths', () => {
    const at = 1.5 / Math.sqrt(3);
    const turn = (at * Math.sqrt(2)) / 900;
    const width = uSize(sized, 'carcass-width', [term, { ...term, y: 400 }]);
    expect(width).toBeCloseTo(Math.sqrt((2 * rule) ** 2 + 2 * eye ** 2 + (turn * 300) ** 2), 9);
    const depth = uSize(sized, 'carcass-depth', [{ ...term, x: 200, y: 0 }]);
    expect(depth).toBeCloseTo(Math.sqrt(rule ** 2 + eye ** 2 + at ** 2 / 2 + (turn * 200) ** 2), 9);
  });

  it('are nothing for a rule without error and a straight reference', () => {
    const exact = surveyIn().world.exercise;
    for (const size of sizeNames) expect(uSize(exact, size, [term, term])).toBe(0);
  });

  it('go with every size that has an answer, and are said at k = 2', () => {
    const survey = acted(surveyIn({}, { errors: true }), book('S', left(900), 500), book('S', right(900), 500));
    const { uMm } = workOutSize(survey, 'carcass-width');
    expect(uMm).toBeCloseTo(Math.sqrt((2 * rule) ** 2 + 2 * eye ** 2), 9);
    expect(uncertaintyWords({ uMm: 1.2 })).toContain('about 2.5 either way where you read');
    expect(uncertaintyWords({ uMm: 1.25 })).toContain('about 2.5 either way');
    expect(uncertaintyWords({ uMm: 0 })).toContain('about 0.5 either way');
    expect(uncertaintyWords({ uMm: null })).toContain('a side has no offset');
  });
});
