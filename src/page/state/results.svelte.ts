/**
 * What the learner fills in while working out: the picks of each sum and the sizes made of them, as text until sent.
 */
import { type SizeName, sizeNames } from '../../survey/size.ts';

export class Results {
  /** Figures put into the sums, by size: one a side. */
  picks: Record<SizeName, { first: string; second: string }>;
  /** What each sum came to. */
  made: Record<SizeName, string>;

  constructor() {
    this.picks = $state(bySize(() => ({ first: '', second: '' })));
    this.made = $state(bySize(() => ''));
  }
}

function bySize<T>(of: () => T): Record<SizeName, T> {
  return Object.fromEntries(sizeNames.map((size) => [size, of()])) as Record<SizeName, T>;
}
