/**
 * Chance for the proofs: a stream of draws that is a function of words and numbers alone.
 */
import { drawKey, purpose, uniform } from '../../src/chance/keyed-draws.ts';
import { seedCount, writeCode } from '../../src/exercise/exercise-code.ts';
import { alcoveStructures } from '../../src/recess/families/alcove-structures.ts';
import { severities } from '../../src/recess/severity.ts';

/** Each call is the next draw. */
export interface Draws {
  between(from: number, to: number): number;
  /** From 0 to count - 1. */
  pick(count: number): number;
  one<T>(of: readonly T[]): T;
  sign(): 1 | -1;
}

const why = purpose('prove/draws');

/** Begins a stream. */
export function drawsOf(...words: readonly (string | number)[]): Draws {
  const key = drawKey(`prove/${words.join('/')}`);
  let index = 0;
  const next = () => uniform(key, why, index++);
  const pick = (count: number) => Math.floor(next() * count);
  return {
    between: (from, to) => from + (to - from) * next(),
    pick,
    one: (of) => of[pick(of.length)] as (typeof of)[number],
    sign: () => (pick(2) === 0 ? 1 : -1),
  };
}

/** A room's code, its seed drawn; severities and structures take turns by the case's index. */
export function drawnCode(draws: Draws, index: number, kit = 'site'): string {
  const severity = severities[index % severities.length];
  const structure = alcoveStructures[Math.floor(index / severities.length) % alcoveStructures.length];
  return codeOf(draws, { severity: severity?.name ?? '', structure: structure?.name ?? '', kit });
}

/** A room's code of a severity and structure, its seed drawn; of an alcove, where no family is named. */
export function codeOf(
  draws: Draws,
  of: { family?: string; severity: string; structure: string; kit: string },
): string {
  return writeCode({ family: 'alcove', ...of, seed: draws.pick(seedCount) });
}
