/**
 * The sizes that a survey is for, and the right rule for each.
 *
 * A rule takes offsets from one datum: the tightest on each side for a carcass, which must go in; the widest at the
 * face line for a frame, which is scribed. It gives a size in terms of offsets, before anything asked is taken off.
 */

import { type Brief, finishOn } from '../exercise/brief.ts';
import { lineUnder } from '../geometry/hull-line.ts';
import { graduationMm, type Units } from '../recess/lengths.ts';
import type { Side } from '../recess/recess-spec.ts';

/** In the order of the sheet: only ever add at the end. */
export const sizeNames = [
  'carcass-width',
  'carcass-height',
  'carcass-depth',
  'frame-width',
  'frame-height',
  'run-left',
  'run-right',
  'shelf-depth',
  'lining-width',
  'lining-height',
  'lining-depth',
  'slope-low',
  'slope-high',
] as const;
export type SizeName = (typeof sizeNames)[number];

/** Which sides a size takes offsets to, from which datum, and which offset of a side counts. */
export interface SizeRule {
  readonly sides: readonly Side[];
  readonly datum: 'F' | 'S' | 'L';
  readonly counts: 'least' | 'most';
}

export const sizeRules: Readonly<Record<SizeName, SizeRule>> = {
  'carcass-width': { sides: ['left', 'right'], datum: 'S', counts: 'least' },
  'carcass-height': { sides: ['floor', 'ceiling'], datum: 'L', counts: 'least' },
  'carcass-depth': { sides: ['back'], datum: 'F', counts: 'least' },
  'frame-width': { sides: ['left', 'right'], datum: 'S', counts: 'most' },
  'frame-height': { sides: ['floor', 'ceiling'], datum: 'L', counts: 'most' },
  'run-left': { sides: ['left'], datum: 'S', counts: 'least' },
  'run-right': { sides: ['right'], datum: 'S', counts: 'least' },
  'shelf-depth': { sides: ['back'], datum: 'F', counts: 'most' },
  'lining-width': { sides: ['left', 'right'], datum: 'S', counts: 'least' },
  'lining-height': { sides: ['floor', 'ceiling'], datum: 'L', counts: 'least' },
  'lining-depth': { sides: ['back'], datum: 'F', counts: 'most' },
  'slope-low': { sides: ['floor', 'slope'], datum: 'L', counts: 'least' },
  'slope-high': { sides: ['floor', 'slope'], datum: 'L', counts: 'least' },
};

/** One offset, put to a side. */
export interface Term {
  readonly side: Side;
  readonly valueMm: number;
  /** Where it lies along the face line: of an offset to a slope. */
  readonly xMm?: number;
}

/** Where a sloped edge lies along the face line: the carcass's low and high edge, and the middle of its sloped part. */
export interface SlopeEdge {
  readonly lowMm: number;
  readonly highMm: number;
  readonly middleMm: number;
}

/**
 * Works the right rule. A slope's is the line under all its offsets that stands highest at the middle of the sloped part.
 *
 * @param edge - for a size of a sloped edge: where it lies, in the frame of the terms' `xMm`
 * @returns mm in terms of offsets, and the index of the term that counts on each side; `null` when a side has none
 */
export function rightRule(
  size: SizeName,
  terms: readonly Term[],
  edge: SlopeEdge | null = null,
): { readonly valueMm: number; readonly counting: readonly number[] } | null {
  const rule = sizeRules[size];
  let valueMm = 0;
  const counting: number[] = [];
  for (const side of rule.sides) {
    if (side === 'slope') {
      const line = edge && lineAlong(terms, edge);
      if (!line) return null;
      counting.push(...line.on);
      valueMm += line.z + line.pitch * ((size === 'slope-low' ? edge.lowMm : edge.highMm) - edge.middleMm);
      continue;
    }
    const at = extremeOf(terms, side, rule.counts);
    if (at === null) return null;
    counting.push(at);
    valueMm += (terms[at] as Term).valueMm;
  }
  return { valueMm, counting };
}

/**
 * Gives what lies between a size that is made and the same size in terms of offsets, mm: offsets = made + this.
 *
 * A carcass or a lining: what is asked, and what is under or in front of it. A frame: less the least stock at both
 * edges; a lining's depth: less the least stock at its far edge. A finish to come is in all: it is not there yet when the
 * offsets are read.
 */
export function offsetsOverMade(size: SizeName, brief: Brief): number {
  return sizeRules[size].sides.reduce((sum, side) => sum + finishOn(brief, side), askedOver(size, brief));
}

function askedOver(size: SizeName, brief: Brief): number {
  const ask = brief.askMm;
  switch (size) {
    case 'carcass-width':
    case 'lining-width':
      return ask.left + ask.right;
    case 'carcass-height':
    case 'lining-height':
    case 'slope-low':
    case 'slope-high':
      return brief.plinthMm + ask.top;
    case 'carcass-depth':
      return (brief.setBackMm ?? 0) + brief.carcassFrontMm + ask.back;
    case 'run-left':
      return ask.left;
    case 'run-right':
      return ask.right;
    case 'shelf-depth':
      return 0 - (brief.shelves?.leastStockMm ?? 0);
    case 'lining-depth':
      return brief.carcassFrontMm - (brief.lining?.leastStockMm ?? 0);
    default:
      return -2 * (brief.frame?.leastStockMm ?? 0);
  }
}

/** Says whether a size is of a piece that is scribed to the bare wall, notched round what stays. */
export function meetsBare(size: SizeName): boolean {
  return size.startsWith('frame') || size === 'shelf-depth' || size === 'lining-depth';
}

/** Gives the sizes that a brief asks for: the carcass's unless shelves or a lining take its place, the frame's where there is one. */
export function sizesOf(brief: Brief): readonly SizeName[] {
  return sizeNames.filter((size) => {
    if (size.startsWith('carcass')) return brief.shelves === undefined && brief.lining === undefined;
    if (size.startsWith('lining')) return brief.lining !== undefined;
    if (size.startsWith('frame')) return brief.frame !== null;
    if (size.startsWith('slope')) return brief.slope !== undefined;
    return size === 'shelf-depth' ? brief.shelves !== undefined : brief.modules !== undefined;
  });
}

/** What is put into the opening: a carcass, or a lining. */
export type Piece = 'carcass' | 'lining';

/** Gives what a brief has put into the opening. */
export function pieceOf(brief: Pick<Brief, 'lining'>): Piece {
  return brief.lining ? 'lining' : 'carcass';
}

/** Says whether a size is to be found; one that is not is made as it stands. */
export function toBeFound(size: SizeName, brief: Brief): boolean {
  const box = boxSize(size);
  if (size === 'slope-low' || size === 'slope-high') return brief.slope?.find ?? false;
  return box ? brief.carcassMm[box].find : sizesOf(brief).includes(size);
}

/** Gives which size of the carcass or the lining a size is; null for one of another piece. */
export function boxSize(size: SizeName): 'width' | 'height' | 'depth' | null {
  switch (size) {
    case 'carcass-width':
    case 'lining-width':
      return 'width';
    case 'carcass-height':
    case 'lining-height':
      return 'height';
    case 'carcass-depth':
    case 'lining-depth':
      return 'depth';
    default:
      return null;
  }
}

/** Rounds a size for the workshop, to half a graduation: a carcass down, a frame up. */
export function forWorkshop(size: SizeName, mm: number, units: Units = 'mm'): number {
  const half = units === 'mm' ? 0.5 : graduationMm(units) / 2;
  const halves = mm / half;
  // Inches are no round mm: what lies on a graduation to a millionth stays there.
  const slack = units === 'mm' ? 0 : 1e-6;
  return (sizeRules[size].counts === 'least' ? Math.floor(halves + slack) : Math.ceil(halves - slack)) * half;
}

/** The line under the offsets to a slope; its places are named as they stand among all terms. */
function lineAlong(terms: readonly Term[], edge: SlopeEdge) {
  const among = terms.flatMap(({ side, valueMm, xMm }, i) =>
    side === 'slope' && xMm !== undefined ? [{ i, x: xMm, z: valueMm }] : [],
  );
  const line = lineUnder(among, edge.middleMm);
  return line && { ...line, on: line.on.map((k) => (among[k] as { i: number }).i) };
}

function extremeOf(terms: readonly Term[], side: Side, counts: 'least' | 'most'): number | null {
  let best: number | null = null;
  terms.forEach((term, i) => {
    if (term.side !== side) return;
    const before = best === null ? null : (terms[best] as Term).valueMm;
    if (before === null || (counts === 'least' ? term.valueMm < before : term.valueMm > before)) best = i;
  });
  return best;
}
