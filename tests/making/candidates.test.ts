import { describe, expect, test } from 'vitest';
import { openCode } from '../../src/exercise/exercise-code.ts';
import { surveyByThreeWidths } from '../../src/learners/three-widths.ts';
import { findRoom, mostCandidates } from '../../src/making/candidates.ts';
import { leastCostMm, testRoom } from '../../src/making/teaching-room.ts';

const byWidths = { survey: surveyByThreeWidths };
const wanted = { family: 'alcove', severity: 'old', kit: 'site' };

describe('a code of a room that teaches', () => {
  test.each([1, 2, 3])(
    'from %i: the room that its code opens is one in which the mistake costs and care succeeds',
    (from) => {
      const search = findRoom(wanted, byWidths, from);
      if (!search.ok) throw new Error('none was found');
      const { code, parts, tested } = search.found;
      expect(parts).toMatchObject(wanted);
      expect(tested.costMm).toBeGreaterThanOrEqual(leastCostMm);
      const opened = openCode(code);
      if (!opened.ok) throw new Error(opened.error.says);
      expect(testRoom(opened.value, byWidths)).toEqual(tested);
    },
  );

  test('the same number finds the same room, another another', () => {
    expect(findRoom(wanted, byWidths, 7)).toEqual(findRoom(wanted, byWidths, 7));
    const codes = [7, 8, 9, 10].map((from) => {
      const search = findRoom(wanted, byWidths, from);
      return search.ok ? search.found.code : '';
    });
    expect(new Set(codes).size).toBe(4);
  });

  test('a structure that is asked for is kept to', () => {
    const search = findRoom({ ...wanted, structure: 'low-hump' }, byWidths, 1);
    expect(search.ok && search.found.parts.structure).toBe('low-hump');
  });

  test('a mistake that costs nothing anywhere is given up, with what was thrown away by why', () => {
    let surveys = 0;
    const idle = {
      survey: <S>(start: S) => {
        surveys++;
        return start;
      },
    };
    const search = findRoom(wanted, idle, 1);
    // A survey that is never handed in has no ledger: it loses nothing that can be told.
    expect(search).toMatchObject({ ok: false, error: { code: 'making/none' } });
    if (search.ok) return;
    const { cheap, hard } = search.error.thrown;
    expect(cheap + hard).toBe(mostCandidates);
    expect(surveys).toBe(cheap);
  });

  test('an unknown name is the caller’s mistake', () => {
    expect(() => findRoom({ ...wanted, family: 'cave' }, byWidths, 1)).toThrow(RangeError);
  });
});
