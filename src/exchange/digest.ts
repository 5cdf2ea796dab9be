/**
 * Digests: SHA-256 of plain data in a canonical form, so that equal data have equal digests everywhere.
 */
import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';
import type { Report } from '../marking/report.ts';

/** Gives the digest of plain data as 64 hexadecimal signs; fields count in the order of their names. */
export function digestOf(data: unknown): string {
  return bytesToHex(sha256(utf8ToBytes(canonical(data))));
}

/** Gives the digest of what was marked: a report without what is told beside it and may come to be told better. */
export function reportDigest(report: Report): string {
  const { findings: _findings, howSure: _howSure, minutes: _minutes, ...marked } = report;
  return digestOf(marked);
}

/** Writes plain data as JSON with fields in the order of their names and no spaces; undefined fields are left out. */
export function canonical(data: unknown): string {
  if (Array.isArray(data)) return `[${data.map(canonical).join(',')}]`;
  if (typeof data !== 'object' || data === null) return JSON.stringify(data) ?? 'null';
  const fields = Object.entries(data)
    .filter(([, value]) => value !== undefined)
    .sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0));
  return `{${fields.map(([name, value]) => `${JSON.stringify(name)}:${canonical(value)}`).join(',')}}`;
}
