/**
 * An uncertainty in words: how sure a size is at the places read, and that it says nothing of the rest.
 */
import type { WorkedSize } from './working-out.ts';

/** Says how sure a worked size is; k = 2, about 95 in 100. */
export function uncertaintyWords(worked: Pick<WorkedSize, 'uMm'>): string {
  if (worked.uMm === null) return 'It cannot be said how sure this is: a side has no offset.';
  const half = Math.max(0.5, Math.ceil(worked.uMm * 2 * 2) / 2);
  return `Sure to about ${half} either way where you read; what you did not read is not in that.`;
}
