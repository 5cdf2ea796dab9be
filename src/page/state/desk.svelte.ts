/**
 * The desk: which screen is open, which survey lies on it, and what is kept on the device.
 */
import type { Exercise } from '../../exercise/exercise.ts';
import type { Entry } from '../../survey/survey.ts';
import { openCore } from './core.ts';
import { exerciseOfCode, freshCode, standingStart } from './opening.ts';
import { Results } from './results.svelte.ts';
import { Run } from './run.svelte.ts';
import { Session } from './session.svelte.ts';
import { type KeptSurvey, noKeeper, openStore, type Store } from './store.ts';

export type Screen = 'start' | 'work' | 'handed-in' | 'lesson';

/** A survey on the desk. */
export interface OnDesk {
  readonly kept: KeptSurvey;
  readonly session: Session;
  readonly run: Run;
  readonly results: Results;
}

export class Desk {
  #store: Store | null = null;
  ready: boolean;
  screen: Screen;
  /** Surveys kept on this device, the last touched first. */
  shelf: readonly KeptSurvey[];
  open: OnDesk | null;
  lesson: string | null;
  /** Why something could not be opened. */
  refusal: string;
  stores: boolean;

  constructor() {
    this.ready = $state(false);
    this.screen = $state('start');
    this.shelf = $state.raw([]);
    this.open = $state.raw(null);
    this.lesson = $state(null);
    this.refusal = $state('');
    this.stores = $state(true);
  }

  /** Opens the device's store; without one the work goes on, and the page says that a file must keep it. */
  async wake(): Promise<void> {
    this.#store = await openStore();
    this.stores = this.#store !== null;
    await this.refresh();
    this.ready = true;
  }

  async refresh(): Promise<void> {
    this.shelf = this.#store ? await this.#store.surveys().catch(() => []) : [];
  }

  /** Opens a fresh alcove with the level standing and its lines thrown. */
  async openFresh(kit = 'guided'): Promise<void> {
    await this.openCode(freshCode(kit), { standing: true });
  }

  /** Opens a code; a survey of it that is not handed in goes on where it stopped. */
  async openCode(code: string, how: { standing?: boolean; anew?: boolean; lesson?: string } = {}): Promise<void> {
    const found = exerciseOfCode(code);
    if (!found.ok) {
      this.refusal = `That is not a code: ${found.error.says}.`;
      return;
    }
    const same = this.shelf.find((s) => s.exercise === found.value.code && !s.handedIn);
    if (same && !how.anew) return this.goOn(same.id);
    await this.#begin(found.value, { ...how, before: how.standing ? standingStart(found.value) : [] });
  }

  /** Goes on with a kept survey at its last act. */
  async goOn(id: string): Promise<void> {
    const kept = this.shelf.find((s) => s.id === id);
    const exercise = kept && (typeof kept.exercise === 'string' ? exerciseOf(kept.exercise) : kept.exercise);
    if (!kept || !exercise || !this.#store) {
      this.refusal = 'That survey is not on this device any more.';
      return;
    }
    this.#lay(kept, exercise, await this.#store.entries(id));
  }

  /** Opens a survey that was read from a file, and keeps it. */
  async openEntries(exercise: Exercise, entries: readonly Entry[]): Promise<void> {
    await this.#begin(exercise, { before: entries });
  }

  /** Opens an exercise that no code stands for. */
  async openExercise(exercise: Exercise, how: { standing?: boolean; lesson?: string } = {}): Promise<void> {
    await this.#begin(exercise, { ...how, before: how.standing ? standingStart(exercise) : [] });
  }

  /** Shows what became of the survey on the desk. */
  showHandedIn(): void {
    this.screen = 'handed-in';
    void this.refresh();
  }

  toStart(): void {
    this.screen = 'start';
    this.open = null;
    this.refusal = '';
    void this.refresh();
  }

  async forget(id: string): Promise<void> {
    await this.#store?.forget(id);
    await this.refresh();
  }

  async #begin(exercise: Exercise, how: { before: readonly Entry[]; lesson?: string }): Promise<void> {
    const now = Date.now();
    const kept: KeptSurvey = {
      id: crypto.randomUUID(),
      exercise: exercise.code ?? exercise,
      lesson: how.lesson ?? null,
      startedAt: now,
      touchedAt: now,
      acts: how.before.length,
      handedIn: false,
    };
    await this.#store?.begin(kept).catch(() => undefined);
    const keeper = this.#store?.keeperOf(kept) ?? noKeeper;
    let safe = this.#store !== null;
    for (const entry of how.before)
      await keeper.keep(entry).catch(() => {
        safe = false;
      });
    this.#lay(kept, exercise, how.before, safe);
    void this.refresh();
  }

  #lay(kept: KeptSurvey, exercise: Exercise, before: readonly Entry[], safe = true): void {
    const session = new Session(openCore(exercise, before), this.#store?.keeperOf(kept) ?? noKeeper);
    if (!safe) session.kept = 'not-kept';
    this.open = { kept, session, run: new Run(session), results: new Results() };
    this.refusal = '';
    this.screen = session.view.handedIn ? 'handed-in' : 'work';
  }
}

function exerciseOf(code: string): Exercise | null {
  const found = exerciseOfCode(code);
  return found.ok ? found.value : null;
}
