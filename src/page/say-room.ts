/**
 * The room and what stands in it, in words: what the drawings show to those who see them.
 */
import { sayOutline } from '../exercise/outline-words.ts';
import { sayRoughly } from '../recess/lengths.ts';
import { sayPlace } from '../survey/field-sheet-words.ts';
import type { LearnerView } from '../survey/learner-view.ts';

/** Says what the views show: the outline, the trims, the level, its lines, the marks. */
export function sayRoom(view: LearnerView): string[] {
  const at = view.level?.at;
  return [
    sayOutline(view.outline),
    ...view.trims.map(
      (t) =>
        `${t.name}: ${t.cleared ? 'taken off' : t.fate === 'off' ? 'comes off' : t.fate === 'cut' ? 'may be cut' : 'stays'}.`,
    ),
    at
      ? `The level stands ${sayRoughly(at.x)} along, ${sayRoughly(at.y)} in, ${sayRoughly(at.z)} up${view.level?.settled ? '; it throws F, S and L' : '; it has not settled'}.`
      : 'No level is standing.',
    ...view.marks.map((m) => `Mark ${m.mark}: ${sayPlace(m.place)}.`),
  ];
}
