/**
 * An uncertainty in words: how sure a size is at the places read, and that it says nothing of the rest.
 */
import { sayLength } from '../recess/lengths.ts';
import { drawnSize, tellsMore } from './drawn-size.ts';
import type { WorkedSize } from './working-out.ts';

/** Says how sure a worked size is; k = 2, about 95 in 100. */
export function uncertaintyWords(worked: Pick<WorkedSize, 'uMm'>): string {
  if (worked.uMm === null) return 'It cannot be said how sure this is: a side has no offset.';
  const half = Math.max(0.5, Math.ceil(worked.uMm * 2 * 2) / 2);
  return `Sure to about ${sayLength(half)} either way where you read; what you did not read is not in that.`;
}

/** Says what draws tell beside that; null where they tell the same. */
export function drawnWords(from: Parameters<typeof drawnSize>[0], worked: WorkedSize): string | null {
  const drawn = drawnSize(from, worked);
  if (!drawn || worked.offsetsMm === null || !tellsMore(worked, drawn)) return null;
  const off = tenths(drawn.mean - worked.offsetsMm);
  const least = off < 0;
  const why = least
    ? 'the smallest of many readings comes out small by chance'
    : 'the largest of many readings comes out large by chance';
  const mean =
    sayLength(off) === sayLength(0)
      ? 'as large on the whole'
      : `${sayLength(Math.abs(off))} too ${least ? 'small' : 'large'} on the whole: ${why}`;
  const ends = [drawn.low - worked.offsetsMm, drawn.high - worked.offsetsMm].map(signed);
  return `Read ${drawn.count} times over by draws with this kit, it comes out ${mean}; 95 in 100 lie from ${ends.join(' to ')} of it.`;
}

function signed(mm: number): string {
  const value = tenths(mm);
  const said = sayLength(Math.abs(value));
  return said === sayLength(0) ? said : `${value < 0 ? '−' : '+'}${said}`;
}

function tenths(mm: number): number {
  return 0 + Math.round(mm * 10) / 10;
}
