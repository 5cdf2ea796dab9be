/**
 * How a thrown line truly stood, in words.
 */

import type { Brief } from '../exercise/brief.ts';
import { sayLength } from '../recess/lengths.ts';
import { datumParts } from '../survey/act.ts';
import type { UncoveredRoom } from './uncovered-room.ts';

/** What leans less does not show in what is said, mm a metre. */
const leastLean = 0.05;

/** Says how a line truly stood: S by its turn, F by where it stood at the ends of the opening, half-way up; then how it leant. */
export function sayStood(plane: UncoveredRoom['lines'][number], brief: Pick<Brief, 'openingMm'>): string {
  const { kind } = datumParts(plane.datum);
  const leaning = kind === 'L' ? sayRise(plane) : sayLean(plane, kind);
  if (kind === 'L') return `${plane.datum} stood off the height that was carried to it${leaning}`;
  if (kind === 'S')
    return `${plane.datum} ran ${tenth(Math.abs(plane.ny / plane.nx) * 1000)} mm in a metre off square to the face line${leaning}`;
  const { width, height } = brief.openingMm;
  const end = (x: number) => {
    const y = (plane.c - plane.nx * x - plane.nz * (height / 2)) / plane.ny;
    return `${sayLength(Math.abs(y))} ${y < 0 ? 'in front of' : 'behind'} the true face line`;
  };
  return `${plane.datum} stood ${end(-width / 2)} at the left and ${end(width / 2)} at the right${leaning}`;
}

/** How an upright line leant, where a tenth of it shows over a metre. */
function sayLean(plane: UncoveredRoom['lines'][number], kind: 'F' | 'S'): string {
  const lean = (0 - plane.nz / (kind === 'F' ? plane.ny : plane.nx)) * 1000;
  if (Math.abs(lean) < leastLean) return '';
  const [one, other] = kind === 'F' ? ['into the recess', 'out into the room'] : ['to the right', 'to the left'];
  return `, and leant ${tenth(Math.abs(lean))} mm in a metre, its top ${lean > 0 ? one : other}`;
}

/** How a level line rose, on its steepest way. */
function sayRise(plane: UncoveredRoom['lines'][number]): string {
  const rise = (Math.sqrt(plane.nx * plane.nx + plane.ny * plane.ny) / Math.abs(plane.nz)) * 1000;
  return rise < leastLean ? '' : `, and rose ${tenth(rise)} mm in a metre on its steepest way`;
}

function tenth(mm: number): string {
  return String(Math.round(mm * 10) / 10);
}
