/**
 * Codes of rooms that teach a mistake, and what was thrown away on the way.
 */

import { nearestWord } from '../exchange/nearest-word.ts';
import { seedCount } from '../exercise/exercise-code.ts';
import { type MistakenLearner, mistakenLearners } from '../learners/mistaken/mistaken.ts';
import { type FoundRoom, findRoom, mostCandidates, type Thrown, type Wanted } from '../making/candidates.ts';
import { leastCostMm } from '../making/teaching-room.ts';
import { Refused } from './refused.ts';

export interface TeachingCodes {
  readonly mistake: MistakenLearner;
  readonly found: readonly FoundRoom[];
  readonly thrown: Thrown;
}

/** Finds as many codes as are asked for, each from a number of its own. */
export function teachingCodes(
  wanted: Wanted,
  name: string,
  from: { readonly first: number; readonly count: number },
): TeachingCodes {
  const mistake = mistakeNamed(name);
  const found: FoundRoom[] = [];
  const thrown = { cheap: 0, hard: 0, unseen: 0 };
  for (let i = 0; i < from.count; i++) {
    const search = findRoom(wanted, mistake, (from.first + i) % seedCount);
    if (!search.ok) throw new Refused(`--teaching: ${sayNone(mistake, wanted, search.error.thrown)}`);
    thrown.cheap += search.found.thrown.cheap;
    thrown.hard += search.found.thrown.hard;
    thrown.unseen += search.found.thrown.unseen;
    found.push(search.found);
  }
  return { mistake, found, thrown };
}

/** Says how many candidates were thrown away, and why. */
export function sayThrown({ mistake, found, thrown }: TeachingCodes): string {
  const away = thrown.cheap + thrown.hard + thrown.unseen;
  const why = [
    thrown.cheap > 0 ? `${thrown.cheap} where it costs under ${leastCostMm}` : '',
    thrown.hard > 0 ? `${thrown.hard} where a careful survey by the least readings fails` : '',
    thrown.unseen > 0 ? `${thrown.unseen} where the report does not name it` : '',
  ].filter((s) => s !== '');
  const dueTo = why.length > 0 ? `: ${why.join(', ')}` : '';
  return `${mistake.mistake}, ${mistake.says}: kept ${found.length} of ${found.length + away} candidates, threw away ${away}${dueTo}`;
}

function sayNone(mistake: MistakenLearner, wanted: Wanted, thrown: Thrown): string {
  return `expected a room of the family ${wanted.family} in which ${mistake.mistake} costs ${leastCostMm} or more, got none of ${mostCandidates}: ${thrown.cheap} where it costs less, ${thrown.hard} where a careful survey fails, ${thrown.unseen} where the report does not name it`;
}

function mistakeNamed(name: string): MistakenLearner {
  const found = mistakenLearners.find((l) => l.name === name || l.mistake === name.toUpperCase());
  if (found) return found;
  const known = mistakenLearners.flatMap((l) => [l.mistake, l.name]);
  const nearest = nearestWord(name, known);
  throw new Refused(
    `--teaching: expected one of ${mistakenLearners.map((l) => `${l.mistake} ${l.name}`).join(', ')}, got ${JSON.stringify(name)}${nearest ? `; the nearest is ${nearest}` : ''}`,
  );
}
