/**
 * A session: one survey on the page. Panels read its view and send acts; each act is kept before it is shown as done.
 */
import type { BayNumber } from '../../exercise/bays.ts';
import type { Act } from '../../survey/act.ts';
import type { LearnerView } from '../../survey/learner-view.ts';
import type { Entry } from '../../survey/survey.ts';
import type { SurveyCore } from './core.ts';

/** Keeps entries on the device; resolves when they are safe, rejects when the device refuses. */
export interface Keeper {
  keep(entry: Entry): Promise<void>;
}

export type Kept = 'kept' | 'keeping' | 'not-kept';

export class Session {
  #core: SurveyCore;
  #keeper: Keeper;
  view: LearnerView;
  /** The recess of a pair that is looked at. */
  #bay: BayNumber;
  /** Whether what was done is safe on this device. */
  kept: Kept;
  /** The last act and what it led to; panels and the live region tell it. */
  last: Entry | null;
  /** One line for the live region and the foot. */
  message: string;

  constructor(core: SurveyCore, keeper: Keeper) {
    this.#core = core;
    this.#keeper = keeper;
    this.#bay = $state(1);
    this.view = $state.raw(core.view());
    this.kept = $state<Kept>('kept');
    this.last = $state.raw(null);
    this.message = $state('');
  }

  /** Acts. The entry is on the device before this resolves; a device that refuses is said in `kept`. */
  async act(act: Act): Promise<Entry> {
    const entry = this.#core.act(act, this.#bay);
    this.kept = 'keeping';
    try {
      await this.#keeper.keep(entry);
      this.kept = 'kept';
    } catch {
      this.kept = 'not-kept';
    }
    this.view = this.#core.view(this.#bay);
    this.last = entry;
    return entry;
  }

  get bay(): BayNumber {
    return this.#bay;
  }

  /** The other recess of a pair, while nothing is proposed for it; null else. */
  get waitsFor(): BayNumber | null {
    const other = this.#core.bays.find((bay) => bay !== this.#bay);
    return other !== undefined && this.#core.view(other).proposal === null ? other : null;
  }

  /** Turns to a recess of a pair. */
  turnTo(bay: BayNumber): void {
    this.#bay = bay;
    this.view = this.#core.view(bay);
  }

  /** Says one line to the learner. */
  say(message: string): void {
    this.message = message;
  }

  get core(): Pick<SurveyCore, 'bays' | 'entries' | 'report' | 'uncovered' | 'wouldRead' | 'compareWith'> {
    return this.#core;
  }
}
