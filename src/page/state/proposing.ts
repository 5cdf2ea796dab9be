/**
 * What is sent to the workshop, put together from what was written: the carcass as it stands or as found, the frame, a
 * run's places from S, shelves, what is cut out of the back.
 */
import type { Brief } from '../../exercise/brief.ts';
import { readTo, sayWritten, spokenUnits, writtenLength } from '../../recess/lengths.ts';
import type { ActOf } from '../../survey/act.ts';
import type { SureLevel } from '../../survey/how-sure.ts';
import { boxSize, pieceOf, type SizeName, sizesOf, toBeFound } from '../../survey/size.ts';

/** A cut-out as it is written: its middle from S and from L, its size. */
export const cutOutParts = ['fromS', 'fromL', 'width', 'height'] as const;
export type CutOutPart = (typeof cutOutParts)[number];

/** Everything that was written, as text. */
export interface Written {
  readonly made: Readonly<Record<SizeName, string>>;
  /** How sure of each size; left out or empty where nothing is said. */
  readonly sure?: Readonly<Record<SizeName, SureLevel | ''>>;
  /** Where carcasses side by side meet, from S. */
  readonly joints: readonly string[];
  readonly cutOuts: Readonly<Record<string, Readonly<Record<CutOutPart, string>>>>;
}

export type Proposed =
  | { readonly ok: true; readonly act: ActOf<'propose'> }
  /** What is missing, in words. */
  | { readonly ok: false; readonly missing: readonly string[] };

/** Gives the size that is sent as it stands, as text; empty where it is to be found. */
export function asItStands(size: SizeName, brief: Brief): string {
  const mm = standingMm(size, brief);
  return mm === null ? '' : sayWritten(mm);
}

/** The size that is sent as it stands, mm; null where it is to be found. */
function standingMm(size: SizeName, brief: Brief): number | null {
  if (toBeFound(size, brief)) return null;
  if (size === 'slope-low') return brief.slope?.lowMm ?? null;
  if (size === 'slope-high') return brief.slope?.highMm ?? null;
  const box = boxSize(size);
  return box ? brief.carcassMm[box].nominalMm : null;
}

/** What is asked of the way in, by the brief: whether it is stood up, goes through the door, goes round the stair. */
export function questionsOf({ access }: Brief): readonly { readonly question: string; readonly asks: string }[] {
  if (!access) return [];
  const { door, turn, clearHeightMm } = access;
  return [
    { question: 'stand-up', asks: `It is stood up under ${sayWritten(clearHeightMm)}. Corner to corner, does it go?` },
    ...(door
      ? [
          {
            question: 'door',
            asks: `The narrowest door is ${sayWritten(door.widthMm)} × ${sayWritten(door.heightMm)}. Does it go through?`,
          },
        ]
      : []),
    ...(turn
      ? [
          {
            question: 'turn',
            asks: `The stair turns from ${sayWritten(turn.beforeMm)} to ${sayWritten(turn.afterMm)} wide, ${sayWritten(turn.heightMm)} high. Does it go round?`,
          },
        ]
      : []),
  ];
}

/** Gives where carcasses meet when they share what lies between the two ends evenly; null before both ends are written. */
export function evenJoints(brief: Brief, made: Written['made']): readonly number[] | null {
  const count = brief.modules?.count ?? 0;
  const [left, right] = [writtenLength(made['run-left']), writtenLength(made['run-right'])];
  if (left === null || right === null) return null;
  const wide = left + right;
  return Array.from({ length: count - 1 }, (_, i) => readTo(spokenUnits(), (wide * (i + 1)) / count - left));
}

/** Puts the proposal together, or says what is missing. */
export function proposalOf(brief: Brief, written: Written, says: (size: SizeName) => string): Proposed {
  const sizes = sizesOf(brief);
  const of = (size: SizeName) => standingMm(size, brief) ?? writtenLength(written.made[size]);
  const missing = sizes.filter((size) => !isSize(size, of(size))).map(says);
  const joints = written.joints.slice(0, Math.max(0, (brief.modules?.count ?? 1) - 1)).map(writtenLength);
  if (brief.modules && (joints.length < brief.modules.count - 1 || joints.includes(null)))
    missing.push('where the carcasses meet');
  const cutOuts = (brief.cutOuts ?? []).map((name) => cutOutOf(name, written));
  missing.push(
    ...(brief.cutOuts ?? [])
      .filter((_, i) => cutOuts[i] === null)
      .map((name) => `the cut-out for ${/\d$/.test(name) ? name : `the ${name}`}`),
  );
  if (missing.length > 0) return { ok: false, missing };
  const mm = (size: SizeName) => of(size) ?? 0;
  const sure = Object.fromEntries(
    sizes.flatMap((size) => {
      const level = toBeFound(size, brief) ? written.sure?.[size] : '';
      return level ? [[size, level]] : [];
    }),
  );
  const piece = pieceOf(brief);
  const box = {
    width: mm(`${piece}-width`),
    height: mm(`${piece}-height`),
    depth: mm(`${piece}-depth`),
    ...(brief.slope ? { slope: { low: mm('slope-low'), high: mm('slope-high') } } : {}),
  };
  return {
    ok: true,
    act: {
      act: 'propose',
      ...(sizes.includes(`${piece}-width`) ? { [piece === 'lining' ? 'liningMm' : 'carcassMm']: box } : {}),
      ...(brief.frame ? { frameMm: { width: mm('frame-width'), height: mm('frame-height') } } : {}),
      ...(brief.modules ? { runMm: [0 - mm('run-left'), ...(joints as number[]), mm('run-right')] } : {}),
      ...(brief.shelves ? { shelfMm: { depth: mm('shelf-depth') } } : {}),
      ...(cutOuts.length > 0 ? { cutOutsMm: cutOuts as NonNullable<(typeof cutOuts)[number]>[] } : {}),
      ...(Object.keys(sure).length > 0 ? { sure } : {}),
    },
  };
}

function isSize(size: SizeName, value: number | null): boolean {
  return value !== null && (value > 0 || size === 'run-left' || size === 'run-right');
}

function cutOutOf(name: string, { cutOuts }: Written) {
  const [fromS, fromL, width, height] = cutOutParts.map((part) => writtenLength(cutOuts[name]?.[part]));
  if (fromS == null || fromL == null || width == null || height == null || width <= 0 || height <= 0) return null;
  return { name, fromS, fromL, width, height };
}
