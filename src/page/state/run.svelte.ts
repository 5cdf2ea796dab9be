/**
 * A run: datum, side and places are named once, then the loupe steps through them; each place is an act of its own.
 */
import { sayWritten } from '../../recess/lengths.ts';
import type { Side } from '../../recess/recess-spec.ts';
import { datumName, type SurfacePlace, saidKey } from '../../survey/act.ts';
import type { LearnerView, SeenReading } from '../../survey/learner-view.ts';
import { refusalCodes } from '../../survey/outcome.ts';
import { pencilLines, thrownOf } from './datums.ts';
import type { Session } from './session.svelte.ts';
import { isWithin, placeAt, type RunKind, runKindsOf, type Stop, suggestedStops } from './stops.ts';

export interface RunPlace {
  readonly row: number;
  readonly column: number;
  readonly place: SurfacePlace;
}

export class Run {
  #session: Session;
  /** What can be read here. */
  readonly kinds: readonly RunKind[];
  #chosen: RunKind;
  /** The datum that was chosen; nothing, the one of the level in hand. */
  #from: string;
  /** The rule is put on the wall by its other end: its numbers run down towards the line. */
  farEnd: boolean;
  rows: readonly Stop[];
  columns: readonly Stop[];
  row: number;
  column: number;
  /** The reading that is being judged; null when none is held. */
  held: SeenReading | null;
  /** Why the last hold was refused, in words. */
  refusal: string;
  /** Whether the last hold was refused because the rule does not reach. */
  tooFar: boolean;
  /** Whether a figure is being booked and the next place looked for. */
  busy: boolean;
  /** Places that could not be held: a run passes them by. */
  #passedBy = new Set<string>();

  constructor(session: Session) {
    this.#session = session;
    this.kinds = runKindsOf(session.view);
    const first = this.kinds[0];
    if (!first) throw new RangeError('run: there is nothing to read');
    this.#chosen = $state.raw(first);
    this.#from = $state('');
    this.farEnd = $state(false);
    this.rows = $state.raw([]);
    this.columns = $state.raw([]);
    this.row = $state(0);
    this.column = $state(0);
    this.held = $state.raw(null);
    this.refusal = $state('');
    this.tooFar = $state(false);
    this.busy = $state(false);
    this.choose(first.key);
  }

  get kind(): 'F' | 'S' | 'L' {
    return this.#chosen.kind;
  }

  /** Which of its kinds is chosen. */
  get key(): string {
    return this.#chosen.key;
  }

  get surface(): Side {
    return this.#chosen.surface;
  }

  /** Whether the rule goes from the edges of boxes: then its places are named, not numbered. */
  get ofBoxes(): boolean {
    return this.#chosen.boxes !== undefined;
  }

  /** Datums that it can be read from: those of levels that stand, then pencil lines. */
  get datums(): readonly string[] {
    const { view } = this.#session;
    const drawn = pencilLines(view).filter((l) => l.kind === this.kind);
    return [...thrownOf(view, this.kind), ...drawn.map((l) => l.datum)];
  }

  /** The datum that was chosen, else as it is thrown now: F, S, L or those of a later set-up. */
  get datum(): string {
    const { datums } = this;
    const chosen = datums.includes(this.#from) ? this.#from : datums[0];
    return chosen ?? datumName(this.kind, this.#session.view.level?.setUp ?? 1);
  }

  /** Whether there is something to read from. */
  get thrown(): boolean {
    return this.datums.includes(this.datum);
  }

  /** Chooses which of the datums is read from. */
  readFrom(datum: string): void {
    this.#from = datum;
    this.held = null;
    this.refusal = '';
    this.#passedBy.clear();
  }

  get places(): readonly RunPlace[] {
    const all = this.rows.flatMap((_, row) =>
      this.columns.map((_, column) => ({ row, column, place: this.placeAt(row, column) })),
    );
    return all.filter((p) => isWithin(this.#session.view.outline, p.place));
  }

  get current(): SurfacePlace {
    return this.placeAt(this.row, this.column);
  }

  /** Says where the loupe stands, as on the sheet. */
  get where(): string {
    return [this.rows[this.row]?.name, this.columns[this.column]?.name].filter((s) => s).join(', ');
  }

  /** Takes up another kind of run, with the stops that the brief suggests. */
  choose(key: string): void {
    const kind = this.kinds.find((k) => k.key === key);
    if (!kind) return;
    const { rows, columns } = suggestedStops(this.#session.view, kind);
    this.#chosen = kind;
    this.rows = rows;
    this.columns = columns;
    this.row = 0;
    this.column = 0;
    this.held = null;
    this.refusal = '';
  }

  /** Lays out a run that was planned elsewhere. */
  layOut(plan: { surface: Side; rows: readonly (number | 'F')[]; columns: readonly (number | 'F')[] }): void {
    this.choose(plan.surface);
    const named = (at: number | 'F'): Stop => ({ name: at === 'F' ? 'front' : `at ${sayWritten(at)}`, at });
    this.setStops(plan.rows.map(named), plan.columns.map(named));
  }

  /** Moves a row's or column's stop, or adds one; stops stay in order. */
  setStops(rows: readonly Stop[], columns: readonly Stop[]): void {
    this.rows = [...rows];
    this.columns = [...columns];
    this.row = Math.min(this.row, rows.length - 1);
    this.column = Math.min(this.column, columns.length - 1);
    this.held = null;
  }

  /** Holds the rule at a place: an act. */
  async hold(row: number, column: number): Promise<boolean> {
    this.row = row;
    this.column = column;
    this.held = null;
    this.refusal = '';
    const end = this.farEnd ? ({ end: 'far' } as const) : {};
    const entry = await this.#session.act({ act: 'read', datum: this.datum, place: this.current, ...end });
    if (entry.outcome.ok) {
      this.held = this.#session.view.readings.find((r) => r.n === entry.n) ?? null;
      return true;
    }
    this.#passedBy.add(saidKey(this.current));
    this.tooFar = entry.outcome.error.code === 'rule/too-short';
    const by = entry.outcome.error.by;
    this.refusal = `${refusalCodes[entry.outcome.error.code]}${by ? `: ${by}` : ''}`;
    this.#session.say(`${this.where}: ${this.refusal}.`);
    return false;
  }

  /** Books what was judged of the reading in hand, and holds the rule at the next place that has no figure. */
  async book(valueMm: number): Promise<void> {
    if (!this.held) return;
    const { n, datum, place } = this.held;
    this.busy = true;
    await this.#session.act({ act: 'book', what: 'offset', valueMm, datum, place, reading: n });
    this.#session.say(`${this.where}: ${sayWritten(valueMm)} booked, from ${datum}.`);
    this.held = null;
    await this.holdNext();
    this.busy = false;
  }

  /** Holds the rule at the next place without a figure; none is left, nothing is held. */
  async holdNext(): Promise<void> {
    const open = this.places.filter((p) => !this.isBooked(p.place) && !this.#passedBy.has(saidKey(p.place)));
    const here = this.row * this.columns.length + this.column;
    const after = open.find((p) => p.row * this.columns.length + p.column >= here) ?? open[0];
    if (!after) {
      this.held = null;
      const some = this.places.some((p) => this.isBooked(p.place));
      this.#session.say(
        some
          ? 'Every place of this run that can be read has its figure.'
          : 'No place of this run can be read from where the level stands.',
      );
      return;
    }
    const held = await this.hold(after.row, after.column);
    // A place that cannot be held is told and passed by, so that a run is not stopped by a cornice.
    if (!held && this.thrown) await this.#passOn();
  }

  async #passOn(): Promise<void> {
    const told = this.refusal;
    const where = this.where;
    await this.holdNext();
    if (this.held) this.#session.say(`Passed by ${where}: ${told}. Now ${this.where}.`);
  }

  /** Says whether a place has a live figure from this kind of datum. */
  isBooked(place: SurfacePlace): boolean {
    return bookedAt(this.#session.view, place) !== null;
  }

  placeAt(row: number, column: number): SurfacePlace {
    return placeAt(this.#chosen, this.rows[row]?.at ?? 0, this.columns[column]?.at ?? 0);
  }
}

/** Gives the live figure at a place; null when there is none. */
export function bookedAt(view: LearnerView, place: SurfacePlace): { n: number; valueMm: number } | null {
  const key = saidKey(place);
  const found = view.bookings.filter((b) => !b.struck && b.said.what === 'offset' && saidKey(b.said.place) === key);
  const last = found.at(-1);
  return last ? { n: last.n, valueMm: last.said.valueMm } : null;
}
