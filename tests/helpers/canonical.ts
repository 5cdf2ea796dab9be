/**
 * Digests for golden files, by other code than the program's: JSON with sorted fields, hashed by Node.
 */
import { createHash } from 'node:crypto';

/** Gives the SHA-256 of plain data, its fields sorted by name at every level, as hexadecimal signs. */
export function sha256Of(data: unknown): string {
  return createHash('sha256').update(JSON.stringify(data, sorted)).digest('hex');
}

function sorted(_: string, value: unknown): unknown {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return value;
  return Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1)));
}
