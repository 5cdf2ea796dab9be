/**
 * The lesson after a lesson, for those that have been done.
 */
import { lessons } from './lessons.ts';

/** Gives the next lesson by the name of one; null after the last. */
export function nextLesson(name: string): { readonly href: string; readonly says: string } | null {
  const at = lessons.findIndex((l) => l.name === name);
  const next = at < 0 ? undefined : lessons[at + 1];
  return next ? { href: `#/lesson/${next.name}`, says: `Lesson ${at + 2}: ${next.title}` } : null;
}
