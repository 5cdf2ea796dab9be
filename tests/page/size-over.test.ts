/** The words on what lies between offsets and a size have the figures of the sum. */
import { describe, expect, test } from 'vitest';
import type { Brief } from '../../src/exercise/brief.ts';
import { openCode, writeCode } from '../../src/exercise/exercise-code.ts';
import { sayOver } from '../../src/page/sheet/size-over.ts';
import { families } from '../../src/recess/families/families.ts';
import { offsetsOverMade, sizesOf, toBeFound } from '../../src/survey/size.ts';

function briefOf(family: string): Brief {
  const structure = families.find((f) => f.name === family)!.structures[0]!.name;
  const opened = openCode(writeCode({ family, severity: 'settled', structure, kit: 'site', seed: 3 }));
  if (!opened.ok) throw new Error(opened.error.says);
  return opened.value.brief;
}

describe('what lies between offsets and a size', () => {
  test.each(families.map((f) => f.name))('%s: taken off or put on as the sum has it, by the same figures', (family) => {
    const brief = briefOf(family);
    for (const size of sizesOf(brief).filter((s) => toBeFound(s, brief))) {
      const over = offsetsOverMade(size, brief);
      if (over === 0) continue;
      const says = sayOver(size, brief);
      expect(says).toMatch(over > 0 ? /^Taken off: / : /^Put on: /);
      if (over < 0) continue;
      const sum = (says.match(/\d+(\.\d+)?/g) ?? []).reduce((total, figure) => total + Number(figure), 0);
      expect([size, sum]).toEqual([size, over]);
    }
  });

  test('a finish to come is said where it is in the sum', () => {
    const brief = { ...briefOf('run'), finishMm: [{ surface: 'floor' as const, mm: 12 }] };
    expect(sayOver('carcass-height', brief)).toContain('12 finish');
    expect(sayOver('carcass-width', brief)).not.toContain('finish');
  });
});
