/**
 * M20 to M23: a figure that is written down against another side or another line than it was read from. Each is undone on
 * the sheet, and costs what that changes.
 */

import type { Plane } from '../../geometry/plane.ts';
import { sayLength } from '../../recess/lengths.ts';
import type { Side } from '../../recess/recess-spec.ts';
import { sideName } from '../../recess/side-words.ts';
import { datumParts, type SurfacePlace } from '../../survey/act.ts';
import { baseDatum, broughtOver, carriedStep, handPlace, samePlace } from '../../survey/offsets.ts';
import { rightRule, type SizeName, sizeRules } from '../../survey/size.ts';
import type { Reading } from '../../survey/survey.ts';
import type { Word } from '../ledger-story.ts';
import { placeWithinMm } from '../offset-chain.ts';
import { byReading, byTape } from './catching.ts';
import type { Evidence, Figure } from './evidence.ts';
import { type Found, type Mistake, nothingMm } from './mistake.ts';

/** A figure is of a reading when it is this near to what was seen, mm. */
const sameMm = 3;
/** A step that is written the wrong way has its length right within this, mm. */
const stepMm = 6;

export const sidesSwapped: Mistake = {
  id: 'M20',
  name: 'left and right swapped',
  find: (from) => {
    const swapped = (f: Figure) => {
      const read = namedBy(from, f);
      return read?.side && read.side !== f.side && isWall(read.side) && isWall(f.side) && isOf(f, read) ? read : null;
    };
    const found = undone(from, swapped, (f, read) => ({ side: read.side ?? f.side, valueMm: f.valueMm }));
    if (!found || !['left', 'right'].every((side) => found.wrong.some((f) => f.side === side))) return null;
    const { worst } = found;
    const name = (side: Side) => sideName(from.survey.world.exercise.spec, side);
    return {
      ...found.cost,
      caught: byReading(from, found.size, worst.offset.said.place as SurfacePlace),
      happened: ['Figures of the left wall stand on the right, and the other way about.'],
      did: [
        'You booked ',
        his(worst.offset.said.valueMm),
        ` for the ${name(worst.side)}; it was read on the ${name(swapped(worst)?.side ?? worst.side)}.`,
      ],
      next: ['Say the side aloud as you stand facing the work, and draw the arrow before the number.'],
    };
  },
};

export const wrongSign: Mistake = {
  id: 'M21',
  name: 'step carried the wrong way',
  find: (from) => {
    const wrong = from.survey.carries.filter(({ said }) => {
      const step = trueStep(from, said.from, said.to);
      return step !== null && step * said.stepMm < 0 && Math.abs(Math.abs(step) - Math.abs(said.stepMm)) <= stepMm;
    });
    const turned = (f: Figure) =>
      f.overMm !== 0 && wrong.some(({ said }) => [said.from, said.to].includes(f.offset.datum));
    const found = undone(
      from,
      (f) => (turned(f) ? f : null),
      (f) => ({ side: f.side, valueMm: f.valueMm - 2 * f.overMm }),
    );
    const [carry] = wrong;
    if (!found || !carry) return null;
    return {
      ...found.cost,
      acts: [carry.n],
      caught: tapedAcross(from, found.size),
      happened: ['The step between two lines was put on where it had to come off.'],
      did: [`You carried ${carry.said.from} to ${carry.said.to} with `, his(carry.said.stepMm), '.'],
      next: ['+ when the new line lies right of, behind or above the old one. Close with a tape across both.'],
    };
  },
};

export const mixedLines: Mistake = {
  id: 'M22',
  name: 'two lines booked as one',
  find: (from) => {
    const other = (f: Figure) => {
      const read = namedBy(from, f);
      return read &&
        read.side === f.side &&
        read.datum !== f.offset.datum &&
        sameKind(read.datum, f.offset.datum) &&
        isOf(f, read)
        ? read
        : null;
    };
    const found = undone(from, other, (f, read) => ({
      side: f.side,
      valueMm: f.valueMm + broughtOver(f.side, trueStep(from, read.datum, f.offset.datum) ?? 0),
    }));
    if (!found) return null;
    const { worst } = found;
    return {
      ...found.cost,
      caught: tapedAcross(from, found.size),
      happened: [
        'Figures from two lines stand on the sheet as if they were from one. The step between the lines is in the size.',
      ],
      did: [
        'You booked ',
        his(worst.offset.said.valueMm),
        ` from ${worst.offset.datum}; it was read from ${other(worst)?.datum}.`,
      ],
      next: ['Write the line beside each figure. A new set-up has a new line, with a number of its own.'],
    };
  },
};

export const stepNotBooked: Mistake = {
  id: 'M23',
  name: 'step not booked',
  find: (from) => {
    const base = (f: Figure) => baseOf(from, f);
    const loose = (f: Figure) => {
      const to = base(f);
      return to !== null && to !== f.offset.datum && !carriedStep(from.survey, f.offset.datum, to) ? to : null;
    };
    const found = undone(from, loose, (f, to) => ({
      side: f.side,
      valueMm: f.valueMm + broughtOver(f.side, trueStep(from, f.offset.datum, to) ?? 0),
    }));
    if (!found) return null;
    const { worst } = found;
    return {
      ...found.cost,
      caught: tapedAcross(from, found.size),
      happened: ['Figures from two set-ups went into one sum, and the step between their lines did not.'],
      did: [`You booked no step from ${worst.offset.datum} to ${base(worst)}.`],
      next: ['Read one place from both lines, book the step, and close with a tape across both.'],
    };
  },
};

interface Undone {
  readonly size: SizeName;
  readonly wrong: readonly Figure[];
  readonly worst: Figure;
  readonly cost: Pick<Found, 'costMm' | 'sizes' | 'acts'>;
}

/** Undoes what is wrong on the sheet and finds what that changes; null where there is none, or it changes nothing. */
function undone<T>(
  from: Evidence,
  isWrong: (f: Figure) => T | null,
  shouldBe: (f: Figure, because: T) => { side: Figure['side']; valueMm: number },
): Undone | null {
  const costs = from.sizes.flatMap((size, i) => {
    const figures = from.figures(size);
    const wrong = figures.filter((f) => isWrong(f) !== null);
    const as = rightRule(size, figures);
    const right = rightRule(
      size,
      figures.map((f) => {
        const because = isWrong(f);
        return because === null ? f : shouldBe(f, because);
      }),
    );
    const mm = as && right ? Math.abs(as.valueMm - right.valueMm) : 0;
    return wrong.length > 0 && mm > nothingMm ? [{ size, i, wrong, mm }] : [];
  });
  const sorted = [...costs].sort((a, b) => b.mm - a.mm || a.i - b.i);
  const [most] = sorted;
  if (!most) return null;
  const counting = from.ledger(most.size).counting;
  const worst = most.wrong.find((f) => counting.includes(f.n)) ?? most.wrong[0];
  const acts = costs.flatMap((c) => c.wrong.map((f) => f.n));
  return worst
    ? { size: most.size, wrong: most.wrong, worst, cost: { costMm: most.mm, sizes: sorted.map((c) => c.size), acts } }
    : null;
}

/** The reading that a figure says it is of, whatever its side and line. */
function namedBy(from: Evidence, f: Figure): Reading | null {
  if (f.reading) return null;
  const named = from.survey.readings.find((r) => r.n === f.offset.said.reading);
  if (!named || !('surface' in named.said)) return null;
  return samePlace(handPlace(from.survey, named.said), f.offset.at, placeWithinMm) ? named : null;
}

function isOf(f: Figure, read: Reading): boolean {
  return Math.abs(f.offset.said.valueMm - (read.edgesMm[0] + read.edgesMm[1]) / 2) <= sameMm;
}

function isWall(side: string): boolean {
  return side === 'left' || side === 'right';
}

function sameKind(a: string, b: string): boolean {
  return datumParts(a).kind === datumParts(b).kind;
}

/** How far a line truly stands right of, behind or above another, on the face line; null where one was never thrown. */
function trueStep(from: Evidence, datum: string, to: string): number | null {
  const { planes } = from.survey;
  const [one, other] = [planes[datum], planes[to]];
  const { kind } = datumParts(datum);
  return one && other ? at(one, kind) - at(other, kind) : null;
}

function at(plane: Plane, kind: 'F' | 'S' | 'L'): number {
  if (kind === 'L') return plane.c;
  return kind === 'S' ? plane.c / plane.nx : plane.c / plane.ny;
}

/** The earliest line of a figure's kind that its size was read from, or that one of these is carried to. */
function baseOf(from: Evidence, f: Figure): string | null {
  const sizes = from.sizes.filter((size) => from.figures(size).some((g) => g.n === f.n));
  const datums = sizes.flatMap((size) => from.figures(size).map((g) => g.offset.datum));
  return baseDatum(from.survey, datums);
}

/** A tape across the size, at a figure of its first side. */
function tapedAcross(from: Evidence, size: SizeName) {
  const [side, to] = sizeRules[size].sides;
  if (!side || !to || to === 'back' || to === 'slope') return null;
  for (const f of from.figures(size)) {
    const { place } = f.offset.said;
    if (f.side !== side || !('surface' in place) || place.along !== undefined) continue;
    const caught = byTape(from, place, to);
    if (caught) return caught;
  }
  return null;
}

function his(mm: number): Word {
  return { his: sayLength(mm) };
}
