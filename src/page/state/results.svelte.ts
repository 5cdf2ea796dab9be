/**
 * What the learner fills in while working out: the picks of each sum and the sizes made of them, as text until sent.
 */
import type { Brief } from '../../exercise/brief.ts';
import type { SureLevel } from '../../survey/how-sure.ts';
import { type SizeName, sizeNames } from '../../survey/size.ts';
import type { CutOutPart } from './proposing.ts';

export class Results {
  /** Figures put into the sums, by size: one a side. */
  picks: Record<SizeName, { first: string; second: string }>;
  /** What each sum came to. */
  made: Record<SizeName, string>;
  /** How sure of it; empty where nothing is said. */
  sure: Record<SizeName, SureLevel | ''>;

  /** Where carcasses side by side meet, from S. */
  joints: string[];
  /** What is cut out of the back, by the name of what it is cut for. */
  cutOuts: Record<string, Record<CutOutPart, string>>;

  constructor(brief: Pick<Brief, 'modules' | 'cutOuts'>) {
    this.picks = $state(bySize(() => ({ first: '', second: '' })));
    this.made = $state(bySize(() => ''));
    this.sure = $state(bySize(() => ''));
    this.joints = $state(Array.from({ length: Math.max(0, (brief.modules?.count ?? 1) - 1) }, () => ''));
    const none = () => ({ fromS: '', fromL: '', width: '', height: '' });
    this.cutOuts = $state(Object.fromEntries((brief.cutOuts ?? []).map((name) => [name, none()])));
  }
}

function bySize<T>(of: () => T): Record<SizeName, T> {
  return Object.fromEntries(sizeNames.map((size) => [size, of()])) as Record<SizeName, T>;
}
