/**
 * Rooms built a second and the time of a whole key, family by family.
 *
 * Rooms are drawn as codes draw them: structures by turns, severities by turns, seeds by hash. A room is built from its spec;
 * a key is asked of a room that is built, with what the brief calls nominal, a pair's of both its alcoves. Each room is timed
 * by itself, the least of three goes: see `timing.ts`.
 */
import { drawKey, purpose, uniform } from '../../src/chance/keyed-draws.ts';
import { baysOf } from '../../src/exercise/bays.ts';
import { nominalCarcass } from '../../src/exercise/brief.ts';
import type { Exercise } from '../../src/exercise/exercise.ts';
import { openCode, seedCount, writeCode } from '../../src/exercise/exercise-code.ts';
import { answerKey } from '../../src/marking/answer-key.ts';
import { families } from '../../src/recess/families/families.ts';
import type { Family } from '../../src/recess/families/family.ts';
import { buildRecess, type Recess } from '../../src/recess/recess.ts';
import { severities } from '../../src/recess/severity.ts';
import type { Figure } from './geometry.ts';
import { eachUs, quantile } from './timing.ts';

const rooms = 120;
const whySeed = purpose('bench/family-seed');

export function familyFigures(): Figure[] {
  return families.flatMap((family) => {
    const bays = drawnRooms(family).map((exercise) => baysOf(exercise).map((bay) => bay.exercise));
    const built = eachUs((i) => bays[i]!, build, { questions: rooms, goes: 3 });
    const keys = eachUs((i) => bays[i]!.map((exercise) => ({ exercise, recess: buildRecess(exercise.spec) })), key, {
      questions: rooms,
      goes: 3,
    });
    const us = built.reduce((sum, each) => sum + each, 0) / rooms;
    return [
      { name: `${family.name}: rooms built a second`, value: 1e6 / us, unit: '/s' },
      { name: `${family.name}: whole key, median`, value: quantile(keys, 0.5) / 1000, unit: 'ms' },
      { name: `${family.name}: whole key, worst of ${rooms}`, value: quantile(keys, 1) / 1000, unit: 'ms' },
    ];
  });
}

function drawnRooms({ name: family, structures }: Family): Exercise[] {
  const draws = drawKey(`bench/${family}`);
  return Array.from({ length: rooms }, (_, i) => {
    const structure = structures[i % structures.length]!.name;
    const severity = severities[i % severities.length]!.name;
    const seed = Math.floor(uniform(draws, whySeed, i) * seedCount);
    const opened = openCode(writeCode({ family, severity, structure, kit: 'site', seed }));
    if (!opened.ok) throw new Error(`bench: ${opened.error.says}`);
    return opened.value;
  });
}

function build(bays: readonly Exercise[]): number {
  return bays.reduce((sum, { spec }) => sum + buildRecess(spec).extents.x[0], 0);
}

function key(bays: readonly { readonly exercise: Exercise; readonly recess: Recess }[]): number {
  let sum = 0;
  for (const { exercise, recess } of bays) {
    const result = answerKey(recess, exercise, { carcass: nominalCarcass(exercise.brief) });
    if (!result.ok) throw new Error(`bench: ${result.error.says}`);
    sum += result.key.widestMm ?? result.key.tallestMm ?? 0;
  }
  return sum;
}
