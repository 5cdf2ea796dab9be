/**
 * The North American guideline for walls, ceilings and floors.
 *
 * | statement | source | status |
 * |---|---|---|
 * | framed walls: at most 3/8 in out of plumb in any 32 in upright | NAHB Residential Construction Performance Guidelines, 3rd edition, quoted at http://www.nachi.org/forum/f23/wall-plumbness-12598/ | V* |
 * | walls: a bow of 1/4 in and more in 32 in level, or of 1/2 in and more in 8 ft upright, fails | Texas, 10 TAC 304, quoted there | V* |
 * | ceilings: a bow of 1/2 in and more within 32 in fails; sub-floors: a hump or slope of 3/8 in and more in any 32 in direction | a builder who takes the same rules over, http://online.flipbuilder.com/fevj/njtc/files/basic-html/page54.html | V* |
 * | 3/8 in is 9.525 mm, 32 in 812.8 mm, 8 ft 2438.4 mm | the inch, 25.4 mm | D |
 *
 * Tolerance: 0.1 % for what is plane, 4 % for bows, whose ends the built surface rounds off.
 */
import { describe, expect, it } from 'vitest';
import { northAmerica } from '../../src/recess/limits/north-america.ts';
import { seenPart } from '../../src/recess/limits/seen-part.ts';
import { sheetOf } from '../../src/recess/limits/sheet.ts';
import { worstShare } from '../../src/recess/limits/worst-share.ts';
import { buildRecess } from '../../src/recess/recess.ts';
import type { Defect, Side } from '../../src/recess/recess-spec.ts';
import { roomSpec } from '../helpers/rooms.ts';

function share(side: Side, defect: Defect, openingMm = { width: 1000, height: 2500, depth: 500 }) {
  const spec = roomSpec({ openingMm, defects: { [side]: [defect] } });
  const sheet = sheetOf(spec, side, { field: buildRecess(spec).fields[side], part: seenPart(spec, side)! });
  return worstShare(sheet, northAmerica.surfaces)!;
}

describe('walls', () => {
  it('may lean 9.525 mm in any 812.8', () => {
    for (const side of ['left', 'right', 'back'] as const) {
      const found = share(side, { kind: 'lean', mm: (9.525 * 2500) / 812.8 });
      expect(found.says).toBe('plumb');
      expect(Math.abs(found.share - 1)).toBeLessThan(0.001);
    }
  });

  it('may bow 12.7 mm in 8 ft upright, plumb allowing', () => {
    // A belly of 2500: over 2438.4 of it (2438.4/2500)² of its height; where it is steepest it leans as well.
    const found = share('back', { kind: 'bow', mm: 12.7 / (2438.4 / 2500) ** 2, crownV: 1250 });
    const leans = (4 * 13.35 * 812.8 * (2500 - 812.8)) / 2500 ** 2 / 9.525;
    expect(Math.abs(found.share - Math.max(1, leans))).toBeLessThan(0.04);
  });

  it('may bow 6.35 mm in 32 in level', () => {
    const found = share('back', { kind: 'bow', mm: 6.35 / (812.8 / 1000) ** 2, crownU: 0 });
    expect(found.says).toBe('bow, level');
    expect(Math.abs(found.share - 1)).toBeLessThan(0.04);
  });
});

describe('ceilings and floors', () => {
  it('a ceiling may bow 12.7 mm within 32 in, however it falls', () => {
    const found = share('ceiling', { kind: 'bow', mm: 12.7 / (812.8 / 1000) ** 2, crownU: 0 });
    expect(Math.abs(found.share - 1)).toBeLessThan(0.04);
    expect(share('ceiling', { kind: 'fall', mm: 30, towards: 'left' }).share).toBeLessThan(0.001);
  });

  it('a floor may fall 9.525 mm in any 32 in', () => {
    const found = share('floor', { kind: 'fall', mm: (9.525 * 1000) / 812.8, towards: 'left' });
    expect(found.says).toBe('fall');
    expect(Math.abs(found.share - 1)).toBeLessThan(0.001);
  });
});
