/**
 * Where two pieces of plain data first differ.
 */

export interface FieldDifference {
  /** Names joined by dots, as in `outcome.edgesMm.0`. */
  readonly field: string;
  readonly of: unknown;
  readonly and: unknown;
}

/**
 * Finds the first field in which two pieces of plain data differ, to the last bit; the order of fields counts for
 * nothing, nor does a field that is undefined.
 *
 * @param field - the name of the whole; empty where the fields stand for themselves
 * @returns null when they are the same
 */
export function firstDifference(of: unknown, and: unknown, field: string): FieldDifference | null {
  if (!isObject(of) || !isObject(and) || Array.isArray(of) !== Array.isArray(and))
    return of === and ? null : { field, of, and };
  for (const name of new Set([...Object.keys(of), ...Object.keys(and)])) {
    const differs = firstDifference(of[name], and[name], field === '' ? name : `${field}.${name}`);
    if (differs) return differs;
  }
  return null;
}

function isObject(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null;
}
