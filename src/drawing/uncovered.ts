/**
 * The true room uncovered: how far each surface is out, drawn out by a stated factor beside its straight outline. px.
 *
 * Along a surface the drawing is to scale; across it, only how far it departs from straight is, times the factor. What
 * lies between two surfaces is drawn as near as the panel allows.
 */

import type { PlacedCarcass } from '../marking/carcass-fit.ts';
import type { TightPlace } from '../marking/tight-places.ts';
import type { UncoveredRoom } from '../marking/uncovered-room.ts';
import { sayRoughly } from '../recess/lengths.ts';
import type { Place } from '../recess/recess.ts';
import type { Side, SlopeSpec } from '../recess/recess-spec.ts';
import { type SidesOf, sideName } from '../recess/side-words.ts';
import type { Rectangle, Words } from './fit-playback.ts';
import type { Ring } from './ring-letters.ts';
import { layoutBackSection } from './uncovered-back.ts';
import { layoutFlatsSection } from './uncovered-flats.ts';
import { layoutSlopeSection } from './uncovered-slope.ts';
import { layoutWallsSection } from './uncovered-walls.ts';

export const sectionNames = ['walls', 'back', 'flats', 'slope'] as const;
export type SectionName = (typeof sectionNames)[number];

/** Names a section by what the trade calls its sides: `Side walls`, `Jambs`. */
export function sayEverySide(of: SidesOf, section: SectionName): string {
  const jambs = of.family === 'reveal' || of.family === 'doorway';
  if (section === 'walls') return jambs ? 'Jambs' : 'Side walls';
  const names = sectionSides[section].map((side) => sideName(of, side)).join(' and ');
  return `${names.charAt(0).toUpperCase()}${names.slice(1)}`;
}

/** Which sides a section shows. */
export const sectionSides: Readonly<Record<SectionName, readonly Side[]>> = {
  walls: ['left', 'right'],
  back: ['back'],
  flats: ['floor', 'ceiling'],
  slope: ['slope'],
};

/** Gives the sections that a room has something to show in. */
export function sectionsOf(room: UncoveredRoom): readonly SectionName[] {
  const there = new Set([...room.walls, ...room.others].map((c) => c.side));
  return sectionNames.filter((name) => sectionSides[name].some((side) => there.has(side)));
}

/** A section through a surface; which of those that are shown: at the face line and the back, or left to right. */
export interface DrawnCurve {
  readonly d: string;
  readonly pen: 'front' | 'back' | 'left' | 'middle' | 'right';
  /** Across which axis it is drawn out, and where it would lie if it were straight, px. */
  readonly across: 'x' | 'y';
  readonly straightPx: number;
}

export interface UncoveredLayout {
  readonly width: number;
  readonly height: number;
  readonly factor: number;
  /** Closed shapes of what is solid, to hatch. */
  readonly solid: readonly string[];
  /** The straight outline, dotted. */
  readonly straight: readonly string[];
  /** Where the drawing ends: floor and ceiling of a section that runs up. */
  readonly ends: readonly string[];
  readonly curves: readonly DrawnCurve[];
  /** The carcass as sent; null where none was sent. */
  readonly box: Rectangle | null;
  /** Closed shapes where the carcass would have to pass through a wall. */
  readonly through: readonly string[];
  readonly readings: readonly { readonly x: number; readonly y: number; readonly back: boolean }[];
  readonly rings: readonly Ring[];
  /** Places that decide a size and were not read. */
  readonly decided: readonly { readonly x: number; readonly y: number }[];
  readonly names: readonly Words[];
  /** Places of the drawn curves, by their surface's own true coordinates: what a pointer is nearest to. */
  readonly places: readonly DrawnPlace[];
}

/** A place of a curve, and where it is drawn, px. */
export interface DrawnPlace {
  readonly side: Side;
  readonly u: number;
  readonly v: number;
  readonly x: number;
  readonly y: number;
}

/** Gives the drawn place that a point of the panel is nearest to; null where none is within reach. */
export function placeNear(layout: Pick<UncoveredLayout, 'places'>, at: { x: number; y: number }): DrawnPlace | null {
  let best: DrawnPlace | null = null;
  let bestOff = reachPx * reachPx;
  for (const p of layout.places) {
    const off = (p.x - at.x) * (p.x - at.x) + (p.y - at.y) * (p.y - at.y);
    if (off < bestOff) {
      best = p;
      bestOff = off;
    }
  }
  return best;
}

/** How far off a curve a pointer may be and still mean it, px. */
const reachPx = 40;

/** What is uncovered. */
export interface Uncovering {
  readonly room: UncoveredRoom;
  /** The carcass as sent, at home; null where none was sent. */
  readonly carcass: PlacedCarcass | null;
  readonly plinthMm: number;
  readonly tight: readonly TightPlace[];
  readonly decided: readonly { readonly side: Side; readonly at: Place }[];
  /** How far staying trims hang under the straight ceiling, mm. */
  readonly dropsMm: readonly number[];
  /** The slope's plane, where there is one. */
  readonly slope?: { readonly spec: SlopeSpec; readonly widthMm: number } | null;
}

/** Lays a section out in a panel. */
export function layoutUncovered(
  of: Uncovering,
  section: SectionName,
  panel: { width: number; height: number },
): UncoveredLayout {
  if (section === 'slope') return layoutSlopeSection(of, panel);
  if (section === 'back') return layoutBackSection(of, panel);
  return section === 'flats' ? layoutFlatsSection(of, panel) : layoutWallsSection(of, panel);
}

/** A section's departures from straight as a table: a row a place, a column a curve; mm, + into the recess. */
export interface OutTable {
  readonly head: readonly string[];
  readonly rows: readonly { readonly name: string; readonly outMm: readonly number[] }[];
}

const tableShares = [0, 0.25, 0.5, 0.75, 1];

/** Gives how far the surfaces of a section are out, at five places along. */
export function outTable(room: UncoveredRoom, section: SectionName, of: SidesOf): OutTable {
  const curves = [...room.walls, ...room.others].filter((c) => sectionSides[section].includes(c.side));
  const first = curves[0];
  if (!first) return { head: [], rows: [] };
  return {
    head: curves.map((c) => `${sideName(of, c.side)}, ${section === 'back' ? acrossWord(c.atMm) : depthWord(c.atMm)}`),
    rows: tableShares.map((share) => {
      const i = Math.round(share * (first.alongMm.length - 1));
      const along = first.alongMm[i] ?? 0;
      const name = section === 'flats' || section === 'slope' ? acrossWord(along) : `${sayRoughly(along)} up`;
      return { name, outMm: curves.map((c) => inward(c.side, (c.acrossMm[i] ?? c.straightMm) - c.straightMm)) };
    }),
  };
}

function inward(side: Side, out: number): number {
  return side === 'left' || side === 'floor' ? out : 0 - out;
}

function depthWord(y: number): string {
  return y === 0 ? 'face line' : 'back';
}

function acrossWord(x: number): string {
  return Math.abs(x) < 1 ? 'middle' : `${sayRoughly(Math.abs(x))} ${x < 0 ? 'left' : 'right'}`;
}
