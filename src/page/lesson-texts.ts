/** The lessons' texts, loaded one by one when they are opened. */
import type { Lesson } from '../course/lesson.ts';

const texts = import.meta.glob<Lesson>('../../lessons/*/lesson.md', { import: 'default' });

/** Loads a lesson by its folder's name; null when there is none. */
export async function loadLesson(name: string): Promise<Lesson | null> {
  const load = texts[`../../lessons/${name}/lesson.md`];
  return load ? await load() : null;
}
