/**
 * Files on the disk: read whole, written whole or not at all, never over what is not ours.
 */
import { existsSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { Refused } from './refused.ts';

/** Reads a text file. */
export function readText(path: string): string {
  try {
    return readFileSync(path, 'utf8');
  } catch (error) {
    throw new Refused(`${path}: expected a file that can be read, got ${reasonOf(error)}`);
  }
}

/** Writes a new text file; a file that is there already is refused. */
export function writeNewText(path: string, text: string): void {
  if (existsSync(path)) throw new Refused(`${path}: there is such a file already, and it is not written over`);
  const beside = `${path}.${process.pid}.part`;
  try {
    writeFileSync(beside, text, { flag: 'wx' });
    renameSync(beside, path);
  } catch (error) {
    rmSync(beside, { force: true });
    throw new Refused(`${path}: expected a place that can be written, got ${reasonOf(error)}`);
  }
}

/** Says in a word why a file could not be had. */
export function reasonOf(error: unknown): string {
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  const words: Record<string, string> = {
    ENOENT: 'no such file or folder',
    EISDIR: 'a folder',
    ENOTDIR: 'a folder that is a file',
    EACCES: 'no permission',
    EROFS: 'a disk that is only read',
    ENOSPC: 'no room left',
  };
  return words[code] ?? (code || 'an error');
}
