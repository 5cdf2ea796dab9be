/**
 * The desk: which screen is open, which survey lies on it, and what is kept on the device.
 */
import type { Lesson } from '../../course/lesson.ts';
import type { BayNumber } from '../../exercise/bays.ts';
import type { Exercise } from '../../exercise/exercise.ts';
import type { Comparison } from '../../marking/compare.ts';
import type { SizeSure } from '../../marking/how-sure.ts';
import type { Entry } from '../../survey/survey.ts';
import type { OnDesk } from './laying.svelte.ts';
import { type KeptSurvey, noKeeper, openStore, type Store } from './store.ts';

export type Screen = 'start' | 'work' | 'handed-in' | 'lesson' | 'own';

/** What needs the room and the rule comes when it is wanted. */
const laying = () => import('./laying.svelte.ts');

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

  /** Opens a fresh room, an alcove if nothing else is asked for, with the level standing and its lines thrown. */
  async openFresh(of: { family?: string; severity?: string; kit?: string } = {}): Promise<void> {
    const { freshCode } = await laying();
    await this.openCode(freshCode(of.kit ?? 'guided', of.severity, of.family), { standing: true });
  }

  /** Opens a code; a survey of it that is not handed in goes on where it stopped. */
  async openCode(code: string, how: { standing?: boolean; anew?: boolean } = {}): Promise<void> {
    const { exerciseOfCode, standingStart } = await laying();
    const found = exerciseOfCode(code);
    if (!found.ok) {
      this.refusal = `That is not a code: ${found.error.says}.`;
      return;
    }
    const same = this.shelf.find((s) => s.exercise === found.value.code && !s.handedIn);
    if (same && !how.anew) return this.goOn(same.id);
    await this.#begin(found.value, { before: how.standing ? standingStart(found.value) : [] });
  }

  /** Goes on with a kept survey at its last act. */
  async goOn(id: string): Promise<void> {
    const { takeExercise, loadLesson } = await laying();
    const kept = this.shelf.find((s) => s.id === id);
    const exercise = kept ? takeExercise(kept.exercise, 'survey') : null;
    if (!kept || !exercise?.ok || !this.#store) {
      this.refusal = 'That survey is not on this device any more.';
      return;
    }
    const lesson = kept.lesson ? await loadLesson(kept.lesson) : null;
    await this.#lay(kept, exercise.value, { entries: await this.#store.entries(id), safe: true, lesson });
  }

  /** Opens a survey that was read from a file, and keeps it. */
  async openEntries(exercise: Exercise, entries: readonly Entry[]): Promise<void> {
    await this.#begin(exercise, { before: entries });
  }

  /** Opens an exercise anew, the level standing. */
  async openExercise(exercise: Exercise): Promise<void> {
    const { standingStart } = await laying();
    await this.#begin(exercise, { before: standingStart(exercise) });
  }

  /** Opens the exercise that a link carries; a survey of it that is not handed in goes on where it stopped. */
  async openLink(signs: string): Promise<void> {
    const { nameOf, readLink } = await laying();
    const read = await readLink(signs);
    if (!read.ok) {
      this.toStart();
      this.refusal = `That link cannot be opened: ${read.says}.`;
      return;
    }
    const name = JSON.stringify(nameOf(read.value));
    const same = this.shelf.find((s) => !s.handedIn && JSON.stringify(s.exercise) === name);
    if (same) return this.goOn(same.id);
    await this.openExercise(read.value);
  }

  /** Opens one of a lesson's rooms, drawn afresh each time. */
  async openLesson(lesson: Lesson): Promise<void> {
    const { exerciseOfCode, narrowed, standingStart } = await laying();
    const { pool, find, standing } = lesson.header;
    const draw = crypto.getRandomValues(new Uint32Array(1))[0] ?? 0;
    const found = exerciseOfCode(pool[draw % pool.length] ?? '');
    if (!found.ok) {
      this.refusal = `The lesson names a room that cannot be opened: ${found.error.says}.`;
      return;
    }
    const exercise = find ? narrowed(found.value, find) : found.value;
    await this.#begin(exercise, { before: standing ? standingStart(exercise) : [], lesson });
  }

  /** Turns to a recess of the pair on the desk. */
  async turnTo(bay: BayNumber): Promise<void> {
    const { turnedTo } = await laying();
    if (this.open) this.open = turnedTo(this.open, bay);
  }

  /** Shows what became of the survey on the desk. */
  showHandedIn(): void {
    this.screen = 'handed-in';
    void this.refresh();
  }

  /** Other attempts at the room on the desk that were handed in and are kept here, the last touched first. */
  get othersOfRoom(): readonly KeptSurvey[] {
    const here = this.open?.kept;
    if (!here) return [];
    const name = JSON.stringify(here.exercise);
    return this.shelf.filter((s) => s.handedIn && s.id !== here.id && JSON.stringify(s.exercise) === name);
  }

  /** Holds the survey on the desk against a kept one, or against a log's text; says why where it cannot be. */
  async compareWith(other: { id: string } | { text: string }): Promise<Comparison | string> {
    const { open } = this;
    const store = this.#store;
    if (!open) return 'No survey is open.';
    const { entriesOfLog } = await import('./files.ts');
    const read = 'text' in other ? entriesOfLog(other.text, open.exercise) : await store?.entries(other.id);
    if (read === undefined) return 'That survey is not on this device any more.';
    if (typeof read === 'string') return read;
    return open.session.core.compareWith(read) ?? 'That survey is not handed in.';
  }

  /** How sure the learner was over all attempts on this device; the one on the desk counts where nothing is kept. */
  async sureOverAll(): Promise<{ attempts: number; sure: readonly SizeSure[] }> {
    const here = this.open?.session.core.report()?.howSure ?? [];
    if (!this.#store) return { attempts: 1, sure: here };
    const { sureOverAll } = await import('./attempts.ts');
    await this.refresh();
    const store = this.#store;
    return sureOverAll(this.shelf, (id) => store.entries(id));
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

  async #begin(exercise: Exercise, how: { before: readonly Entry[]; lesson?: Lesson }): Promise<void> {
    const { nameOf } = await laying();
    const now = Date.now();
    const kept: KeptSurvey = {
      id: crypto.randomUUID(),
      exercise: nameOf(exercise),
      lesson: how.lesson?.name ?? null,
      startedAt: now,
      touchedAt: now,
      acts: how.before.length,
      handedIn: false,
    };
    let safe = this.#store !== null;
    const notSafe = () => {
      safe = false;
    };
    await this.#store?.begin(kept).catch(notSafe);
    const keeper = this.#store?.keeperOf(kept) ?? noKeeper;
    for (const entry of how.before) await keeper.keep(entry).catch(notSafe);
    await this.#lay(kept, exercise, { entries: how.before, safe, lesson: how.lesson ?? null });
    void this.refresh();
  }

  async #lay(
    kept: KeptSurvey,
    exercise: Exercise,
    from: { entries: readonly Entry[]; safe: boolean; lesson: Lesson | null },
  ): Promise<void> {
    const { layOut, speakIn, unitsOf } = await laying();
    speakIn(unitsOf(exercise.kit), 'whole');
    const keeper = this.#store?.keeperOf(kept) ?? noKeeper;
    this.open = layOut(kept, exercise, { ...from, keeper });
    this.refusal = '';
    this.screen = this.open.session.view.handedIn ? 'handed-in' : 'work';
  }
}
