/**
 * Allowing for a level that is out of true: against the same survey with a true level, errors off; and against the ledger,
 * whose set-up line must lose what was allowed for.
 *
 * @source an instrument that is out by e rises, leans or turns by e for each metre from it: plane geometry, no source
 */
import { describe, expect, it } from 'vitest';
import type { SetFaults } from '../../src/exercise/kit.ts';
import { takeInHand } from '../../src/learners/hand.ts';
import { bringToReference, standOnReference } from '../../src/learners/lining-up.ts';
import { markSurvey } from '../../src/marking/report.ts';
import type { Act, ActOf, SurfacePlace } from '../../src/survey/act.ts';
import { saySheet } from '../../src/survey/field-sheet-words.ts';
import { bookedOffsets, carriedStep } from '../../src/survey/offsets.ts';
import type { Survey } from '../../src/survey/survey.ts';
import { workOutSize } from '../../src/survey/working-out.ts';
import { exerciseOfShape } from '../helpers/family-rooms.ts';
import { acted, middleOf, outcomeOf, surveyIn, surveyOf } from '../helpers/surveying.ts';

const places: readonly (readonly [datum: 'F' | 'S' | 'L', place: SurfacePlace])[] = [
  ...([300, 2000] as const).flatMap((zMm) =>
    ([80, 380] as const).flatMap((yMm) =>
      (['left', 'right'] as const).map((surface) => ['S', { surface, yMm, zMm }] as const),
    ),
  ),
  ...([300, 2000] as const).flatMap((zMm) =>
    ([-400, 400] as const).map((xMm) => ['F', { surface: 'back', xMm, zMm }] as const),
  ),
  ...([80, 380] as const).flatMap((yMm) =>
    ([-400, 400] as const).flatMap((xMm) =>
      (['floor', 'ceiling'] as const).map((surface) => ['L', { surface, xMm, yMm }] as const),
    ),
  ),
];

/** Lined up on the reference without error, read everywhere, and each middle booked as it was seen. */
function surveyed(
  faults: SetFaults | null,
  { before = [], facing = 'recess' }: { before?: readonly Act[]; facing?: 'recess' | 'room' } = {},
): Survey {
  const level = faults ? { faults: [faults] } : {};
  const hand = takeInHand(acted(surveyIn({ seed: 'allowed' }, { level }), ...before));
  if (facing === 'recess') standOnReference(hand, 1100);
  else {
    hand.act({ act: 'stand', xMm: 0, yMm: 0, heightMm: 1100, facing });
    bringToReference(hand, hand.act({ act: 'settle' }), facing);
  }
  for (const [datum, place] of places) {
    const seen = hand.act({ act: 'read', datum, place });
    if (!seen.ok) throw new Error(`${datum}: ${seen.error.code}`);
    const reading = hand.now().entries.length;
    hand.act({ act: 'book', what: 'offset', valueMm: middleOf(seen), datum, place, reading });
  }
  return hand.now();
}

const judged = (check: Partial<ActOf<'check'>>): Act => ({
  act: 'check',
  check: 'level',
  verdict: 'use',
  allow: true,
  ...check,
});

const cases: readonly (readonly [says: string, faults: SetFaults, verdict: Act])[] = [
  ['rises in front', { levelForeMmPerM: 4 }, judged({ check: 'level', of: 'fore', errorMmPerM: 4 })],
  ['rises to its right', { levelSideMmPerM: -3 }, judged({ check: 'level', of: 'side', errorMmPerM: -3 })],
  ['F leans', { plumbFMmPerM: 3 }, judged({ check: 'plumb', of: 'F', errorMmPerM: 3 })],
  ['S leans', { plumbSMmPerM: -3 }, judged({ check: 'plumb', of: 'S', errorMmPerM: -3 })],
  ['S is not square to F', { squareMmPerM: 5 }, judged({ check: 'square', errorMmPerM: 5 })],
];

describe.each(cases)('a level that %s', (_says, faults, verdict) => {
  const truly = bookedOffsets(surveyed(null)).map((o) => o.valueMm);
  const worst = (survey: Survey) =>
    Math.max(...bookedOffsets(survey).map((o, i) => Math.abs(o.valueMm - (truly[i] as number))));

  it('is read as a true one when its error is allowed for, before or after it is read from', () => {
    const out = surveyed(faults);
    expect(worst(out)).toBeGreaterThan(1);
    expect(worst(acted(out, verdict))).toBeLessThan(0.1);
    expect(worst(surveyed(faults, { before: [verdict] }))).toBeLessThan(0.1);
  });

  it('facing the room too', () => {
    const out = surveyed(faults, { facing: 'room' });
    expect(worst(out)).toBeGreaterThan(1);
    expect(worst(acted(out, verdict))).toBeLessThan(0.1);
  });

  it('is taken at the last verdict: one that allows for nothing takes the allowance back', () => {
    const out = acted(surveyed(faults), verdict);
    const { allow: _allow, ...use } = verdict as ActOf<'check'>;
    expect(worst(acted(out, use))).toBeGreaterThan(1);
  });

  it('what stands on the sheet stays as it was written', () => {
    const out = acted(surveyed(faults), verdict);
    for (const o of bookedOffsets(out)) expect(o.valueMm - o.allowedMm).toBeCloseTo(o.said.valueMm, 9);
  });
});

describe('a step that is carried over', () => {
  const verdict = judged({ check: 'level', of: 'fore', errorMmPerM: 5 });
  /** L is marked, the level stood again out in the room, the step read at the mark, and the ceiling read from there. */
  function carried(faults: SetFaults | null, last: readonly Act[]): number {
    const level = faults ? { faults: [faults] } : {};
    const hand = takeInHand(surveyIn({ seed: 'carried' }, { level }));
    standOnReference(hand, 1100);
    hand.act({ act: 'mark', place: { surface: 'left', along: 'L', yMm: 350 } });
    hand.act({ act: 'read', datum: 'S', place: { surface: 'left', yMm: 100, zMm: 900 } });
    hand.act({ act: 'stand', xMm: 0, yMm: -700, heightMm: 1180 });
    hand.act({ act: 'settle' });
    const step = hand.act({ act: 'read', datum: 'L2', place: { mark: 1 } });
    if (!step.ok) throw new Error(step.error.code);
    const stepMm = middleOf(step);
    hand.act({ act: 'carry', from: 'L2', to: 'L', stepMm, reading: hand.now().entries.length });
    const place = { surface: 'ceiling', xMm: 0, yMm: 100 } as const;
    const seen = hand.act({ act: 'read', datum: 'L2', place });
    if (!seen.ok) throw new Error(seen.error.code);
    const reading = hand.now().entries.length;
    hand.act({ act: 'book', what: 'offset', valueMm: middleOf(seen), datum: 'L2', place, reading });
    const done = acted(hand.now(), ...last);
    return (bookedOffsets(done)[0]?.valueMm ?? 0) + (carriedStep(done, 'L2', 'L')?.stepMm ?? 0);
  }

  it('has the error of both lines at its mark taken out', () => {
    const truly = carried(null, []);
    // From out in the room the ceiling seems nearer by 5 mm a metre, the mark too: the step takes the most of it back.
    const out = carried({ levelForeMmPerM: 5 }, []) - truly;
    expect(Math.abs(out)).toBeGreaterThan(0.4);
    expect(Math.abs(carried({ levelForeMmPerM: 5 }, [verdict]) - truly)).toBeLessThan(0.05);
  });
});

describe('edges of a box', () => {
  /** A box low and to the left on the back, read from S and from L, both of which lie past it. */
  function edges(faults: SetFaults | null): Survey {
    const { kit, ...rest } = exerciseOfShape('run');
    const level = { ...kit.level, ...(faults ? { faults: [faults] } : {}) };
    const hand = takeInHand(surveyOf({ ...rest, kit: { ...kit, level } }));
    hand.act({ act: 'stand', xMm: 0, yMm: 0, heightMm: 1100 });
    hand.act({ act: 'settle' });
    for (const [datum, edge] of [
      ['S', 'left'],
      ['S', 'right'],
      ['L', 'top'],
      ['L', 'bottom'],
    ] as const) {
      const place = { surface: 'back', xMm: -827, zMm: 343, edge } as const;
      const seen = hand.act({ act: 'read', datum, place });
      if (!seen.ok) throw new Error(`${datum} ${edge}: ${seen.error.code}`);
      const reading = hand.now().entries.length;
      hand.act({ act: 'book', what: 'offset', valueMm: middleOf(seen), datum, place, reading });
    }
    return hand.now();
  }

  it.each([
    ['L rises', { levelForeMmPerM: 5 }, judged({ check: 'level', of: 'fore', errorMmPerM: 5 })],
    ['S leans', { plumbSMmPerM: 5 }, judged({ check: 'plumb', of: 'S', errorMmPerM: 5 })],
  ] as const)('below and left of a line that %s', (_says, faults, verdict) => {
    const truly = bookedOffsets(edges(null)).map((o) => o.valueMm);
    const worst = (survey: Survey) =>
      Math.max(...bookedOffsets(survey).map((o, i) => Math.abs(o.valueMm - (truly[i] as number))));
    const out = edges(faults);
    expect(worst(out)).toBeGreaterThan(1.5);
    expect(worst(acted(out, verdict))).toBeLessThan(0.2);
  });
});

describe('the ledger', () => {
  const faults: SetFaults = { plumbSMmPerM: -4, levelForeMmPerM: 4, squareMmPerM: 4 };
  const verdicts = [
    judged({ check: 'plumb', of: 'S', errorMmPerM: -4 }),
    judged({ check: 'level', of: 'fore', errorMmPerM: 4 }),
    judged({ check: 'square', errorMmPerM: 4 }),
  ];
  /** Sent as it is worked out, so that working out costs nothing. */
  function sent(survey: Survey): Survey {
    const [width, height] = (['carcass-width', 'carcass-height'] as const).map((size) => workOutSize(survey, size));
    const depth = survey.world.exercise.brief.carcassMm.depth.nominalMm;
    const carcassMm = { width: width?.workshopMm ?? 0, height: height?.workshopMm ?? 0, depth };
    return acted(survey, { act: 'propose', carcassMm }, { act: 'hand-in' });
  }
  const lines = (survey: Survey, size: string) => {
    const ledger = markSurvey(survey).marks?.ledgers.find((l) => l.size === size);
    if (!ledger || ledger.missMm === null) throw new Error(`no ledger of the ${size}`);
    return ledger;
  };

  it.each(['carcass-width', 'carcass-height'] as const)('of the %s: set-up is what is left, told by cause', (size) => {
    const out = lines(sent(surveyed(faults)), size);
    const allowed = lines(sent(acted(surveyed(faults), ...verdicts)), size);
    const setUp = (l: typeof out) => l.lines.find((line) => line.name === 'set-up');
    expect(Math.abs(setUp(out)?.mm ?? 0)).toBeGreaterThan(0.5);
    expect(Math.abs(setUp(allowed)?.mm ?? 0)).toBeLessThan(0.1);
    const parts = setUp(allowed)?.parts ?? [];
    expect(parts.reduce((sum, p) => sum + p.mm, 0)).toBeCloseTo(setUp(allowed)?.mm ?? 0, 6);
    const part = (cause: string) => parts.filter((p) => p.cause === cause).reduce((sum, p) => sum + p.mm, 0);
    expect(Math.abs(part('allowed'))).toBeGreaterThan(0.5);
    expect(part('faults') + part('squareness') + part('allowed')).toBeCloseTo(0, 0);
    expect(setUp(out)?.parts?.some((p) => p.cause === 'allowed')).toBe(false);
    for (const name of ['rule', 'booking', 'transfer'])
      expect(Math.abs(allowed.lines.find((l) => l.name === name)?.mm ?? 0)).toBeLessThan(0.05);
    expect(allowed.lines.reduce((sum, l) => sum + l.mm, 0)).toBeCloseTo(allowed.missMm ?? 0, 6);
  });
});

it('nothing can be allowed for without its size, or of a level that is not used', () => {
  const survey = surveyed({ plumbSMmPerM: 2 });
  for (const act of [
    judged({ check: 'plumb', of: 'S' }),
    judged({ check: 'plumb', of: 'S', errorMmPerM: 2, verdict: 'do-not-use' }),
  ])
    expect(outcomeOf(survey, act)).toEqual({ ok: false, error: { code: 'check/no-estimate' } });
});

it('a verdict stands on the field sheet, with what is allowed for', () => {
  const survey = acted(surveyed({ plumbSMmPerM: 2 }), judged({ check: 'plumb', of: 'S', errorMmPerM: 2 }));
  expect(saySheet(survey)).toContain('level checked for plumb (S): use, 2 mm a metre, allowed for');
});
