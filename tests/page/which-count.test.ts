/** The words on which figures count say what is made, and agree with the rules of its sizes. */
import { describe, expect, test } from 'vitest';
import { openCode, writeCode } from '../../src/exercise/exercise-code.ts';
import { sayWhichCount } from '../../src/page/sheet/which-count.ts';
import { families, familyOf } from '../../src/recess/families/families.ts';
import { sizeRules, sizesOf, toBeFound } from '../../src/survey/size.ts';

function briefOf(family: string) {
  const structure = familyOf(family).structures[0]!.name;
  const opened = openCode(writeCode({ family, severity: 'settled', structure, kit: 'site', seed: 3 }));
  if (!opened.ok) throw new Error(opened.error.says);
  return opened.value.brief;
}

describe('which figures count', () => {
  test.each(families.map((f) => f.name))('%s: smallest and largest are said where a size counts so', (family) => {
    const brief = briefOf(family);
    const says = sayWhichCount(brief);
    const counts = sizesOf(brief)
      .filter((s) => toBeFound(s, brief))
      .map((s) => sizeRules[s].counts);
    expect(/smallest/.test(says)).toBe(counts.includes('least'));
    expect(/largest/.test(says)).toBe(counts.includes('most'));
  });

  test.each([
    ['reveal', /lining/i],
    ['doorway', /lining/i],
    ['run', /side by side/],
    ['alcove', /frame/],
  ])('%s: what is made is named', (family, word) => {
    expect(sayWhichCount(briefOf(family))).toMatch(word);
    if (briefOf(family).lining) expect(sayWhichCount(briefOf(family))).not.toMatch(/carcass|frame/i);
  });

  test('shelves on a plain wall are neither carcass nor frame', () => {
    const says = sayWhichCount({
      shelves: { heightsMm: [900], thicknessMm: 25, lengthMm: 900, leastStockMm: 2, mostStockMm: 20 },
      frame: null,
    });
    expect(says).toMatch(/shelf/i);
    expect(says).not.toMatch(/carcass|frame|smallest/i);
  });
});
