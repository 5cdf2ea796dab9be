/**
 * The linked views: what is drawn stays in its panel, labels keep apart, the level is where it is reckoned, and the
 * views know the brief alone.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { Item } from '../../src/drawing/item.ts';
import { penOf } from '../../src/drawing/pens.ts';
import type { RoomFocus } from '../../src/drawing/room-focus.ts';
import { frameRoom, type RoomPanel } from '../../src/drawing/room-frame.ts';
import { keptDatums, placedMarks } from '../../src/drawing/room-marks.ts';
import { layoutRoom, levelGhost, type RoomLayout, type RoomSeen } from '../../src/drawing/room-views.ts';
import type { Recess } from '../../src/recess/recess.ts';
import { type RecessSpec, sides } from '../../src/recess/recess-spec.ts';
import type { Survey } from '../../src/survey/survey.ts';
import type { World } from '../../src/survey/world.ts';
import {
  inHand,
  inkBox,
  nothingInHand,
  panels,
  pathsOf,
  pointsOf,
  seenRoom,
  seenShape,
} from '../helpers/drawn-rooms.ts';
import { shapes } from '../helpers/family-rooms.ts';

const seeds = Array.from({ length: 60 }, (_, i) => i + 1);
const rooms = seeds.map(seenRoom);
const surfaces = ['left', 'right', 'back', 'floor', 'ceiling'] as const;
const laptop: RoomPanel = { width: 440, height: 612, large: 'plan' };

/** What is in hand in a room of the list: every sixth time nothing. */
function focusIn(view: RoomSeen, i: number): RoomFocus {
  return i % 6 === 5 || !view.level ? nothingInHand : inHand(view, surfaces[i % 5] ?? 'left', i);
}

/** The panels' own laws, at every room: what breaks them, in words. */
function broken(layout: RoomLayout): string[] {
  const { width, height } = layout.frame.panel;
  const boxes = layout.labels.map(inkBox);
  const over = boxes.flatMap((a, i) =>
    boxes
      .slice(i + 1)
      .filter((b) => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom)
      .map((b) => `${a.says} on ${b.says}`),
  );
  const cut = boxes
    .filter((b) => b.left < 0 || b.top < 0 || b.right > width || b.bottom > height)
    .map((b) => `${b.says} leaves the panel`);
  return [...over, ...cut];
}

/** Everything that is inked, with its width; light may fall past the edge, for it is soft. */
function outside(items: readonly Item[], { width, height }: RoomPanel): string[] {
  return items.flatMap((item) => {
    const pen = penOf(item.stroke);
    const more = pen.glow ? 0 : pen.width / 2;
    const r = more + (item.kind === 'circle' ? item.r : 0);
    return pointsOf(item)
      .filter(([x, y]) => x - r < -0.01 || y - r < -0.01 || x + r > width + 0.01 || y + r > height + 0.01)
      .map(([x, y]) => `${item.stroke} at ${Math.round(x)}, ${Math.round(y)}`);
  });
}

describe.each(panels)('$width x $height, large $large', (panel) => {
  const layouts = rooms.map((view, i) => layoutRoom(view, focusIn(view, i), panel));

  test('no label stands on another or leaves the panel', () => {
    expect(layouts.flatMap((l, i) => broken(l).map((b) => `seed ${seeds[i]}: ${b}`))).toEqual([]);
  });

  test('nothing is drawn outside the panel', () => {
    const seen = layouts.flatMap((l, i) =>
      outside([...l.ground, ...l.work], panel).map((o) => `seed ${seeds[i]}: ${o}`),
    );
    expect(seen.slice(0, 5)).toEqual([]);
  });

  test('every line that is drawn has its flag, once a view', () => {
    for (const [i, layout] of layouts.entries()) {
      const view = rooms[i] as RoomSeen;
      const flags = layout.labels.filter((l) => l.role === 'flag');
      expect(new Set(flags.map((f) => `${f.view} ${f.text}`)).size, `seed ${seeds[i]}`).toBe(flags.length);
      if (!view.level?.settled) continue;
      for (const kind of ['F', 'S'] as const) {
        const name = view.level.setUp === 1 ? kind : `${kind}${view.level.setUp}`;
        expect(
          flags.some((f) => f.view === 'plan' && f.text === name),
          `seed ${seeds[i]} ${name}`,
        ).toBe(true);
      }
      expect(layout.work.filter((item) => item.stroke.endsWith('-flag'))).toHaveLength(flags.length);
    }
  });

  test('captions, and the brief’s sizes where there is room for them', () => {
    for (const [i, layout] of layouts.entries()) {
      const words = layout.labels.map((l) => l.text);
      expect(words).toEqual(expect.arrayContaining(['Plan', 'Elevation', 'Section']));
      const { width, height, depth } = (rooms[i] as RoomSeen).outline.openingMm;
      const sizes = [width, depth, height].map(String);
      if (panel.height < 260) expect(words.filter((w) => sizes.includes(w))).toEqual([]);
      else expect(words).toEqual(expect.arrayContaining(sizes));
    }
  });
});

describe.each(Object.keys(shapes))('%s', (name) => {
  const views = seeds.slice(0, 10).map((seed) => seenShape(name, seed));
  const sidesOf = (view: RoomSeen) => sides.filter((side) => !view.outline.open.includes(side));
  const focusOf = (view: RoomSeen, i: number) => {
    const there = sidesOf(view);
    return i % 6 === 5 || !view.level ? nothingInHand : inHand(view, there[i % there.length] ?? 'back', i);
  };

  test.each(panels)('keeps the laws at $width x $height, large $large', (panel) => {
    const layouts = views.map((view, i) => layoutRoom(view, focusOf(view, i), panel));
    expect(layouts.flatMap((l, i) => broken(l).map((b) => `seed ${seeds[i]}: ${b}`))).toEqual([]);
    const out = layouts.flatMap((l, i) =>
      outside([...l.ground, ...l.work], panel).map((o) => `seed ${seeds[i]}: ${o}`),
    );
    expect(out.slice(0, 5)).toEqual([]);
    for (const [i, layout] of layouts.entries()) {
      const flags = layout.labels.filter((l) => l.role === 'flag');
      expect(new Set(flags.map((f) => `${f.view} ${f.text}`)).size, `seed ${seeds[i]}`).toBe(flags.length);
      expect(layout.labels.map((l) => l.text)).toEqual(expect.arrayContaining(['Plan', 'Elevation', 'Section']));
    }
  });

  test('a pointer means only sides that are there', () => {
    const view = views[0] as RoomSeen;
    const { hits } = layoutRoom(view, focusOf(view, 0), laptop);
    const meant = [...new Set(hits.map((h) => h.surface))].sort();
    expect(meant).toEqual([...sidesOf(view)].sort());
  });

  test('an open side is drawn as cut off, and no wall is hatched there', () => {
    const view = views[0] as RoomSeen;
    const open = view.outline.open.filter((side) => side === 'left' || side === 'right');
    const { ground, frame } = layoutRoom(view, nothingInHand, laptop);
    const { box } = frame.ports.elevation;
    const breaks = pathsOf(ground, 'break').filter((p) =>
      p.points.every((_, i) => i % 2 === 1 || inX(p.points[i], box)),
    );
    expect(breaks.length).toBe(open.length);
    const hatch = ground.find((i) => i.stroke === 'hatch' && pointsOf(i).some(([x]) => inX(x, box))) as Item;
    const beside = (low: number, high: number) =>
      pointsOf(hatch).filter(
        ([x, y]) => x > low && x < high && y > box.y + box.height / 2 && y < box.y + box.height - 1,
      );
    expect(beside(box.x - 20, box.x - 0.5).length > 0).toBe(!open.includes('left'));
    expect(beside(box.x + box.width + 0.5, box.x + box.width + 20).length > 0).toBe(!open.includes('right'));
  });
});

/** Whether px lie in a box's stretch across, a kink's width more on either side. */
function inX(x: number | undefined, box: { x: number; width: number }): boolean {
  return x !== undefined && x > box.x - 8 && x < box.x + box.width + 8;
}

test('rooms of an exercise’s own sizes, wide, low, narrow and shallow, keep the same laws', () => {
  const own = [
    { width: 3000, height: 1200, depth: 150 },
    { width: 400, height: 3200, depth: 1000 },
    { width: 400, height: 1200, depth: 150 },
    { width: 3000, height: 3200, depth: 1000 },
  ];
  for (const openingMm of own)
    for (const panel of panels) {
      const seen = seenRoom(4);
      const view = { ...seen, outline: { ...seen.outline, openingMm }, marks: [] };
      const layout = layoutRoom(view, nothingInHand, panel);
      expect({ openingMm, panel, broken: broken(layout) }).toEqual({ openingMm, panel, broken: [] });
      expect(outside([...layout.ground, ...layout.work], panel).slice(0, 5)).toEqual([]);
    }
});

describe('where the level stands', () => {
  /** px a mm and the px of zero, told by two walls whose places are known. */
  const scaleBy = (px: readonly [number, number], mm: readonly [number, number]) => {
    const scale = (px[1] - px[0]) / (mm[1] - mm[0]);
    return (at: number) => px[0] + (at - mm[0]) * scale;
  };

  test('is where it is reckoned, told from the walls of the plan', () => {
    for (const [i, view] of rooms.entries()) {
      if (!view.level) continue;
      const { openingMm, breastSide, mouthMm } = view.outline;
      const layout = layoutRoom(view, focusIn(view, i), laptop);
      // Front of the party wall, back corners, arris, the breast's face: the one path cut as the plan is, left to right.
      const cut = pathsOf(layout.ground, 'cut').find((p) => p.points.length === 10);
      const points = pointsOf(cut as Item) as [number, number][];
      const [, party, corner, arris] = breastSide === 'right' ? points : [...points].reverse();
      const sign = breastSide === 'right' ? 1 : -1;
      const half = openingMm.width / 2;
      const x = scaleBy([party?.[0] ?? 0, corner?.[0] ?? 0], [-half * sign, half * sign]);
      const y = scaleBy([corner?.[1] ?? 0, arris?.[1] ?? 0], [openingMm.depth, mouthMm]);
      expect(layout.level?.[0]).toBeCloseTo(x(view.level.at.x), 6);
      expect(layout.level?.[1]).toBeCloseTo(y(view.level.at.y), 6);
      const dial = layout.work.find((item) => item.stroke === 'dial');
      expect(pointsOf(dial as Item)[0]).toEqual(layout.level);
    }
  });

  test('is at its height in elevation and section, told from the floor and the ceiling', () => {
    let told = 0;
    for (const view of rooms) {
      if (!view.level) continue;
      const layout = layoutRoom(view, nothingInHand, laptop);
      const ring = pathsOf(layout.ground, 'cut').find((p) => p.closed);
      const [ceiling, , floor] = pointsOf(ring as Item) as [number, number][];
      const z = scaleBy([floor?.[1] ?? 0, ceiling?.[1] ?? 0], [0, view.outline.openingMm.height]);
      const { elevation, section } = layout.frame.ports;
      for (const body of pathsOf(layout.work, 'body')) {
        const ys = pointsOf(body).map(([, y]) => y);
        // Beside a plan that is deeper than wide the section lies under the elevation: it has a floor of its own.
        if (section.box.y !== elevation.box.y && Math.min(...ys) > (floor?.[1] ?? 0)) continue;
        expect((Math.min(...ys) + Math.max(...ys)) / 2).toBeCloseTo(z(view.level.at.z), 6);
        told++;
      }
    }
    expect(told).toBeGreaterThan(60);
  });

  test('nothing else moves while it is carried about within a step', () => {
    const { outline } = rooms[0] as RoomSeen;
    for (const panel of panels) {
      const shown = JSON.stringify(frameRoom(outline, { x: -200, y: 100 }, panel).ports);
      for (const [x, y] of [
        [0, 0],
        [200, -100],
        [-90, 40],
      ] as const)
        expect(JSON.stringify(frameRoom(outline, { x, y }, panel).ports)).toBe(shown);
      expect(JSON.stringify(frameRoom(outline, { x: 0, y: -2600 }, panel).ports)).not.toBe(shown);
    }
  });

  test('its ghost begins where it is, in every view', () => {
    const view = rooms[0] as RoomSeen;
    const layout = layoutRoom(view, nothingInHand, laptop);
    const ghost = levelGhost(view, layout.frame);
    expect(pointsOf(ghost.plan[0] as Item)[0]).toEqual(layout.level);
    expect(ghost.elevation.length).toBeGreaterThan(0);
    expect(ghost.section.length).toBeGreaterThan(0);
    expect(levelGhost({ level: null }, layout.frame).plan).toEqual([]);
  });

  test('further out than a view shows, an arrow points to it and its body is not drawn', () => {
    const seen = rooms[0] as RoomSeen;
    const level = { ...(seen.level as NonNullable<RoomSeen['level']>), at: { x: 0, y: -3200, z: 1200 } };
    const far = layoutRoom({ ...seen, level, marks: [] }, nothingInHand, laptop);
    expect(pathsOf(far.work, 'body')).toHaveLength(1);
    expect(pathsOf(far.work, 'pointer')).toHaveLength(1);
  });
});

describe('what is in hand', () => {
  const view = seenRoom(2);
  const focus = inHand(view, 'left', 3);
  const layout = layoutRoom(view, focus, laptop);

  test('the place is ringed in all three views, at one height in elevation and section, and linked', () => {
    const rings = layout.work.filter((i) => i.stroke === 'ring');
    const { ports } = layout.frame;
    const p = focus.place ?? { x: 0, y: 0, z: 0 };
    const wanted = [ports.plan.at(p.x, p.y), ports.elevation.at(p.x, p.z), ports.section.at(p.y, p.z)];
    for (const at of wanted)
      expect(rings.some((r) => r.kind === 'circle' && r.x === at[0] && r.y === at[1])).toBe(true);
    const [a, b] = pointsOf(layout.work.find((i) => i.stroke === 'link') as Item);
    expect(a?.[1]).toBeCloseTo(wanted[1]?.[1] ?? 0, 6);
    expect(b?.[1]).toBeCloseTo(a?.[1] ?? 0, 6);
    expect(b?.[0]).toBeGreaterThan(a?.[0] ?? 0);
  });

  test('the rule runs in whole legs from the wall', () => {
    const { plan } = layout.frame.ports;
    const sticks = pathsOf(layout.work, 'rule').map((s) => pointsOf(s).map(([x]) => x));
    const long = Math.max(...sticks.map((xs) => Math.max(...xs) - Math.min(...xs)));
    expect(long / plan.scale).toBeCloseTo(focus.ruleLengthMm, 6);
  });

  test('a ring stands where the rule meets the line', () => {
    // A level that faces straight in: S runs at its own x.
    const level = { ...(view.level as NonNullable<RoomSeen['level']>), facing: { x: 0, y: 1 }, settled: true };
    const long = { ...focus, ruleLengthMm: 1000 };
    const straight = layoutRoom({ ...view, level }, long, laptop);
    const at = straight.frame.ports.plan.at(level.at.x, focus.place?.y ?? 0);
    const rings = straight.work.filter(
      (i) => i.stroke === 'ring' && i.kind === 'circle' && Math.abs(i.x - at[0]) < 1e-6,
    );
    expect(rings.some((r) => r.kind === 'circle' && Math.abs(r.y - at[1]) < 1e-6)).toBe(true);
    const short = layoutRoom({ ...view, level }, { ...focus, ruleLengthMm: 200 }, laptop);
    expect(short.work.filter((i) => i.stroke === 'ring').length).toBeLessThan(
      straight.work.filter((i) => i.stroke === 'ring').length,
    );
  });

  test('places read are filled and those still to read are open', () => {
    const done = layout.work.filter((i) => i.stroke === 'read').length;
    const open = layout.work.filter((i) => i.stroke === 'unread').length;
    expect(done).toBeGreaterThan(0);
    expect(open).toBeGreaterThan(0);
    const all = { ...focus, runPlaces: focus.runPlaces.map((p) => ({ ...p, done: true })) };
    expect(layoutRoom(view, all, laptop).work.filter((i) => i.stroke === 'unread')).toEqual([]);
  });
});

describe('trims', () => {
  const view = rooms.find(
    (r) => r.trims.some((t) => t.kind === 'skirting') && r.trims.some((t) => t.kind === 'cornice'),
  );
  const drawn = (trims: RoomSeen['trims']) =>
    layoutRoom({ ...(view as RoomSeen), trims }, nothingInHand, laptop).ground;
  const strokes = (items: readonly Item[]) => items.filter((i) => ['trim', 'overhead', 'trim-off'].includes(i.stroke));
  const as = (change: Partial<RoomSeen['trims'][number]>) => (view as RoomSeen).trims.map((t) => ({ ...t, ...change }));

  test('stand in all three views; those that come off are dotted, and gone when they are off', () => {
    const stay = strokes(drawn(as({ fate: 'stays', cleared: false })));
    expect(stay.length).toBeGreaterThan(6);
    expect(stay.every((i) => i.stroke !== 'trim-off')).toBe(true);
    const off = strokes(drawn(as({ fate: 'off', cleared: false })));
    expect(off.filter((i) => i.stroke === 'trim-off').length).toBeGreaterThan(6);
    const arris = (view as RoomSeen).outline.breastSide === 'left' ? 1 : 0;
    expect(strokes(drawn(as({ fate: 'off', cleared: true })))).toHaveLength(arris);
  });
});

test('of earlier set-ups the datums whose marks stay are dotted, and have their letters', () => {
  const second = rooms.filter(
    (r) => ['F', 'S'].every((d) => keptDatums(placedMarks(r), [2]).some((k) => k.name === d)) && r.level?.setUp === 2,
  );
  expect(second.length).toBeGreaterThan(3);
  for (const view of second) {
    const layout = layoutRoom(view, nothingInHand, laptop);
    expect(layout.work.filter((i) => i.stroke === 'datum').length).toBeGreaterThanOrEqual(4);
    const flags = layout.labels.filter((l) => l.role === 'flag' && l.view === 'plan').map((l) => l.text);
    expect(flags).toEqual(expect.arrayContaining(['F', 'S', 'F2', 'S2']));
    const rubbed = layoutRoom({ ...view, marks: [] }, nothingInHand, laptop);
    expect(rubbed.work.filter((i) => i.stroke === 'datum')).toEqual([]);
    expect(layout.work.filter((i) => i.stroke === 'F')).toEqual([]);
    expect(layout.work.filter((i) => i.stroke === 'F-double').length).toBeGreaterThan(1);
  }
});

test('light has a soft band under it, and a datum of marks has none', () => {
  for (const view of rooms) {
    const { work } = layoutRoom(view, nothingInHand, laptop);
    for (const kind of ['F', 'S', 'L']) {
      const bands = work.filter((i) => i.stroke === `${kind}-light`).length;
      const single = work.filter((i) => i.stroke === kind).length;
      const double = work.filter((i) => i.stroke === `${kind}-double`).length;
      expect(bands).toBe(single + double / 2);
    }
  }
});

test('a panel that is too small is told so', () => {
  const view = rooms[0] as RoomSeen;
  expect(() => layoutRoom(view, nothingInHand, { width: 100, height: 300, large: 'plan' })).toThrow(
    'room: panel must be 200 by 120 px or more, got 100 by 300',
  );
});

describe('the views know the brief alone', () => {
  /** Which parts of what a layout takes are, or hold, what tells the room. */
  type Telling = Recess | RecessSpec | World | Survey;
  type Told = { [K in keyof RoomSeen]: RoomSeen[K] extends Telling ? K : never }[keyof RoomSeen];
  const none: [Told] extends [never] ? true : false = true;

  test('no recess, spec, world or survey is taken, by type', () => {
    expect(none).toBe(true);
    const recess = {} as Recess;
    // @ts-expect-error a recess is not what the learner sees
    const wrong = () => layoutRoom(recess, nothingInHand, laptop);
    expect(wrong).toThrow();
  });

  test('no layout of a survey in progress imports one', () => {
    const folder = resolve(import.meta.dirname, '../../src/drawing');
    const names = [
      ...['item', 'pens', 'plan', 'elevation', 'section', 'room-views', 'room-frame', 'room-focus', 'room-marks'],
      ...['in-hand', 'light-on-outline', 'light-drawing', 'level-drawing', 'label-place', 'plaster', 'pointed'],
      ...['outline-shape', 'trim-drawing', 'edge-runs', 'viewport', 'item', 'label-place'],
    ].map((n) => `${n}.ts`);
    const there = readdirSync(folder);
    expect(names.filter((n) => !there.includes(n))).toEqual([]);
    const telling =
      /from '\.\.\/(recess\/recess\.ts|recess\/alcove|survey\/(world|survey|place|sight|acting)\.ts|marking\/)/;
    expect(names.filter((n) => telling.test(readFileSync(resolve(folder, n), 'utf8')))).toEqual([]);
  });
});
