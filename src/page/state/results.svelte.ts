/**
 * What the learner fills in while working out: the picks of each sum and the sizes made of them, as text until sent.
 */
import type { SizeName } from '../../survey/size.ts';

export class Results {
  /** Figures put into the sums, by size: one a side. */
  picks: Record<SizeName, { first: string; second: string }>;
  /** What each sum came to. */
  made: Record<SizeName, string>;

  constructor() {
    const empty = () => ({ first: '', second: '' });
    this.picks = $state({
      'carcass-width': empty(),
      'carcass-height': empty(),
      'carcass-depth': empty(),
      'frame-width': empty(),
      'frame-height': empty(),
    });
    this.made = $state({
      'carcass-width': '',
      'carcass-height': '',
      'carcass-depth': '',
      'frame-width': '',
      'frame-height': '',
    });
  }
}
