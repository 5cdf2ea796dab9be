/**
 * The linked views: what is drawn stays in its panel, labels keep apart, lines stop where the level cannot see.
 */
import { describe, expect, test } from 'vitest';
import { dashed } from '../../src/drawing/dash.ts';
import type { Label, PathItem } from '../../src/drawing/item.ts';
import { layoutPlan } from '../../src/drawing/plan.ts';
import { layoutRoom, type RoomLayout } from '../../src/drawing/room-views.ts';
import { openCode, writeCode } from '../../src/exercise/exercise-code.ts';
import { openCore } from '../../src/page/state/core.ts';
import { standingStart } from '../../src/page/state/opening.ts';
import type { LearnerView } from '../../src/survey/learner-view.ts';

const nothing = { place: null, surface: null, datum: null, runPlaces: [], ruleLengthMm: 0 } as const;

function viewOf(seed: number): LearnerView {
  const opened = openCode(writeCode({ family: 'alcove', severity: 'old', structure: 'closing', kit: 'site', seed }));
  if (!opened.ok) throw new Error(opened.error.says);
  return openCore(opened.value, standingStart(opened.value)).view();
}

const views = [1, 2, 3, 4, 5, 6, 7, 8].map(viewOf);
const panels = [
  { width: 440, height: 600, large: 'plan' },
  { width: 440, height: 600, large: 'elevation' },
  { width: 440, height: 600, large: 'section' },
  { width: 330, height: 480, large: 'plan' },
  { width: 358, height: 166, large: 'plan' },
] as const;

function boxOf(l: Label) {
  const size = l.role === 'flag' ? 13 : 12;
  const wide = l.role === 'flag' ? 18 : l.text.length * size * 0.56;
  const left = l.anchor === 'middle' ? l.x - wide / 2 : l.x;
  return { what: l.text, left, right: left + wide, top: l.y - size, bottom: l.y + 3 };
}

function outside(layout: RoomLayout, panel: { width: number; height: number }): string[] {
  const points = layout.items.flatMap((i) => (i.kind === 'circle' ? [[i.x, i.y]] : pairs(i)));
  const far = points.filter(([x = 0, y = 0]) => x < -6 || y < -6 || x > panel.width + 12 || y > panel.height + 60);
  return far.slice(0, 3).map((p) => p.map(Math.round).join(','));
}

function pairs(i: PathItem): number[][] {
  return Array.from({ length: i.points.length / 2 }, (_, k) => [
    i.points[2 * k] as number,
    i.points[2 * k + 1] as number,
  ]);
}

describe.each(panels)('$width x $height, large $large', (panel) => {
  test('labels keep apart, and what is drawn stays in the panel', () => {
    for (const view of views) {
      const layout = layoutRoom(view, nothing, panel);
      const boxes = layout.labels.map(boxOf);
      for (const [i, a] of boxes.entries())
        for (const b of boxes.slice(i + 1))
          expect(
            a.right <= b.left || b.right <= a.left || a.bottom <= b.top || b.bottom <= a.top,
            `${a.what} on ${b.what}`,
          ).toBe(true);
      expect(outside(layout, panel)).toEqual([]);
    }
  });
});

test('the level stands in the plan where it is reckoned to stand', () => {
  for (const view of views) {
    const layout = layoutRoom(view, nothing, panels[0]);
    const plan = layoutPlan(view, nothing, { x: 0, y: 0, width: 400, height: 300 });
    const [x0] = plan.port.at(0, 0);
    const [x1] = plan.port.at(100, 0);
    expect((x1 - x0) / 100).toBeCloseTo(plan.port.scale, 9);
    expect(layout.level).not.toBeNull();
    expect(layout.planScale).toBeGreaterThan(0);
  }
});

test('up in the room is up on the paper, in one place', () => {
  const plan = layoutPlan(viewOf(1), nothing, { x: 0, y: 0, width: 400, height: 300 });
  expect(plan.port.at(0, 100)[1]).toBeLessThan(plan.port.at(0, 0)[1]);
});

test('L stops at the arris: none is drawn on the breast’s face', () => {
  for (const view of views) {
    const plan = layoutPlan(view, nothing, { x: 0, y: 0, width: 400, height: 300 });
    const half = view.outline.openingMm.width / 2;
    const [arris] = plan.port.at(view.outline.breastSide === 'right' ? half : -half, 0);
    const light = plan.items.filter((i): i is PathItem => i.kind === 'path' && i.ink === 'L');
    expect(light.length).toBeGreaterThan(0);
    for (const item of light)
      for (const [x = 0] of pairs(item))
        if (view.outline.breastSide === 'right') expect(x).toBeLessThanOrEqual(arris + 0.01);
        else expect(x).toBeGreaterThanOrEqual(arris - 0.01);
  }
});

test('dashes cover a path by their pattern, and no more', () => {
  const pieces = dashed([0, 0, 100, 0], [10, 5]);
  expect(pieces).toHaveLength(7);
  expect(pieces[1]).toEqual([15, 0, 25, 0]);
  const drawn = pieces.reduce((sum, [x0, , x1]) => sum + x1 - x0, 0);
  expect(drawn).toBeCloseTo(70, 9);
  const round = dashed([0, 0, 10, 0, 10, 10], [15, 5]);
  expect(round).toEqual([
    [0, 0, 10, 0],
    [10, 0, 10, 5],
  ]);
});
