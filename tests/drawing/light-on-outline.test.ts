/**
 * Where light falls on the outline, against a slow look: points along every wall, and the way to each walked in steps.
 */
import { describe, expect, test } from 'vitest';
import { levelStretches, lineEnds, type Wall, type WallStretch } from '../../src/drawing/light-on-outline.ts';
import { layoutRoom, type RoomSeen } from '../../src/drawing/room-views.ts';
import type { Outline } from '../../src/exercise/outline.ts';
import { nothingInHand, pathsOf, pointsOf, seenRoom } from '../helpers/drawn-rooms.ts';

interface At {
  readonly x: number;
  readonly y: number;
}

const alcoveOnly = { family: 'alcove', open: ['slope'], slope: null } as const;
const outlines: readonly Outline[] = (['left', 'right'] as const).flatMap((breastSide) => [
  { openingMm: { width: 1180, height: 2440, depth: 400 }, mouthMm: -30, breastSide, ...alcoveOnly },
  { openingMm: { width: 760, height: 2220, depth: 600 }, mouthMm: -60, breastSide, ...alcoveOnly },
]);
const stands: readonly At[] = [
  { x: 12, y: 5 },
  { x: -200, y: -300 },
  { x: 260, y: 180 },
  { x: -310, y: -1400 },
  { x: 340, y: -2900 },
  { x: 0, y: -45 },
];

/** In plaster: in the breast, or beyond a wall. */
function inPlaster({ openingMm, mouthMm, breastSide }: Outline, { x, y }: At): boolean {
  const right = breastSide === 'right' ? x : -x;
  const half = openingMm.width / 2;
  return right < -half || y > openingMm.depth || (right > half && y > mouthMm);
}

/** Walks from the level to a place, 2 mm a step, stopping just short of it. */
function seen(outline: Outline, from: At, to: At): boolean {
  const far = Math.hypot(to.x - from.x, to.y - from.y);
  for (let gone = 1; gone < far - 1; gone += 2) {
    const share = gone / far;
    if (inPlaster(outline, { x: from.x + (to.x - from.x) * share, y: from.y + (to.y - from.y) * share })) return false;
  }
  return true;
}

function wallPoints({ openingMm, mouthMm, breastSide }: Outline): { wall: Wall; at: At }[] {
  const half = openingMm.width / 2;
  const points: { wall: Wall; at: At }[] = [];
  for (const wall of ['left', 'right'] as const)
    for (let y = wall === breastSide ? mouthMm + 7 : -3000; y < openingMm.depth - 5; y += 23)
      points.push({ wall, at: { x: wall === 'left' ? -half : half, y } });
  for (let x = -half + 7; x < half - 5; x += 23) points.push({ wall: 'back', at: { x, y: openingMm.depth } });
  for (let past = 7; past < 1400; past += 23)
    points.push({ wall: 'face', at: { x: (half + past) * (breastSide === 'right' ? 1 : -1), y: mouthMm } });
  return points;
}

function covered(stretches: readonly WallStretch[], wall: Wall, at: At): boolean {
  return stretches.some((s) => {
    const [low, high] = s.from.x === s.to.x ? [s.from.y, s.to.y] : [s.from.x, s.to.x];
    const along = s.from.x === s.to.x ? at.y : at.x;
    return s.wall === wall && along >= low && along <= high;
  });
}

describe.each(outlines)('breast on the $breastSide, $openingMm.width wide', (outline) => {
  test.each(stands)('L from %o is drawn where the level sees the wall, and nowhere else', (eye) => {
    const stretches = levelStretches(outline, eye);
    // Within 12 mm of where sight ends either may be said: the walk goes in steps.
    const doubtful = (at: At) =>
      stretches.some((s) => [s.from, s.to].some((e) => Math.hypot(e.x - at.x, e.y - at.y) < 12));
    const wrong = wallPoints(outline).filter(
      ({ wall, at }) => !doubtful(at) && covered(stretches, wall, at) !== seen(outline, eye, at),
    );
    expect(wrong).toEqual([]);
    expect(stretches.length).toBeGreaterThan(0);
  });

  test('L stops at the arris: from within the mouth nothing falls on the breast’s face', () => {
    for (const y of [outline.mouthMm + 1, 0, 200])
      expect(levelStretches(outline, { x: 40, y }).filter((s) => s.wall === 'face')).toEqual([]);
    const face = levelStretches(outline, { x: 40, y: -900 }).filter((s) => s.wall === 'face');
    expect(face).toHaveLength(1);
  });

  test('F and S go both ways to what they meet first', () => {
    for (const at of stands)
      for (const [x, y] of [
        [0, 1],
        [0.6, 0.8],
        [-0.96, 0.28],
      ] as const) {
        const level = { setUp: 1, at: { ...at, z: 1000 }, facing: { x, y }, settled: true };
        for (const kind of ['F', 'S'] as const) {
          const ways = kind === 'S' ? [x, y] : [-y, x];
          for (const [i, end] of lineEnds(outline, level, kind).entries()) {
            const sign = i === 0 ? 1 : -1;
            const gone = (end.at.x - at.x) * (ways[0] ?? 0) * sign + (end.at.y - at.y) * (ways[1] ?? 0) * sign;
            const off = (end.at.x - at.x) * (ways[1] ?? 0) - (end.at.y - at.y) * (ways[0] ?? 0);
            expect(gone).toBeGreaterThan(0);
            expect(off).toBeCloseTo(0, 6);
            expect(seen(outline, at, end.at)).toBe(true);
            if (end.wall) expect(nearPlaster(outline, end.at)).toBe(true);
          }
        }
      }
  });
});

/** Whether a step of 2 mm some way leads into plaster. */
function nearPlaster(outline: Outline, { x, y }: At): boolean {
  return [
    [2, 0],
    [-2, 0],
    [0, 2],
  ].some(([dx, dy]) => inPlaster(outline, { x: x + (dx ?? 0), y: y + (dy ?? 0) }));
}

test('a level that is reckoned to stand in plaster throws nothing', () => {
  const outline = outlines[0] as Outline;
  expect(levelStretches(outline, { x: 0, y: 900 })).toEqual([]);
  const level = { setUp: 1, at: { x: 0, y: 900, z: 1000 }, facing: { x: 0, y: 1 }, settled: true };
  expect(lineEnds(outline, level, 'F').map((e) => e.wall)).toEqual([null, null]);
});

test('in the drawn plan no light passes the arris into the breast', () => {
  const rooms = Array.from({ length: 40 }, (_, i) => seenRoom(i + 1));
  let looked = 0;
  for (const view of rooms as RoomSeen[]) {
    const { work, frame } = layoutRoom(view, nothingInHand, { width: 440, height: 612, large: 'plan' });
    const { box, under } = frame.ports.plan;
    for (const stroke of ['L-light', 'F-light', 'S-light'])
      for (const path of pathsOf(work, stroke))
        for (const [x, y] of pointsOf(path)) {
          if (y < box.y - 1) continue;
          const [a, b] = under(x, y);
          looked++;
          // A wall's very edge is not in it: half a mm nearer to the level is free.
          const to = view.level?.at ?? { x: 0, y: 0 };
          const far = Math.hypot(to.x - a, to.y - b);
          const near = { x: a + (to.x - a) / far / 2, y: b + (to.y - b) / far / 2 };
          expect(inPlaster(view.outline, near), `${stroke} at ${a}, ${b}`).toBe(false);
        }
  }
  expect(looked).toBeGreaterThan(300);
});
