import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { firstDifference } from '../../src/exchange/first-difference.ts';

describe('the first difference', () => {
  test.each<[string, unknown, unknown, unknown]>([
    ['a number', { a: { b: [1, 2] } }, { a: { b: [1, 3] } }, { field: 'a.b.1', of: 2, and: 3 }],
    ['a field more', { a: 1 }, { a: 1, b: 2 }, { field: 'b', of: undefined, and: 2 }],
    ['a field less', { a: 1, b: 2 }, { a: 1 }, { field: 'b', of: 2, and: undefined }],
    ['a list for an object', { a: [] }, { a: {} }, { field: 'a', of: [], and: {} }],
    ['null for an object', { a: null }, { a: {} }, { field: 'a', of: null, and: {} }],
    ['the last bit', { a: 0.1 + 0.2 }, { a: 0.3 }, { field: 'a', of: 0.1 + 0.2, and: 0.3 }],
  ])('is found in %s', (_what, of, and, differs) => {
    expect(firstDifference(of, and, '')).toEqual(differs);
  });

  test('is none where only the order of fields or an undefined one differs', () => {
    expect(firstDifference({ a: 1, b: 2 }, { b: 2, a: 1 }, '')).toBeNull();
    expect(firstDifference({ a: 1, b: undefined }, { a: 1 }, '')).toBeNull();
  });

  test('is null exactly when both are the same JSON', () => {
    fc.assert(
      fc.property(fc.jsonValue({ maxDepth: 3 }), fc.jsonValue({ maxDepth: 3 }), (of, and) => {
        expect(firstDifference(of, JSON.parse(JSON.stringify(of)), '')).toBeNull();
        expect(firstDifference(of, [and], '') === null).toBe(JSON.stringify(of) === JSON.stringify([and]));
      }),
      { seed: 20_251, numRuns: 300 },
    );
  });
});
