/** Rooms of every shape after hand-in: only what is there is uncovered, everything is drawn within its panel, and fitted. */
import { describe, expect, test } from 'vitest';
import { layoutFitFront, layoutFitPlan } from '../../src/drawing/fit-playback.ts';
import { layoutUncovered, sectionsOf } from '../../src/drawing/uncovered.ts';
import { outlineOf } from '../../src/exercise/outline.ts';
import { tightPlaces } from '../../src/marking/tight-places.ts';
import { uncoverRoom } from '../../src/marking/uncovered-room.ts';
import type { Side } from '../../src/recess/recess-spec.ts';
import { perform } from '../../src/survey/acting.ts';
import { beginSurvey } from '../../src/survey/survey.ts';
import { openWorld } from '../../src/survey/world.ts';
import { exerciseOfShape, shapes } from '../helpers/family-rooms.ts';

/** A room of a shape, handed in with the brief's nominal sizes. */
function ended(name: string) {
  const exercise = exerciseOfShape(name, { frame: null });
  const { width, height, depth } = exercise.brief.carcassMm;
  const carcassMm = { width: width.nominalMm, height: height.nominalMm, depth: depth.nominalMm };
  const sent = perform(beginSurvey(openWorld(exercise)), { act: 'propose', carcassMm }).survey;
  const outline = outlineOf(exercise);
  return { exercise, outline, uncovered: uncoverRoom(perform(sent, { act: 'hand-in' }).survey) };
}

/** Every number pair of a path, px. */
function placesOf(d: string): [number, number][] {
  const out: [number, number][] = [];
  let [x, y] = [0, 0];
  for (const [, sign, rest = ''] of d.matchAll(/([MLHVZ])([^MLHVZ]*)/g)) {
    const n = rest.trim().split(/[ ,]+/).filter(Boolean).map(Number);
    if (sign === 'H') x = n[0] ?? x;
    else if (sign === 'V') y = n[0] ?? y;
    else if (sign !== 'Z') [x, y] = [n[0] ?? x, n[1] ?? y];
    out.push([x, y]);
  }
  return out;
}

describe.each(Object.keys(shapes))('%s', (name) => {
  const { exercise, outline, uncovered } = ended(name);
  const shown = (side: Side) => !outline.open.includes(side);

  test('only sections of sides that are there are offered, and all of those', () => {
    const wanted = [
      ...(shown('left') || shown('right') ? ['walls'] : []),
      ...(shown('back') ? ['back'] : []),
      'flats',
      ...(shown('slope') ? ['slope'] : []),
    ];
    expect(sectionsOf(uncovered)).toEqual(wanted);
    const sides = new Set([...uncovered.walls, ...uncovered.others].map((c) => c.side));
    expect([...sides].filter((side) => !shown(side))).toEqual([]);
  });

  test.each([300, 448])('what is uncovered stays in a panel %i wide', (width) => {
    const slope = outline.slope ? { spec: outline.slope, widthMm: outline.openingMm.width } : null;
    const of = {
      room: uncovered,
      carcass: uncovered.carcass,
      plinthMm: 100,
      tight: [],
      decided: [],
      dropsMm: [],
      slope,
    };
    for (const section of sectionsOf(uncovered)) {
      const layout = layoutUncovered(of, section, { width, height: 400 });
      expect(layout.curves.length, section).toBeGreaterThan(0);
      for (const { d } of layout.curves)
        for (const [x, y] of placesOf(d)) {
          expect(x).toBeGreaterThanOrEqual(0);
          expect(x).toBeLessThanOrEqual(width);
          expect(y).toBeGreaterThanOrEqual(0);
          expect(y).toBeLessThanOrEqual(layout.height);
        }
    }
  });

  test('fitting day is drawn within its panel, and a far-off side is not a tight place', () => {
    const { pushed } = uncovered;
    if (!pushed) throw new Error('the nominal carcass was sent');
    const tight = tightPlaces(pushed.clear, exercise.brief);
    expect(tight.every((t) => t.clearanceMm < 5000)).toBe(true);
    const played = { outline, pushed, tight, frame: null };
    const plan = layoutFitPlan(played, 340);
    for (const d of [plan.walls, ...plan.solid])
      for (const [x, y] of placesOf(d)) {
        expect(x).toBeGreaterThanOrEqual(-14);
        expect(x).toBeLessThanOrEqual(354);
        expect(y).toBeLessThanOrEqual(plan.height);
      }
    const front = layoutFitFront(played, { width: 168, height: 340 });
    for (const d of [front.walls, front.carcass, ...front.solid])
      for (const [x, y] of placesOf(d)) {
        expect(x).toBeGreaterThanOrEqual(-0.1);
        expect(x).toBeLessThanOrEqual(168.1);
        expect(y).toBeLessThanOrEqual(front.height + 0.1);
      }
  });
});
