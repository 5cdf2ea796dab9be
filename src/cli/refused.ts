/**
 * How the command ends: refusals are one line on standard error and exit code 1.
 */

/** A refusal: what is wrong, where, what was expected, in one line. */
export class Refused extends Error {}

/** Gives what was taken, or refuses with what it says. */
export function taken<T>(result: { ok: true; value: T } | { ok: false; says: string }, what: string): T {
  if (result.ok) return result.value;
  throw new Refused(`${what}: ${result.says}`);
}
