/** Printing: lines of words, or data as JSON. */
import { once } from 'node:events';

/** Prints lines. */
export function printLines(lines: readonly string[]): void {
  process.stdout.write(`${lines.join('\n')}\n`);
}

/** Prints data as one line of JSON. */
export function printJson(data: unknown): void {
  process.stdout.write(`${JSON.stringify(data)}\n`);
}

/** Prints a line that comes in pieces, as fast as it is read: the whole may be too long for one text. */
export async function printPieces(pieces: Iterable<string>): Promise<void> {
  let waiting = '';
  for (const piece of pieces) {
    waiting += piece;
    if (waiting.length < 65_536) continue;
    if (!process.stdout.write(waiting)) await once(process.stdout, 'drain');
    waiting = '';
  }
  process.stdout.write(`${waiting}\n`);
}
