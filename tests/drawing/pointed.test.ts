/** What a pointer on the views means, and how a place shows in all of them. */
import { describe, expect, test } from 'vitest';
import { linkCursor, placeUnder } from '../../src/drawing/pointed.ts';
import { layoutRoom } from '../../src/drawing/room-views.ts';
import { inHand, nothingInHand, panels, pointsOf, seenRoom, seenShape } from '../helpers/drawn-rooms.ts';

const seeds = [1, 2, 3, 4, 5, 6];

describe.each(seeds)('seed %i', (seed) => {
  const view = seenRoom(seed);
  const { width, height, depth } = view.outline.openingMm;

  test.each(panels)('a wall under the pointer gives its place, $width x $height, large $large', (panel) => {
    const { frame, hits } = layoutRoom(view, nothingInHand, panel);
    const { plan, elevation, section } = frame.ports;
    const x = Math.round(width / 5);
    const y = Math.round(depth * 0.4);
    const z = Math.round(height * 0.62);
    const near = (mm: number | undefined, told: number, scale: number) =>
      expect(Math.abs((mm ?? 1e9) - told)).toBeLessThanOrEqual(0.5 + 1e-6 / scale);
    for (const [surface, at] of [
      ['left', -width / 2],
      ['right', width / 2],
    ] as const) {
      const inPlan = placeUnder(hits, plan.at(at, y), nothingInHand);
      expect(inPlan?.surface).toBe(surface);
      near(inPlan?.y, y, plan.scale);
      const inElevation = placeUnder(hits, elevation.at(at, z), nothingInHand);
      expect(inElevation?.surface).toBe(surface);
      near(inElevation?.z, z, elevation.scale);
      expect(inElevation).not.toHaveProperty('y');
    }
    const back = placeUnder(hits, plan.at(x, depth), nothingInHand);
    expect(back?.surface).toBe('back');
    near(back?.x, x, plan.scale);
    const facing = placeUnder(hits, elevation.at(x, z), nothingInHand);
    expect(facing?.surface).toBe('back');
    near(facing?.x, x, elevation.scale);
    near(facing?.z, z, elevation.scale);
    expect(placeUnder(hits, section.at(depth, z), nothingInHand)?.surface).toBe('back');
    expect(placeUnder(hits, elevation.at(x, 0), nothingInHand)?.surface).toBe('floor');
    expect(placeUnder(hits, section.at(y, height), nothingInHand)?.surface).toBe('ceiling');
    expect(placeUnder(hits, plan.at(0, -300), nothingInHand)).toBeNull();
  });
});

describe.each(['under-stair', 'under-stair, low right', 'roof slope', 'roof slope, low left'])('%s', (name) => {
  const view = seenShape(name, 1);
  const { openingMm, slope } = view.outline;
  const { frame, hits } = layoutRoom(view, nothingInHand, { width: 440, height: 612, large: 'plan' });

  test('along the slope a pointer means the slope, at its place along, and above it nothing', () => {
    const { elevation } = frame.ports;
    if (!slope) throw new Error('it has a slope');
    for (const share of [0.2, 0.4, 0.6]) {
      // From the low side on, in this test's own way.
      const inward = openingMm.width * share;
      const x = slope.low === 'left' ? inward - openingMm.width / 2 : openingMm.width / 2 - inward;
      const z = slope.lowMm + (slope.riseMmPerM * inward) / 1000;
      if (z > openingMm.height - 100) continue;
      const met = placeUnder(hits, elevation.at(x, z), nothingInHand);
      expect(met?.surface).toBe('slope');
      expect(Math.abs((met?.x ?? 1e9) - x)).toBeLessThan(2);
      expect(placeUnder(hits, elevation.at(x, z - 400), nothingInHand)?.surface).toBe('back');
      expect(placeUnder(hits, elevation.at(x, z + 400), nothingInHand)?.surface).not.toBe('back');
    }
  });
});

test('the coordinate that a view does not show is kept from what is in hand', () => {
  const view = seenRoom(2);
  const focus = inHand(view, 'left', 2);
  const { frame, hits } = layoutRoom(view, focus, panels[0] as (typeof panels)[number]);
  const left = placeUnder(hits, frame.ports.plan.at(-view.outline.openingMm.width / 2, 100), focus);
  expect(left).toEqual({ surface: 'left', y: 100, z: focus.place?.z });
  // The wall's own x is no place along the back.
  expect(placeUnder(hits, frame.ports.section.at(view.outline.openingMm.depth, 700), focus)).toEqual({
    surface: 'back',
    z: 700,
  });
});

test('a place shows in every view, as far as it is known', () => {
  const view = seenRoom(2);
  const { frame } = layoutRoom(view, nothingInHand, panels[0] as (typeof panels)[number]);
  const { plan, elevation, section } = frame.ports;
  const half = view.outline.openingMm.width / 2;
  const whole = linkCursor(view.outline, frame, { surface: 'left', y: 120, z: 800 });
  expect(whole.flatMap(pointsOf)).toEqual([plan.at(-half, 120), elevation.at(-half, 800), section.at(120, 800)]);
  const height = linkCursor(view.outline, frame, { surface: 'left', z: 800 });
  expect(height.map((i) => [i.kind, i.stroke])).toEqual([
    ['circle', 'cursor'],
    ['path', 'link'],
  ]);
  expect(height.flatMap(pointsOf).map(([, y]) => y)).toEqual([
    elevation.at(0, 800)[1],
    section.at(0, 800)[1],
    section.at(0, 800)[1],
  ]);
});
