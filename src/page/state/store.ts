/**
 * What is kept on the device: each survey and, act by act, its log. Nothing leaves the device.
 *
 * An entry is safe when the transaction that holds it has been written through to the disk.
 */
import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import type { ExerciseName } from '../../exchange/exercise-file.ts';
import type { Entry } from '../../survey/survey.ts';
import type { Keeper } from './session.svelte.ts';

export interface KeptSurvey {
  readonly id: string;
  /** What stands for the exercise: its code, where there is one. */
  readonly exercise: ExerciseName;
  readonly lesson: string | null;
  readonly startedAt: number;
  readonly touchedAt: number;
  readonly acts: number;
  readonly handedIn: boolean;
}

interface Shelf extends DBSchema {
  surveys: { key: string; value: KeptSurvey };
  entries: { key: [string, number]; value: { survey: string; n: number; entry: Entry } };
}

export interface Store {
  surveys(): Promise<readonly KeptSurvey[]>;
  entries(id: string): Promise<readonly Entry[]>;
  begin(survey: KeptSurvey): Promise<void>;
  keeperOf(survey: KeptSurvey): Keeper;
  forget(id: string): Promise<void>;
}

/** Opens the device's store; null where the device refuses one: then the work goes on and a file keeps it. */
export async function openStore(): Promise<Store | null> {
  try {
    const db = await openDB<Shelf>('offtrue', 1, {
      upgrade(fresh) {
        fresh.createObjectStore('surveys', { keyPath: 'id' });
        fresh.createObjectStore('entries', { keyPath: ['survey', 'n'] });
      },
    });
    return storeOn(db);
  } catch {
    return null;
  }
}

/** Keeps nothing, and says so at each act. */
export const noKeeper: Keeper = { keep: () => Promise.reject(new Error('no storage')) };

function storeOn(db: IDBPDatabase<Shelf>): Store {
  return {
    surveys: async () => (await db.getAll('surveys')).sort((a, b) => b.touchedAt - a.touchedAt),
    entries: async (id) => {
      const range = IDBKeyRange.bound([id, 0], [id, Number.MAX_SAFE_INTEGER]);
      return (await db.getAll('entries', range)).map((row) => row.entry);
    },
    begin: async (survey) => {
      await db.put('surveys', survey);
    },
    keeperOf: (survey) => keeper(db, survey),
    forget: async (id) => {
      const tx = db.transaction(['surveys', 'entries'], 'readwrite');
      await tx.objectStore('surveys').delete(id);
      await tx.objectStore('entries').delete(IDBKeyRange.bound([id, 0], [id, Number.MAX_SAFE_INTEGER]));
      await tx.done;
    },
  };
}

/** Keeps entries in the order in which they came, each written through before it counts as safe. */
function keeper(db: IDBPDatabase<Shelf>, survey: KeptSurvey): Keeper {
  let before: Promise<void> = Promise.resolve();
  const write = async (entry: Entry) => {
    const tx = db.transaction(['surveys', 'entries'], 'readwrite', { durability: 'strict' });
    await tx.objectStore('entries').put({ survey: survey.id, n: entry.n, entry });
    const done = entry.act.act === 'hand-in' && entry.outcome.ok;
    const { handedIn } = (await tx.objectStore('surveys').get(survey.id)) ?? survey;
    await tx
      .objectStore('surveys')
      .put({ ...survey, touchedAt: Date.now(), acts: entry.n, handedIn: handedIn || done });
    await tx.done;
  };
  return {
    keep: (entry) => {
      const mine = before.then(() => write(entry));
      before = mine.catch(() => undefined);
      return mine;
    },
  };
}
