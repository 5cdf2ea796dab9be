/**
 * The three checks of a level on the practice wall: their steps in words, the marks of each, and what they come to.
 */
import { type Kit, levelLimits } from '../../exercise/kit.ts';
import { sayLength } from '../../recess/lengths.ts';
import { type CheckWay, checkWays, errorShown, practiceMm } from '../../survey/instrument-check.ts';
import type { LearnerView, SeenCheck } from '../../survey/learner-view.ts';
import { type CheckName, checkNames } from '../../survey/level-body.ts';

/** A check and the way it is made. */
export interface Routine {
  readonly check: CheckName;
  readonly of: CheckWay | null;
  readonly says: string;
}

/** Every check, each way, in the order of the job. */
export const routines: readonly Routine[] = checkNames.flatMap((check): Routine[] => {
  const ways: readonly CheckWay[] = checkWays[check];
  if (ways.length === 0) return [{ check, of: null, says: 'Square: F to S' }];
  const names = { fore: 'Level: front to back', side: 'Level: side to side', S: 'Plumb: S', F: 'Plumb: F' };
  return ways.map((of) => ({ check, of, says: names[of] }));
});

export interface Stage {
  readonly says: string;
  /** What is read there, in words; none where only the level is moved. */
  readonly reads: string | null;
}

const read = (mm: number | undefined) => sayLength(mm ?? 0);

/** Gives the steps of a routine, with what was read in each. */
export function stagesOf({ check, of }: Pick<Routine, 'check' | 'of'>, seen: readonly number[]): readonly Stage[] {
  const metres = (mm: number) => `${mm / 1000} m`;
  if (check === 'level') {
    const wall = of === 'side' ? 'its right side to wall B' : 'its front to wall B';
    return [
      {
        says: `Stand it close to wall A, ${wall}, ${metres(practiceMm.walls)} off. Mark where L falls on both walls.`,
        reads: `A at ${read(seen[0])}, B at ${read(seen[1])}`,
      },
      {
        says: 'Stand it close to wall B, turned round. Raise or lower it until L runs through the mark on B.',
        reads: `on B's mark, ${read(seen[2])}`,
      },
      { says: 'Mark wall A again, beside the first mark.', reads: `A now at ${read(seen[3])}` },
    ];
  }
  if (check === 'plumb')
    return [
      {
        says: `Two marks on the floor, before a doorway and behind it. Line ${of ?? 'S'} up through both, and mark the lintel, ${metres(practiceMm.height)} over them.`,
        reads: `lintel at ${read(seen[0])}`,
      },
      { says: 'Go through to the other side, and line up on the same two marks.', reads: null },
      { says: 'Mark the lintel again.', reads: `lintel now at ${read(seen[1])}` },
    ];
  return [
    {
      says: `Stand it over a cross on the floor. Turn F on to a mark ${metres(practiceMm.arm)} away.`,
      reads: `the mark at ${read(seen[0])}`,
    },
    { says: `Mark where S falls, ${metres(practiceMm.arm)} away on the other arm.`, reads: 'marked' },
    {
      says: 'Turn it a quarter, until F runs through that. S must fall on the first mark again.',
      reads: `S falls at ${read(seen[2])}`,
    },
  ];
}

export interface Sum {
  /** The two marks that are held against each other, and how far apart they lie. */
  readonly first: number;
  readonly again: number;
  readonly apartMm: number;
  readonly overMm: number;
  readonly errorMmPerM: number;
}

/** Works out what a routine shows: turned round, a level shows twice its error. */
export function sumOf(check: CheckName, seen: readonly number[]): Sum {
  const [first, again] =
    check === 'level' ? [seen[0], seen[3]] : check === 'plumb' ? [seen[0], seen[1]] : [seen[0], seen[2]];
  const overMm = { level: practiceMm.walls, plumb: practiceMm.height, square: practiceMm.arm }[check];
  const apartMm = Math.round(Math.abs((again ?? 0) - (first ?? 0)) * 10) / 10;
  const errorMmPerM = 0 + Math.round(errorShown(check, seen) * 100) / 100;
  return { first: first ?? 0, again: again ?? 0, apartMm, overMm, errorMmPerM };
}

/** Gives what is stated of a kit's levels for a check, mm a metre either way. */
export function statedFor(kit: Kit, check: CheckName): number {
  return levelLimits(kit)?.[check] ?? 0;
}

/** Whether a kit's levels can be out of true at all, so that there is something to check. */
export function canCheck(kit: Kit): boolean {
  return levelLimits(kit) !== null;
}

/** Gives the last going through a routine with a level that is still the one in use; null before. */
export function lastOf(view: Pick<LearnerView, 'instrument'>, routine: Routine, level: number): SeenCheck | null {
  const found = sinceSwap(view, level).filter(
    ({ act }) => act.check === routine.check && act.verdict === undefined && (act.of ?? null) === routine.of,
  );
  return found.at(-1) ?? null;
}

/** Gives the last verdict on a level by a check; null before. */
export function verdictOf(view: Pick<LearnerView, 'instrument'>, check: CheckName, level: number): SeenCheck | null {
  return (
    sinceSwap(view, level)
      .filter(({ act }) => act.check === check && act.verdict !== undefined)
      .at(-1) ?? null
  );
}

/** Says whether a level was put in the van, and the other taken out. */
export function isSwapped(view: Pick<LearnerView, 'instrument'>, level: number): boolean {
  return view.instrument.some((c) => c.swapped && (c.act.level ?? 1) === level);
}

/** Says whether every level has its verdict by every check. */
export function isChecked(view: Pick<LearnerView, 'instrument' | 'kit'>): boolean {
  const levels = Array.from({ length: view.kit.level.count }, (_, i) => i + 1);
  return levels.every((level) => checkNames.every((check) => verdictOf(view, check, level) !== null));
}

/** Checks of a level since it was swapped: those before were of another. */
function sinceSwap({ instrument }: Pick<LearnerView, 'instrument'>, level: number): readonly SeenCheck[] {
  const ours = instrument.filter((c) => (c.act.level ?? 1) === level);
  const swap = ours.map((c) => c.swapped).lastIndexOf(true);
  return ours.slice(swap + 1);
}
