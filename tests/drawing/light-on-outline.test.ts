/**
 * Where light falls on the outline, against a slow look: points along every wall, and the way to each walked in steps.
 */
import { describe, expect, test } from 'vitest';
import { levelStretches, lineEnds } from '../../src/drawing/light-on-outline.ts';
import type { Wall, WallStretch } from '../../src/drawing/outline-shape.ts';
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
    const stretches = levelStretches(outline, { ...eye, z: 1000 });
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
      expect(levelStretches(outline, { x: 40, y, z: 1000 }).filter((s) => s.wall === 'face')).toEqual([]);
    const face = levelStretches(outline, { x: 40, y: -900, z: 1000 }).filter((s) => s.wall === 'face');
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

describe('open sides, slopes, reveals and doorways', () => {
  const openingMm = { width: 1600, height: 2300, depth: 400 };
  const base = { openingMm, mouthMm: 0, breastSide: null, slope: null } as const;
  const others: readonly Outline[] = [
    { ...base, family: 'plain-wall', open: ['left', 'right', 'slope'] },
    { ...base, family: 'run', open: ['slope'], mouthMm: -40 },
    { ...base, family: 'reveal', open: ['slope'] },
    { ...base, family: 'doorway', open: ['slope'] },
    { ...base, family: 'roof-slope', open: [], slope: { low: 'right', lowMm: 700, riseMmPerM: 900 } },
    { ...base, family: 'under-stair', open: ['ceiling', 'left'], slope: { low: 'left', lowMm: 300, riseMmPerM: 1000 } },
  ];

  /** What is solid, said anew: beyond the back, beyond side walls and their faces, over the slope. */
  const solid = (o: Outline, { x, y, z }: At & { z: number }): boolean => {
    const half = o.openingMm.width / 2;
    const out = Math.abs(x) > half;
    const hand = x < 0 ? 'left' : 'right';
    const inWall = o.family === 'reveal' || o.family === 'doorway';
    if (o.slope) {
      const inward = o.slope.low === 'left' ? x + half : half - x;
      if (z > o.slope.lowMm + (o.slope.riseMmPerM * inward) / 1000) return true;
    }
    if (inWall)
      return o.family === 'doorway' ? out && y > 0 && y < o.openingMm.depth : y > (out ? 0 : o.openingMm.depth);
    return y > o.openingMm.depth || (out && !o.open.includes(hand));
  };
  const seenPast = (o: Outline, from: At & { z: number }, to: At): boolean => {
    const far = Math.hypot(to.x - from.x, to.y - from.y);
    for (let gone = 1; gone < far - 1; gone += 2) {
      const share = gone / far;
      if (solid(o, { x: from.x + (to.x - from.x) * share, y: from.y + (to.y - from.y) * share, z: from.z }))
        return false;
    }
    return true;
  };

  test.each(others.flatMap((o) => [500, 1300].map((z) => [o.family, z, o] as const)))('%s at %i up', (_, z, o) => {
    for (const at of [
      { x: 420, y: 100 },
      { x: 360, y: -900 },
    ]) {
      // Away from where the slope is low.
      const eye = { x: o.slope?.low === 'right' ? 0 - at.x : at.x, y: at.y, z };
      const stretches = levelStretches(o, eye);
      expect(stretches.length).toBeGreaterThan(0);
      // Rays all round, each walked to the first solid place: L is there, and is nowhere else.
      let met = 0;
      for (let i = 0; i < 360; i++) {
        const way = { x: Math.cos((i * Math.PI) / 180 + 0.003), y: Math.sin((i * Math.PI) / 180 + 0.003) };
        let gone = 1;
        const there = (far: number) => ({ x: eye.x + way.x * far, y: eye.y + way.y * far, z });
        while (gone < 3000 && !solid(o, there(gone))) gone += 1;
        const end = there(gone);
        if (gone >= 3000 || end.y < -3300 || Math.abs(end.x) > 2250) continue;
        const near = stretches.some((s) => farFrom(s, end) < 3);
        expect(near, `${o.family} ${i}° at ${end.x}, ${end.y}`).toBe(true);
        if (near) met++;
      }
      expect(met).toBeGreaterThan(30);
      for (const s of stretches)
        for (const share of [0.02, 0.5, 0.98]) {
          const to = { x: s.from.x + (s.to.x - s.from.x) * share, y: s.from.y + (s.to.y - s.from.y) * share };
          expect(seenPast(o, eye, to)).toBe(true);
        }
    }
  });

  test('S goes on through a doorway, F past an open side', () => {
    const level = { setUp: 1, at: { x: 0, y: -300, z: 1000 }, facing: { x: 0, y: 1 }, settled: true };
    const [door, wall] = [others[3] as Outline, others[0] as Outline];
    expect(lineEnds(door, level, 'S').map((e) => e.wall)).toEqual([null, null]);
    expect(lineEnds(door, level, 'S')[0].at.y).toBeGreaterThan(openingMm.depth);
    expect(lineEnds(wall, level, 'F').map((e) => e.wall)).toEqual([null, null]);
    expect(lineEnds(wall, level, 'S').map((e) => e.wall)).toEqual(['back', null]);
  });
});

/** How far a place is from a stretch, mm. */
function farFrom({ from, to }: WallStretch, { x, y }: At): number {
  const run = { x: to.x - from.x, y: to.y - from.y };
  const long = run.x * run.x + run.y * run.y;
  const share = Math.min(Math.max(((x - from.x) * run.x + (y - from.y) * run.y) / long, 0), 1);
  return Math.hypot(x - from.x - run.x * share, y - from.y - run.y * share);
}

test('a level that is reckoned to stand in plaster throws nothing', () => {
  const outline = outlines[0] as Outline;
  expect(levelStretches(outline, { x: 0, y: 900, z: 1000 })).toEqual([]);
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
          if (y < box.y - 1 || x > box.x + box.width + 1) continue;
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
