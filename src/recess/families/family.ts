/**
 * A family: one kind of recess. It draws the spec of a room around a structure, out of true by a severity.
 */
import type { DrawKey } from '../../chance/keyed-draws.ts';
import type { FamilyName, RecessSpec } from '../recess-spec.ts';
import type { Severity } from '../severity.ts';

export interface FamilyDraw {
  readonly key: DrawKey;
  /** One of the family's own structures. */
  readonly structure: string;
  readonly severity: Severity;
}

export interface Family {
  readonly name: FamilyName;
  /** What it is, with its article: `an alcove beside a chimney breast`. */
  readonly says: string;
  /** In the order of the exercise code: only ever add at the end. At most as many as the code has signs. */
  readonly structures: readonly { readonly name: string; readonly says: string }[];
  /** @throws {RangeError} if the family has no such structure */
  draw(from: FamilyDraw): RecessSpec;
}
