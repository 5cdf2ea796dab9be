/** Printing: lines of words, or data as JSON. */

/** Prints lines. */
export function printLines(lines: readonly string[]): void {
  process.stdout.write(`${lines.join('\n')}\n`);
}

/** Prints data as one line of JSON. */
export function printJson(data: unknown): void {
  process.stdout.write(`${JSON.stringify(data)}\n`);
}
