/**
 * The level, drawn: from above its tripod's feet, dial and body; from the side its body on the tripod.
 *
 * @param size - 1 as large as on a laptop's page
 */
import type { PlanPoint } from '../geometry/polygon.ts';
import { type Box, boxed, circle, type Item, line, type PaperPoint, ring } from './item.ts';

/** Where the feet stand about the body, px. */
const feet = [
  [-33, 29],
  [36, 26],
  [11, -43],
] as const;

/** The level from above, facing a way of the plan; its feet stand within the walls. */
export function levelFromAbove(
  [x, y]: PaperPoint,
  facing: PlanPoint,
  { size, within }: { size: number; within: Box },
): Item[] {
  const at = feet.map(([dx, dy]): PaperPoint => inside([x + dx * size, y + dy * size], within));
  return [
    ...at.map((foot) => line('tripod', [x, y], foot)),
    ...at.map((foot) => circle('foot', foot, 2.5 * size)),
    circle('dial', [x, y], 18 * size),
    { kind: 'pieces', stroke: 'tripod', points: dialTicks([x, y], facing, size) },
    circle('body', [x, y], 10 * size),
    ...cross('tripod', [x, y], { facing, arm: 10 * size }),
  ];
}

/** The level from the side, standing on the floor of the box that it is drawn in. */
export function levelFromSide([x, y]: PaperPoint, { size, within }: { size: number; within: Box }): Item[] {
  const floorY = within.y + within.height;
  const [w, h, spread] = [5.5 * size, 6.5 * size, Math.min(15 * size, (floorY - y) / 3)];
  const [left] = inside([x - spread, y], within);
  const [right] = inside([x + spread, y], within);
  return [
    line('tripod', [x, y + h], [left, floorY]),
    line('tripod', [x, y + h], [x, floorY]),
    line('tripod', [x, y + h], [right, floorY]),
    boxed('body', { x: x - w, y: y - h, width: 2 * w, height: 2 * h }),
    line('tripod', [x - w, y], [x + w, y]),
    line('tripod', [x, y - h], [x, y + h]),
  ];
}

/** Where the level would stand while it is carried, from above. */
export function ghostFromAbove(at: PaperPoint, facing: PlanPoint, size: number): Item[] {
  return [circle('ghost', at, 18 * size), ...cross('ghost', at, { facing, arm: 18 * size })];
}

/** Where the level would stand while it is carried, from the side. */
export function ghostFromSide([x, y]: PaperPoint, floorY: number, size: number): Item[] {
  const [w, h] = [5.5 * size, 6.5 * size];
  return [boxed('ghost', { x: x - w, y: y - h, width: 2 * w, height: 2 * h }), line('ghost', [x, y + h], [x, floorY])];
}

/** An arrow at a view's edge, towards a level that stands further out than the view shows. */
export function levelBeyond([x, y]: PaperPoint, towards: -1 | 1): Item[] {
  return [ring('pointer', [x + 7 * towards, y], [x, y - 5], [x, y + 5])];
}

/** How large the level is from above at a scale of the plan, px a mm, and from the side at one of the upright views. */
export function sizeFromAbove(scale: number): number {
  return Math.min(Math.max(scale / 0.26, 0.5), 1);
}
export function sizeFromSide(scale: number): number {
  return Math.min(Math.max(scale / 0.085, 0.7), 1.5);
}

/** What the level fills from above, px: the dial, and the tripod's legs and feet. */
export function boxesFromAbove([x, y]: PaperPoint, size: number): Box[] {
  const about = (dx: number, dy: number, r: number): Box => ({
    x: x + dx - r,
    y: y + dy - r,
    width: 2 * r,
    height: 2 * r,
  });
  const legs = feet.flatMap(([dx, dy]) => [about(dx * size, dy * size, 5), about(dx * size * 0.7, dy * size * 0.7, 5)]);
  return [about(0, 0, 18 * size + 3), ...legs];
}

/** The box of the body from the side, px. */
export function bodyBox([x, y]: PaperPoint, size: number): Box {
  return { x: x - 7 * size, y: y - 8 * size, width: 14 * size, height: 22 * size };
}

function inside([x, y]: PaperPoint, box: Box): PaperPoint {
  return [Math.min(Math.max(x, box.x), box.x + box.width), Math.min(Math.max(y, box.y), box.y + box.height)];
}

function cross(
  stroke: 'tripod' | 'ghost',
  [x, y]: PaperPoint,
  { facing, arm }: { facing: PlanPoint; arm: number },
): Item[] {
  const [dx, dy] = [facing.x * arm, facing.y * arm];
  return [line(stroke, [x - dx, y + dy], [x + dx, y - dy]), line(stroke, [x - dy, y - dx], [x + dy, y + dx])];
}

/** A sixth of a quarter turn, 15°, and its multiples, from roots. */
const sixths = [
  [1, 0],
  [(Math.sqrt(6) + Math.sqrt(2)) / 4, (Math.sqrt(6) - Math.sqrt(2)) / 4],
  [Math.sqrt(3) / 2, 0.5],
  [Math.sqrt(0.5), Math.sqrt(0.5)],
  [0.5, Math.sqrt(3) / 2],
  [(Math.sqrt(6) - Math.sqrt(2)) / 4, (Math.sqrt(6) + Math.sqrt(2)) / 4],
] as const;

/** Twenty-four ticks round the dial, turned as the level is. */
function dialTicks([x, y]: PaperPoint, facing: PlanPoint, size: number): number[] {
  const points: number[] = [];
  for (const [c, s] of sixths)
    for (const [a, b] of [
      [c, s],
      [0 - s, c],
      [0 - c, 0 - s],
      [s, 0 - c],
    ] as const) {
      const dx = (a * facing.y + b * facing.x) * size;
      const dy = (a * facing.x - b * facing.y) * size;
      points.push(x + dx * 14.5, y + dy * 14.5, x + dx * 18, y + dy * 18);
    }
  return points;
}
