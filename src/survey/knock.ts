/**
 * Knocks and leaning stands: what a door that slams does to a level, and whether it can still level itself.
 */
import { between, type DrawKey, pick, purpose } from '../chance/keyed-draws.ts';
import type { Kit } from '../exercise/kit.ts';
import { turnedBySlope } from '../geometry/plane.ts';
import type { Standing } from './level.ts';
import { foundAt } from './place.ts';
import type { World } from './world.ts';

/** A knock as it falls: mm and ratios, in the room's frame. */
export interface Knock {
  readonly afterReadings: number;
  readonly level: number;
  readonly by: { readonly x: number; readonly y: number; readonly z: number };
  /** Anticlockwise seen from above. */
  readonly turn: number;
  readonly lean: number;
}

const why = purpose('survey/knock');
/** How far out the feet of a stand are, mm; typical, from memory. */
const footMm = 400;
/** The directions of three feet, a third of a turn apart, in plan. */
const feet = [
  [0, 1],
  [-Math.sqrt(3) / 2, -0.5],
  [Math.sqrt(3) / 2, -0.5],
] as const;

/** Gives the knock of a kit; null where no door slams. */
export function drawKnock(key: DrawKey, kit: Kit): Knock | null {
  const said = kit.level.knock;
  if (said === undefined) return null;
  if (said !== 'drawn')
    return {
      afterReadings: said.afterReadings,
      level: said.level ?? 1,
      by: { x: said.byXMm, y: said.byYMm, z: said.byZMm },
      turn: said.turnMmPerM / 1000,
      lean: said.leanMmPerM / 1000,
    };
  const draw = (index: number, most: number) => between(key, why, { index, from: -most, to: most });
  const away = pick(key, why, { index: 1, count: 2 }) === 0 ? -1 : 1;
  return {
    afterReadings: 12 + pick(key, why, { index: 0, count: 40 }),
    level: 1,
    by: { x: draw(2, 3), y: draw(3, 3), z: draw(4, 1.5) },
    turn: (away * between(key, why, { index: 5, from: 2, to: 6 })) / 1000,
    lean: between(key, why, { index: 6, from: 0, to: 0.02 }),
  };
}

/** Gives a level as a knock leaves it; one that can no longer level itself throws nothing. */
export function knocked(world: World, standing: Standing, knock: Knock): Standing {
  const { at } = standing;
  const moved: Standing = {
    ...standing,
    at: { x: at.x + knock.by.x, y: at.y + knock.by.y, z: at.z + knock.by.z },
    facing: turnedBySlope(standing.facing, knock.turn),
    lean: standing.lean + knock.lean,
  };
  return { ...moved, settled: standing.settled && levelsItself(world, moved) };
}

/** Says whether a level can level itself where it stands: its stand leans as the floor falls under its three feet. */
export function levelsItself(world: World, standing: Pick<Standing, 'at' | 'lean' | 'packed'>): boolean {
  const range = world.exercise.kit.level.rangeMmPerM;
  if (range === undefined) return true;
  const floor = standing.packed ? 0 : floorFall(world, standing.at);
  return standing.lean + floor <= range / 1000;
}

/** Gives how steeply the plane through three feet on the floor falls: a ratio. */
export function floorFall(world: World, at: { readonly x: number; readonly y: number }): number {
  const high = (foot: readonly [number, number]) =>
    foundAt(world, [], { side: 'floor', u: at.x + footMm * foot[0], v: at.y + footMm * foot[1] }).point.z;
  const [a, b, c] = [high(feet[0]), high(feet[1]), high(feet[2])];
  // The feet are corners of an equilateral triangle: slopes of the plane through them.
  const across = (c - b) / (footMm * Math.sqrt(3));
  const along = (a - (b + c) / 2) / (1.5 * footMm);
  return Math.sqrt(across * across + along * along);
}
