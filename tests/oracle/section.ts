/**
 * The section of the bare room at the face line, y = 0, and the extremes of its four sides. mm, room frame.
 *
 * A wall's stretch runs from the floor corner to the ceiling corner, floor and ceiling from the left corner to the
 * right one; what lies behind a staying trim whose rectangle reaches y = 0 is left out, and what remains is closed. With
 * several ceilings the lowest counts at each place.
 *
 * *Corners.* x = L(0, z) and z = F(x, 0) meet where x is a fixed point of x -> L(0, F(x, 0)). With slopes at most p and
 * q along the two lines (`steepest`), pq < 1, the fixed point is the only one, and a place with residual r is within
 * r/(1 - pq) of it. The iteration runs until that is below `CORNER`; the lowest of several ceilings has the greatest of
 * their slopes. Moving the end of a stretch by CORNER moves an extreme by at most CORNER times the slope, which is added.
 *
 * *Single places.* Where a trim ends at a corner or at the next trim, to within `TOUCH`, only a point would remain, or
 * nothing: the interval then allows both. Where nothing certainly remains of a side it is unbounded.
 */

import { greatest, heightAt, type Interval, type Sheet, steepest } from './sheet.ts';
import type { Wall } from './wall.ts';

/** The least and the greatest coordinate of a side over what remains of its stretch. */
export type Extremes = { readonly least: Interval; readonly most: Interval };

export type Section = {
  readonly left: Extremes;
  readonly right: Extremes;
  readonly floor: Extremes;
  readonly ceiling: Extremes;
};

export type Sides = {
  readonly left: Wall;
  readonly right: Wall;
  readonly floor: Wall;
  readonly ceilings: readonly Wall[];
};

const CORNER = 1e-8;
const ANYTHING: Interval = { low: -Infinity, high: Infinity };
const TOUCH = 1e-6;

/** Halving a stretch to find which ceiling is the lowest stops here. */
const SHORTEST = 1e-3;

/** A stretch of the section's upper side that is seen, and which of the ceilings is the lowest there. */
export type SeenStretch = { readonly from: number; readonly to: number; readonly wall: Wall };

/** The upper side between its corners, cut at sample lines: what lies behind staying trims is left out. */
export function seenOverhead(sides: Sides): SeenStretch[] {
  const { left, right, ceilings } = sides;
  const sheets = ceilings.map((one) => one.sheet);
  const [from, to] = [meetingOf(left.sheet, sheets).x, meetingOf(right.sheet, sheets).x];
  const hidden = ceilings.map((wall) => behindTrims(wall, 'u'));
  const places = new Set([from, to, ...hidden.flat(2)]);
  for (const { u, step } of sheets) for (let i = 0; i < u.count; i++) places.add(u.from + i * step);
  const lowestAt = (x: number) => {
    const heights = sheets.map((sheet) => heightAt(sheet, x, 0));
    return heights.indexOf(Math.min(...heights));
  };
  const inOrder = () => [...places].filter((x) => x >= from && x <= to).sort((a, b) => a - b);
  // Where one ceiling gives way to another, the place is closed in on: beyond it the other would stand out.
  const before = inOrder();
  for (const [i, next] of before.slice(1).entries()) {
    let [a, b] = [before[i]!, next];
    if (lowestAt(a) === lowestAt(b)) continue;
    while (b - a > CORNER) [a, b] = lowestAt((a + b) / 2) === lowestAt(a) ? [(a + b) / 2, b] : [a, (a + b) / 2];
    places.add(a).add(b);
  }
  const sorted = inOrder();
  return sorted.slice(1).flatMap((next, i): SeenStretch[] => {
    const [a, b] = [sorted[i]!, next];
    const lowest = lowestAt((a + b) / 2);
    return isHidden(hidden[lowest]!, a, b) ? [] : [{ from: a, to: b, wall: ceilings[lowest]! }];
  });
}

/**
 * @throws {OutsideError} where the samples do not reach the section
 * @throws {RangeError} where two sides are too steep to each other for a corner to be proved
 */
export function sectionAtFaceLine(sides: Sides): Section {
  const { left, right, floor, ceilings } = sides;
  const corner = (wall: Wall, level: readonly Wall[]) =>
    meetingOf(
      wall.sheet,
      level.map((one) => one.sheet),
    );
  const [leftFloor, leftCeiling] = [corner(left, [floor]), corner(left, ceilings)];
  const [rightFloor, rightCeiling] = [corner(right, [floor]), corner(right, ceilings)];
  return {
    left: extremes([left], 'v', leftFloor.z, leftCeiling.z),
    right: extremes([right], 'v', rightFloor.z, rightCeiling.z),
    floor: extremes([floor], 'u', leftFloor.x, rightFloor.x),
    ceiling: extremes(ceilings, 'u', leftCeiling.x, rightCeiling.x),
  };
}

function meetingOf(upright: Sheet, level: readonly Sheet[]): { readonly x: number; readonly z: number } {
  const slope = steepest(upright, 'v', 0) * Math.max(...level.map((sheet) => steepest(sheet, 'u', 0)));
  if (!(slope < 0.9)) throw new RangeError(`${upright.name}: too steep to ${level[0]?.name} for a proved corner`);
  let x = heightAt(upright, 0, heightAt(level[0]!, 0, 0));
  for (let turn = 0; turn < 1000; turn++) {
    const z = Math.min(...level.map((sheet) => heightAt(sheet, x, 0)));
    const next = heightAt(upright, 0, z);
    if (Math.abs(next - x) / (1 - slope) < CORNER / 10) return { x: next, z };
    x = next;
  }
  throw new RangeError(`${upright.name}: no corner with ${level[0]?.name} was found`);
}

/** One side of the section: the lowest of `walls` (only ceilings are several) along u or v, from one place to another. */
function extremes(walls: readonly Wall[], along: 'u' | 'v', from: number, to: number): Extremes {
  if (!(from < to)) throw new RangeError(`${walls[0]?.sheet.name}: its corners are the wrong way round`);
  const sofar = { leastLow: Infinity, leastHigh: Infinity, mostLow: -Infinity, mostHigh: -Infinity };
  const hidden = walls.map((wall) => behindTrims(wall, along));
  const places = [from, to, ...hidden.flat(2).filter((place) => place > from && place < to)].sort((a, b) => a - b);
  const note = (certain: boolean, least: Interval, most: Interval) => {
    sofar.leastLow = Math.min(sofar.leastLow, least.low);
    sofar.mostHigh = Math.max(sofar.mostHigh, most.high);
    if (!certain) return;
    sofar.leastHigh = Math.min(sofar.leastHigh, least.high);
    sofar.mostLow = Math.max(sofar.mostLow, most.low);
  };
  const visit = (a: number, b: number) => {
    const ranges = walls.map(({ sheet }) => rangeOf(sheet, along, a, b));
    const lowest = Math.min(...ranges.map(({ most }) => most.high));
    const could = ranges.flatMap(({ least }, k) => (least.low <= lowest ? [k] : []));
    if (could.length > 1 && b - a > SHORTEST) {
      visit(a, (a + b) / 2);
      visit((a + b) / 2, b);
      return;
    }
    const seen = could.filter((k) => !isHidden(hidden[k]!, a, b));
    if (seen.length === 0) return;
    const certain = seen.length === could.length && b - a > TOUCH;
    if (could.length === 1) {
      const { least, most } = ranges[seen[0]!]!;
      note(certain, least, most);
      return;
    }
    const bottom = Math.min(...could.map((k) => ranges[k]!.least.low));
    note(certain, { low: bottom, high: lowest }, { low: bottom, high: lowest });
  };
  for (let i = 1; i < places.length; i++) if (places[i]! > places[i - 1]!) visit(places[i - 1]!, places[i]!);
  for (const place of places) visit(place, place);
  if (sofar.mostHigh === -Infinity) return { least: ANYTHING, most: ANYTHING };
  return {
    least: { low: sofar.leastLow - CORNER, high: sofar.leastHigh + CORNER },
    most: { low: sofar.mostLow - CORNER, high: sofar.mostHigh + CORNER },
  };
}

/** The stretches of a wall at y = 0 that lie behind staying trims. */
function behindTrims(wall: Wall, along: 'u' | 'v'): [number, number][] {
  return wall.bands.flatMap((band): [number, number][] => {
    const depths = along === 'v' ? band.uMm : band.vMm;
    const stretch = along === 'v' ? band.vMm : band.uMm;
    return depths[0] <= 0 && depths[1] >= 0 ? [[stretch[0], stretch[1]]] : [];
  });
}

/** A stretch is hidden when one trim covers it; a single place when it is inside one, by more than TOUCH. */
function isHidden(hidden: readonly (readonly [number, number])[], a: number, b: number): boolean {
  const spare = b - a > TOUCH ? 0 : TOUCH;
  return hidden.some(([from, to]) => from + spare <= a && b <= to - spare);
}

function rangeOf(sheet: Sheet, along: 'u' | 'v', a: number, b: number): Extremes {
  const rect = along === 'u' ? { u: [a, b], v: [0, 0] } : { u: [0, 0], v: [a, b] };
  const most = greatest(sheet, 1, rect as { u: [number, number]; v: [number, number] });
  const least = greatest(sheet, -1, rect as { u: [number, number]; v: [number, number] });
  return { least: { low: -least.high, high: -least.low }, most };
}
