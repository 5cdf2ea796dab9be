/**
 * Finds codes of rooms that teach: draws candidates, tests each, keeps the seed of the first that passes. The code carries
 * that seed, so that opening it tests nothing and a change of marking moves no room.
 */
import { type DrawKey, drawKey, pick, purpose } from '../chance/keyed-draws.ts';
import { type CodeParts, openCode, seedCount, writeCode } from '../exercise/exercise-code.ts';
import { familyOf } from '../recess/families/families.ts';
import { type MakesIt, type Tested, testRoom } from './teaching-room.ts';

/** What is wanted of a code; a structure that is left out is drawn for each candidate. */
export type Wanted = Omit<CodeParts, 'structure' | 'seed'> & { readonly structure?: string };

export interface FoundRoom {
  readonly code: string;
  readonly parts: CodeParts;
  readonly tested: Tested;
  readonly thrown: Thrown;
}

/** Candidates that were thrown away, by why. */
export interface Thrown {
  readonly cheap: number;
  readonly hard: number;
  readonly unseen: number;
}

export type Search =
  | { readonly ok: true; readonly found: FoundRoom }
  | { readonly ok: false; readonly error: { readonly code: 'making/none'; readonly thrown: Thrown } };

/** How many candidates are drawn before it is given up. */
export const mostCandidates = 100;

/**
 * Finds a room that teaches a mistake.
 *
 * @param from - the number that candidates are drawn by: the same number finds the same room, as long as the marking is the
 *   same
 * @throws {RangeError} if a name of what is wanted is unknown
 */
export function findRoom(wanted: Wanted, makes: MakesIt, from: number): Search {
  const key = drawKey(`offtrue/making/${wanted.family}/${wanted.severity}/${wanted.structure ?? ''}/${from}`);
  const thrown = { cheap: 0, hard: 0, unseen: 0 };
  for (let i = 0; i < mostCandidates; i++) {
    const parts = candidate(wanted, key, i);
    const code = writeCode(parts);
    const opened = openCode(code);
    if (!opened.ok) throw new RangeError(`making: ${opened.error.says}`);
    const tested = testRoom(opened.value, makes);
    if (tested.why === 'teaches') return { ok: true, found: { code, parts, tested, thrown } };
    thrown[tested.why]++;
  }
  return { ok: false, error: { code: 'making/none', thrown } };
}

const whySeed = purpose('making/seed');
const whyStructure = purpose('making/structure');

function candidate(wanted: Wanted, key: DrawKey, i: number): CodeParts {
  const { structures } = familyOf(wanted.family);
  const drawn = structures[pick(key, whyStructure, { index: i, count: structures.length })]?.name ?? '';
  const seed = pick(key, whySeed, { index: i, count: seedCount });
  const { family, severity, kit } = wanted;
  return { family, severity, kit, structure: wanted.structure ?? drawn, seed };
}
