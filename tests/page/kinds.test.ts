/** What the first screen offers can be opened: its names are those of families, severities and kits. */
import { expect, test } from 'vitest';
import { presets } from '../../src/exercise/kit.ts';
import { helps, houses, kinds } from '../../src/page/kinds.ts';
import { families } from '../../src/recess/families/families.ts';
import { severities } from '../../src/recess/severity.ts';

test('every choice of the first screen has its like in codes', () => {
  const names = (of: readonly { readonly name: string }[]) => of.map((o) => o.name);
  expect(names(families)).toEqual(expect.arrayContaining(names(kinds)));
  expect(names(severities)).toEqual(expect.arrayContaining(names(houses)));
  expect(names(presets)).toEqual(expect.arrayContaining(names(helps)));
  expect(new Set(names(kinds)).size).toBe(kinds.length);
});
