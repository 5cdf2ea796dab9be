/**
 * The families that a code can name, in the order of the exercise code: only ever add at the end.
 */
import type { FamilyName } from '../recess-spec.ts';
import { alcove } from './alcove.ts';
import { alcovePair } from './alcove-pair.ts';
import { doorway } from './doorway.ts';
import type { Family } from './family.ts';
import { plainWall } from './plain-wall.ts';
import { reveal } from './reveal.ts';
import { roofSlope } from './roof-slope.ts';
import { run } from './run.ts';
import { underStair } from './under-stair.ts';

export const families: readonly Family[] = [alcove, run, reveal, doorway, underStair, roofSlope, plainWall, alcovePair];

/**
 * Gives a family.
 *
 * @throws {RangeError} if a code can name no such family
 */
export function familyOf(name: FamilyName | string): Family {
  const found = families.find((f) => f.name === name);
  if (!found) throw new RangeError(`recess: no family is named ${JSON.stringify(name)}`);
  return found;
}
