/**
 * Square back, gone through by acts alone: the face line, marks at several heights on both sides, 90 degrees out into the
 * room, a far mark, the level stood there, cast back, lined up, closed on the first marks.
 *
 * Common practice, no source; the figures are closed forms of the geometry.
 */
import { describe, expect, it } from 'vitest';
import { markSurvey } from '../../src/marking/report.ts';
import type { SetUpCause } from '../../src/marking/stood.ts';
import type { Act } from '../../src/survey/act.ts';
import type { Survey } from '../../src/survey/survey.ts';
import type { ExerciseWith } from '../helpers/rooms.ts';
import { acted, doneOf, middleOf, surveyIn } from '../helpers/surveying.ts';

const far = -2400;
const mark = (place: Extract<Act, { act: 'mark' }>['place']): Act => ({ act: 'mark', place });

/** Faces the reference, marks it, throws the square out and marks that. */
function outIntoTheRoom(having: ExerciseWith): Survey {
  let survey = acted(
    surveyIn({ seed: 'square back' }, having),
    { act: 'stand', xMm: 0, yMm: 0, heightMm: 1100 },
    { act: 'settle' },
  );
  for (let round = 0; round < 3; round++) {
    const seen = doneOf(survey, { act: 'settle' }).seen!.filter((s) => s.datum === 'F' && 'referenceXMm' in s.at);
    const at = (i: number) => seen.at(i)! as { at: { referenceXMm: number }; offMm: number };
    const run = at(-1).at.referenceXMm - at(0).at.referenceXMm;
    const slope = (at(-1).offMm - at(0).offMm) / run;
    const middle = at(0).offMm - slope * at(0).at.referenceXMm;
    survey = acted(
      survey,
      { act: 'move', byXMm: 0, byYMm: -middle },
      { act: 'settle' },
      { act: 'turn', byMmPerM: -1000 * slope },
    );
  }
  const walls = [400, 1700].flatMap((zMm) =>
    (['left', 'right'] as const).map((surface) => mark({ surface, along: 'F', zMm })),
  );
  return acted(
    survey,
    ...walls,
    mark({ surface: 'floor', along: 'S', yMm: -60 }),
    mark({ surface: 'floor', along: 'S', yMm: far }),
  );
}

const sizes = ['left', 'right'] as const;
const reads = sizes.flatMap((surface) =>
  [60, 420].map((yMm) => ({ surface, yMm, zMm: 1000 }) as { surface: 'left' | 'right'; yMm: number; zMm: number }),
);

/** Reads and books widths from a square line, and hands in. */
function readFrom(survey: Survey, datum: string): Survey {
  let now = survey;
  for (const place of reads) {
    const read: Act = { act: 'read', datum, place };
    const mm = middleOf(doneOf(now, read));
    now = acted(now, read, { act: 'book', what: 'offset', valueMm: mm, datum, place, for: ['carcass-width'] });
  }
  return acted(now, { act: 'propose', carcassMm: { width: 940, height: 2240, depth: 420 } }, { act: 'hand-in' });
}

function partOf(survey: Survey, cause: SetUpCause): number {
  const ledger = markSurvey(survey).marks!.ledgers.find((l) => l.size === 'carcass-width')!;
  return ledger.lines.find((l) => l.name === 'set-up')!.parts!.find((p) => p.cause === cause)!.mm;
}

describe('square back', () => {
  const over: Act = { act: 'stand', xMm: 0, yMm: far, heightMm: 1100, over: 6 };

  it('cast back from the far mark through the near one, S2 runs as S did, and F2 along the first marks', () => {
    const out = outIntoTheRoom({ level: { faults: [{}] } });
    const back = acted(out, over, { act: 'settle' }, { act: 'aim', plane: 'S', at: { mark: 5 } });
    for (const place of reads) {
      const was = middleOf(doneOf(out, { act: 'read', datum: 'S', place }));
      expect(Math.abs(middleOf(doneOf(back, { act: 'read', datum: 'S2', place })) - was)).toBeLessThan(1e-3);
    }
    // Closing: stood between the first marks again and lined up on them alone, F3 passes all four.
    let closed = acted(back, { act: 'stand', xMm: 0, yMm: 0, heightMm: 1000 }, { act: 'settle' });
    const onMarks = (survey: Survey) =>
      doneOf(survey, { act: 'settle' }).seen!.filter((s) => s.datum === 'F3' && 'mark' in s.at);
    for (let round = 0; round < 3; round++) {
      const [l1, r1, l2, r2] = onMarks(closed).map((s) => s.offMm!) as [number, number, number, number];
      closed = acted(
        closed,
        { act: 'move', byXMm: 0, byYMm: -(l1 + r1 + l2 + r2) / 4 },
        { act: 'settle' },
        { act: 'turn', byMmPerM: -(r1 + r2 - l1 - l2) / 2 },
      );
    }
    expect(onMarks(closed)).toHaveLength(4);
    for (const s of onMarks(closed)) expect(Math.abs(s.offMm!)).toBeLessThan(0.11);
  });

  it('with two levels both stand at once, and a step between their lines can be read', () => {
    const out = outIntoTheRoom({ level: { faults: [{}, {}], count: 2 } });
    const both = acted(
      out,
      { ...over, level: 2 } as Act,
      { act: 'settle', level: 2 },
      { act: 'aim', plane: 'S', at: { mark: 5 }, level: 2 },
    );
    for (const place of reads) {
      const [one, other] = ['S', 'S2'].map((datum) => middleOf(doneOf(both, { act: 'read', datum, place })));
      expect(Math.abs(one! - other!)).toBeLessThan(1e-3);
    }
  });

  it('a level out of square by e throws the line out by e: all of it is squareness, before and after it is cast back', () => {
    const e = 5;
    const out = outIntoTheRoom({ level: { faults: [{ squareMmPerM: e }] } });
    const back = acted(out, over, { act: 'settle' }, { act: 'aim', plane: 'S', at: { mark: 5 } });
    for (const [survey, datum] of [
      [out, 'S'],
      [back, 'S2'],
    ] as const) {
      const done = readFrom(survey, datum);
      const squareness = partOf(done, 'squareness');
      // From the tightest left to the tightest right place in a true room: as far apart in depth as they were read.
      // What is seen to a tenth leaves the face line up to 0.2 in a metre off, which meets the fault to second order.
      expect(Math.abs(Math.abs(squareness) - (e * 360) / 1000)).toBeLessThan(0.05);
      for (const cause of ['line-up', 'baseline', 'faults', 'marks', 'knock'] as const)
        expect(Math.abs(partOf(done, cause))).toBeLessThan(0.05);
    }
  });
});
