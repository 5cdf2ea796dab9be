/**
 * Trims of every kind, drawn by the surface that they are on: what stands out of a wall, what hangs under a ceiling or a
 * slope, in plan, elevation and section. What is off is gone, what comes off is dotted.
 *
 * A band is a rectangle in its surface's own axes with a profile along one of them; bands run on past the outline, so
 * each view draws the part that it shows.
 */
import type { Outline } from '../exercise/outline.ts';
import type { SeenTrim } from '../survey/learner-view.ts';
import { edgeRuns } from './edge-runs.ts';
import { type Item, line, type PaperPoint } from './item.ts';
import { hasFace, topAt } from './outline-shape.ts';
import type { StrokeName } from './pens.ts';
import type { Viewport } from './viewport.ts';

type Range = readonly [number, number];

/** How high up a band hangs over the plan's cut, mm. */
const overheadMm = 1200;

/** The bands as the plan shows them: the profile of what stands out of a wall, the edges of what hangs overhead. */
export function planTrims(outline: Outline, all: readonly SeenTrim[], port: Viewport): Item[] {
  const { width, depth } = outline.openingMm;
  const half = width / 2;
  const shown = {
    x: outline.open.includes('left') || outline.open.includes('right') ? port.extent.a : ([0 - half, half] as const),
    y: [port.extent.b[0], depth] as const,
  };
  return standing(all).flatMap((t): Item[] => {
    const stroke = strokeOf(t, t.vMm[0] >= overheadMm);
    if (t.surface === 'back') {
      const out = outBy(t, t.uMm, shown.x);
      return drawn(stroke, out, (u, mm) => port.at(u, depth - mm));
    }
    if (t.surface === 'left' || t.surface === 'right') {
      const begins = hasFace(outline, t.surface) ? outline.mouthMm : shown.y[0];
      const sign = t.surface === 'left' ? 1 : -1;
      return drawn(stroke, outBy(t, t.uMm, [begins, depth]), (y, mm) => port.at(sign * (mm - half), y));
    }
    if (t.surface === 'floor') return rectangle(stroke, t, { u: shown.x, v: shown.y }, (u, v) => port.at(u, v));
    return rectangle(strokeOf(t, true), t, { u: shown.x, v: shown.y }, (u, v) => port.at(u, v));
  });
}

/** The bands as one sees them standing before the mouth. */
export function elevationTrims(outline: Outline, all: readonly SeenTrim[], port: Viewport): Item[] {
  const { width, height } = outline.openingMm;
  const half = width / 2;
  const x: Range = [0 - half, half];
  const z: Range = [0, height];
  return standing(all).flatMap((t): Item[] => {
    const stroke = strokeOf(t, false);
    if (t.surface === 'back') return rectangle(stroke, t, { u: x, v: z }, (u, v) => port.at(u, v));
    if (t.surface === 'left' || t.surface === 'right') {
      const sign = t.surface === 'left' ? 1 : -1;
      return drawn(stroke, outBy(t, t.vMm, z, 'v'), (v, mm) => port.at(sign * (mm - half), v));
    }
    if (t.surface === 'floor') return drawn(stroke, outBy(t, t.uMm, x), (u, mm) => port.at(u, mm));
    return drawn(stroke, outBy(t, t.uMm, x), (u, mm) => port.at(u, under(outline, t, u) - mm));
  });
}

/**
 * The bands as the section shows them, looking left: those of the back and overhead cut through, those of the left wall
 * along it.
 *
 * @param x - where the section is cut
 */
export function sectionTrims(outline: Outline, all: readonly SeenTrim[], on: { port: Viewport; x: number }): Item[] {
  const { port, x } = on;
  const { height, depth } = outline.openingMm;
  const front = port.extent.a[0];
  const begins = hasFace(outline, 'left') ? outline.mouthMm : front;
  return standing(all).flatMap((t): Item[] => {
    const stroke = strokeOf(t, false);
    if (t.surface === 'right') return [];
    if (t.surface === 'left')
      return rectangle(stroke, t, { u: [begins, depth], v: [0, topAt(outline, x)] }, (y, z) => port.at(y, z));
    if (t.surface === 'back')
      return drawn(stroke, outBy(t, t.vMm, [0, height], 'v'), (v, mm) => port.at(depth - mm, v));
    if (t.surface === 'floor') return drawn(stroke, outBy(t, t.vMm, [front, depth], 'v'), (v, mm) => port.at(v, mm));
    // A band along the right-hand side is behind one who looks left.
    if (t.profile.along === 'u' && t.uMm[0] > 0) return [];
    const hangs = under(outline, t, x);
    return drawn(stroke, outBy(t, t.vMm, [front, depth], 'v'), (v, mm) => port.at(v, hangs - mm));
  });
}

function standing(all: readonly SeenTrim[]): readonly SeenTrim[] {
  return all.filter((t) => !t.cleared);
}

function strokeOf(t: SeenTrim, overhead: boolean): StrokeName {
  if (t.fate === 'off') return 'trim-off';
  return overhead ? 'overhead' : 'trim';
}

/** What a band hangs under: the slope it is on, or the ceiling. */
function under(outline: Outline, t: SeenTrim, x: number): number {
  return t.surface === 'slope' ? topAt(outline, x) : outline.openingMm.height;
}

/**
 * How far a band stands out along a range of its own, as corners (place, mm out); where it ends within what is shown, it
 * goes back to the surface.
 */
function outBy(
  t: SeenTrim,
  range: Range,
  shown: Range,
  along: 'u' | 'v' = 'u',
): readonly (readonly [number, number])[] {
  const from = Math.max(range[0], shown[0]);
  const to = Math.min(range[1], shown[1]);
  if (to <= from) return [];
  const most = Math.max(...t.profile.mm.map(([, mm]) => mm));
  const corners: (readonly [number, number])[] =
    t.profile.along === along
      ? [[from, profileAt(t, from)], ...t.profile.mm.filter(([at]) => at > from && at < to), [to, profileAt(t, to)]]
      : [
          [from, most],
          [to, most],
        ];
  return [
    ...(range[0] > shown[0] ? [[from, 0] as const] : []),
    ...corners,
    ...(range[1] < shown[1] ? [[to, 0] as const] : []),
  ];
}

function profileAt(t: SeenTrim, at: number): number {
  const points = t.profile.mm;
  let before = points[0] as readonly [number, number];
  for (const p of points) {
    if (p[0] >= at)
      return p[0] === before[0] ? p[1] : before[1] + ((p[1] - before[1]) * (at - before[0])) / (p[0] - before[0]);
    before = p;
  }
  return before[1];
}

function drawn(
  stroke: StrokeName,
  corners: readonly (readonly [number, number])[],
  at: (along: number, mm: number) => PaperPoint,
): Item[] {
  return corners.length < 2 ? [] : [line(stroke, ...corners.map(([along, mm]) => at(along, mm)))];
}

/** Those edges of a band's rectangle that lie within what is shown, each run of them a line. */
function rectangle(
  stroke: StrokeName,
  t: SeenTrim,
  shown: { u: Range; v: Range },
  at: (u: number, v: number) => PaperPoint,
): Item[] {
  const [u0, u1] = [Math.max(t.uMm[0], shown.u[0]), Math.min(t.uMm[1], shown.u[1])];
  const [v0, v1] = [Math.max(t.vMm[0], shown.v[0]), Math.min(t.vMm[1], shown.v[1])];
  if (u1 <= u0 || v1 <= v0) return [];
  const within = {
    left: t.uMm[0] > shown.u[0],
    top: t.vMm[1] < shown.v[1],
    right: t.uMm[1] < shown.u[1],
    bottom: t.vMm[0] > shown.v[0],
  };
  return edgeRuns(stroke, [
    { is: within.left, from: at(u0, v0), to: at(u0, v1) },
    { is: within.top, from: at(u0, v1), to: at(u1, v1) },
    { is: within.right, from: at(u1, v1), to: at(u1, v0) },
    { is: within.bottom, from: at(u1, v0), to: at(u0, v0) },
  ]);
}
