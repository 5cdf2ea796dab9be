/**
 * Closing checks: each kind, with what it is held against, and what it misses by.
 */
import { describe, expect, it } from 'vitest';
import type { Act, SurfacePlace } from '../../src/survey/act.ts';
import { closingChecks } from '../../src/survey/closing-checks.ts';
import { acted, doneOf, middleOf, standing, surveyIn } from '../helpers/surveying.ts';

const offset = (datum: string, place: SurfacePlace, valueMm: number, check = false): Act => ({
  act: 'book',
  what: 'offset',
  valueMm,
  datum,
  place,
  ...(check ? { check } : {}),
});
const span = (place: SurfacePlace, to: 'left' | 'right' | 'floor' | 'ceiling', valueMm: number): Act => ({
  act: 'book',
  what: 'span',
  valueMm,
  place,
  to,
});
const left: SurfacePlace = { surface: 'left', yMm: 100, zMm: 900 };
const right: SurfacePlace = { surface: 'right', yMm: 100, zMm: 900 };
const checksOf = (...acts: Act[]) => closingChecks(acted(surveyIn(), ...acts));

describe('closing checks', () => {
  it('width: left and right against the tape', () => {
    expect(checksOf(offset('S', left, 498), offset('S', right, 501), span(left, 'right', 1002))).toEqual([
      {
        kind: 'width',
        booking: 3,
        against: [1, 2],
        predictedMm: 999,
        directMm: 1002,
        misclosureMm: 3,
        sizes: ['carcass-width', 'frame-width'],
      },
    ]);
  });

  it('height: down and up against the tape', () => {
    const [floor, ceiling]: SurfacePlace[] = [
      { surface: 'floor', xMm: 20, yMm: 100 },
      { surface: 'ceiling', xMm: 20, yMm: 100 },
    ];
    expect(
      checksOf(offset('L', floor!, 1100), offset('L', ceiling!, 1298), span(floor!, 'ceiling', 2396.5)),
    ).toMatchObject([
      { kind: 'height', predictedMm: 2398, misclosureMm: -1.5, sizes: ['carcass-height', 'frame-height'] },
    ]);
  });

  it('again: a second booking, marked as a check, against the first', () => {
    const at: SurfacePlace = { surface: 'back', xMm: 0, zMm: 900 };
    expect(checksOf(offset('F', at, 498), offset('F', at, 500.5, true))).toMatchObject([
      { kind: 'again', booking: 2, against: [1], misclosureMm: 2.5, sizes: ['carcass-depth'] },
    ]);
    // Averaged, not a check, where it is not marked so.
    expect(checksOf(offset('F', at, 498), offset('F', at, 500.5))).toEqual([]);
  });

  it('diagonal: by the two offsets, and how far apart they are along the walls', () => {
    const deep: SurfacePlace = { surface: 'right', yMm: 400, zMm: 1700 };
    const diagonal: Act = { act: 'book', what: 'diagonal', valueMm: 1317, place: left, to: deep };
    const [check] = checksOf(offset('S', left, 498), offset('S', deep, 502), diagonal);
    expect(check).toMatchObject({ kind: 'diagonal', booking: 3, against: [1, 2], sizes: ['carcass-width'] });
    expect(check!.predictedMm).toBeCloseTo(Math.hypot(1000, 300, 800), 9);
    expect(check!.misclosureMm).toBeCloseTo(1317 - Math.hypot(1000, 300, 800), 9);
  });

  it('need both offsets, at the place (20 mm), from one datum, and not struck through', () => {
    expect(checksOf(offset('S', left, 498), span(left, 'right', 1002))).toEqual([]);
    const far: SurfacePlace = { ...right, zMm: 921 };
    expect(checksOf(offset('S', left, 498), offset('S', far, 501), span(left, 'right', 1002))).toEqual([]);
    const near: SurfacePlace = { ...right, zMm: 920 };
    expect(checksOf(offset('S', left, 498), offset('S', near, 501), span(left, 'right', 1002))).toHaveLength(1);
    expect(checksOf(offset('S', left, 498), offset('S2', right, 501), span(left, 'right', 1002))).toEqual([]);
    const struck: Act[] = [offset('S', left, 498), offset('S', right, 501), span(left, 'right', 1002)];
    expect(checksOf(...struck, { act: 'strike', booking: 1 })).toEqual([]);
    expect(checksOf(...struck, { act: 'strike', booking: 3 })).toEqual([]);
  });

  it('close to nothing in a room without error, whatever its shape', () => {
    let survey = acted(
      surveyIn({
        seed: 'closing',
        wobbleMm: 1.5,
        defects: { left: [{ kind: 'lean', mm: 9 }], right: [{ kind: 'taper', mm: -8 }] },
      }),
      ...standing,
    );
    const deep: SurfacePlace = { surface: 'right', yMm: 400, zMm: 900 };
    for (const place of [left, right, deep])
      survey = acted(survey, offset('S', place, middleOf(doneOf(survey, { act: 'read', datum: 'S', place }))));
    const taped = (act: Act) => doneOf(survey, act).tapeMm!;
    survey = acted(survey, span(left, 'right', taped({ act: 'span', place: left, to: 'right' })), {
      act: 'book',
      what: 'diagonal',
      valueMm: taped({ act: 'diagonal', from: left, to: deep }),
      place: left,
      to: deep,
    });
    const checks = closingChecks(survey);
    expect(checks.map((c) => c.kind)).toEqual(['width', 'diagonal']);
    for (const c of checks) expect(Math.abs(c.misclosureMm)).toBeLessThan(0.15);
  });
});
