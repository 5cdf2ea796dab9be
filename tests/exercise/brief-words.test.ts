/**
 * A brief in words: every number that a fitter works to is said.
 */
import { describe, expect, it } from 'vitest';
import { sayBrief } from '../../src/exercise/brief-words.ts';
import { briefFor, drawnParts, exerciseOf, roomSpec } from '../helpers/rooms.ts';

describe('a brief in words', () => {
  it('says every size, 100 briefs of seed "said"', () => {
    for (const parts of drawnParts('said', 100)) {
      const { brief, spec } = exerciseOf(parts);
      const said = sayBrief(brief).join('\n');
      const numbers = new Set(said.match(/\d+(\.\d+)?/g));
      const { openingMm, carcassMm, askMm, frame, access } = brief;
      for (const mm of [
        ...Object.values(openingMm),
        ...Object.values(carcassMm).map((s) => s.nominalMm),
        ...Object.values(askMm),
        -brief.mouthMm,
        brief.carcassFrontMm,
        brief.plinthMm,
        frame!.leastStockMm,
        frame!.mostStockMm,
        access!.clearHeightMm,
        brief.referenceWaverMm,
      ])
        expect(numbers).toContain(String(mm));
      expect(said.includes('as it stands')).toBe(!carcassMm.depth.find);
      const words = { stays: 'stays', off: 'comes off', cut: 'may be cut' };
      for (const t of spec.trims) expect(said).toContain(`${t.name} ${words[brief.fates[t.name]!]}`);
    }
  });

  it('says that there is no frame, and nothing of what is not asked', () => {
    const said = sayBrief(briefFor(roomSpec(), { frame: null, access: null }));
    expect(said).toContain('no face frame');
    expect(said.some((l) => l.includes('stood up'))).toBe(false);
    expect(said).toHaveLength(5);
  });
});
