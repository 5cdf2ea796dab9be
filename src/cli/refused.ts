/**
 * How the command ends: refusals are one line on standard error and exit code 1.
 */

/** A refusal: what is wrong, where, what was expected, in one line. */
export class Refused extends Error {}

/**
 * Gives what was taken, or refuses with what it says.
 *
 * @param what - put in front; left out where the words name it themselves
 */
export function taken<T>(result: { ok: true; value: T } | { ok: false; says: string }, what?: string): T {
  if (result.ok) return result.value;
  throw new Refused(what === undefined ? result.says : `${what}: ${result.says}`);
}

/** Tells one line on standard error, and gives the exit code back. */
export function tell(line: string, code: number): number {
  process.stderr.write(`offtrue: ${line.replace(/\s*\n\s*/g, ' ')}\n`);
  return code;
}
