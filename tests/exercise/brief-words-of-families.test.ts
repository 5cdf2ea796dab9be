/**
 * Briefs of every family in words: every number that a fitter works to is said, of a pair for both recesses.
 */
import { describe, expect, it } from 'vitest';
import { baysOf } from '../../src/exercise/bays.ts';
import type { Brief } from '../../src/exercise/brief.ts';
import { sayBriefs } from '../../src/exercise/brief-words.ts';
import { openCode, writeCode } from '../../src/exercise/exercise-code.ts';
import { families } from '../../src/recess/families/families.ts';

describe.each(families.map((f) => [f.name, f] as const))('briefs of the family %s', (family, { structures }) => {
  it('say every size, 40 codes', () => {
    for (let i = 0; i < 40; i++) {
      const structure = structures[i % structures.length]?.name ?? '';
      const opened = openCode(writeCode({ family, severity: 'old', structure, kit: 'site', seed: 61 + 977 * i }));
      if (!opened.ok) throw new Error(opened.error.says);
      const numbers = new Set(
        sayBriefs(opened.value)
          .join('\n')
          .match(/\d+(\.\d+)?/g),
      );
      for (const { exercise } of baysOf(opened.value))
        for (const mm of numbersOf(exercise.brief)) expect(numbers, `${mm} of ${structure}`).toContain(String(mm));
    }
  });
});

function numbersOf(brief: Brief): number[] {
  const { openingMm, carcassMm, askMm, lining, shelves, modules, slope, notch, access, cutOutSpareMm, frame } = brief;
  const { door, turn } = access ?? {};
  return [
    ...Object.values(openingMm),
    ...(shelves ? [] : Object.values(carcassMm).map((s) => s.nominalMm)),
    ...(shelves ? [] : [askMm.left, askMm.right, askMm.top]),
    ...(lining ? [lining.thicknessMm, lining.leastStockMm, lining.mostStockMm] : []),
    ...(shelves ? [...shelves.heightsMm, shelves.thicknessMm, shelves.leastStockMm, shelves.mostStockMm] : []),
    ...(modules ? [modules.count, modules.mostInfillMm] : []),
    ...(slope ? [slope.lowMm, slope.highMm] : []),
    ...(notch ? [notch.widthMm, notch.heightMm] : []),
    ...(frame ? [frame.thicknessMm, frame.leastStockMm, frame.mostStockMm] : []),
    ...(cutOutSpareMm ? [cutOutSpareMm.least, cutOutSpareMm.most] : []),
    ...(access ? [access.clearHeightMm] : []),
    ...(door ? [door.widthMm, door.heightMm] : []),
    ...(turn ? [turn.beforeMm, turn.afterMm, turn.heightMm] : []),
    ...brief.finishMm.map((f) => f.mm),
    brief.referenceWaverMm,
  ];
}
