/**
 * Shelves offered up: what is drawn as coming off is what the key says comes off, and what does not reach is a gap.
 */
import { describe, expect, it } from 'vitest';
import { layoutShelfOffer } from '../../src/drawing/shelf-offer.ts';
import { openCode, writeCode } from '../../src/exercise/exercise-code.ts';
import { shelfBacks, shelfKey } from '../../src/marking/shelves.ts';
import { siteOf } from '../../src/marking/site.ts';
import { type ShelfEdge, uncoverRoom } from '../../src/marking/uncovered-room.ts';
import { familyOf } from '../../src/recess/families/families.ts';
import { beginSurvey } from '../../src/survey/survey.ts';
import { openWorld } from '../../src/survey/world.ts';

const seeds = Array.from({ length: 40 }, (_, i) => 1 + 977 * i);

describe('the wall behind shelves', () => {
  it('comes to what the key says, within what the wall leans over a shelf, in every drawn wall with shelves', () => {
    let walls = 0;
    for (const seed of seeds) {
      const survey = beginSurvey(openWorld(opened(seed)));
      const { recess, exercise } = survey.world;
      const { shelves } = exercise.brief;
      const { shelfEdges } = uncoverRoom(survey);
      expect(shelfEdges).toHaveLength(shelves?.heightsMm.length ?? 0);
      if (!shelves) continue;
      walls++;
      const backs = shelfBacks(siteOf(recess, exercise));
      const [least, most] = shelfKey(backs, 400).stockMm;
      // Half a shelf's thickness of a wall that stands 1 in 20 out of plumb there.
      const lean = shelves.thicknessMm / 2 / 20;
      const stocks = shelfEdges.flatMap((e) => e.acrossMm.map((y) => 400 - y));
      expect(Math.abs(Math.min(...stocks) - least)).toBeLessThan(lean);
      expect(Math.abs(Math.max(...stocks) - most)).toBeLessThan(lean);
      expect(Math.min(...stocks)).toBeGreaterThan(least - 1e-6);
      expect(Math.max(...stocks)).toBeLessThan(most + 1e-6);
    }
    expect(walls).toBeGreaterThan(5);
  });
});

describe('shelves in a panel', () => {
  const edge = (upMm: number, acrossMm: number[]): ShelfEdge => ({ upMm, alongMm: [-500, 0, 500], acrossMm });

  it('hang in their order, drawn out by one factor, within the panel', () => {
    const offer = layoutShelfOffer([edge(400, [290, 294, 298]), edge(900, [288, 296, 290])], 300, 400);
    expect(offer.shelves.map((s) => s.name)).toEqual(['900 up', '400 up']);
    expect(offer.factor).toBe(5);
    const [upper] = offer.shelves;
    expect(upper!.blank.x + upper!.blank.width).toBeLessThanOrEqual(400);
    expect(offer.shelves.every((s) => s.stock.length === 1 && s.gaps.length === 0)).toBe(true);
  });

  it('show a gap where the blank does not reach', () => {
    const { shelves } = layoutShelfOffer([edge(400, [302, 301, 296])], 300, 400);
    expect(shelves[0]!.gaps).toHaveLength(1);
    expect(shelves[0]!.stock).toHaveLength(0);
  });
});

function opened(seed: number) {
  const { structures } = familyOf('plain-wall');
  const structure = structures[seed % structures.length]!.name;
  const result = openCode(writeCode({ family: 'plain-wall', severity: 'old', structure, kit: 'site', seed }));
  if (!result.ok) throw new Error(result.error.says);
  return result.value;
}
