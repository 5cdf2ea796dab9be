/**
 * The tight places of a carcass, one a side, by letters that stay the same wherever they are shown.
 */
import type { Brief } from '../exercise/brief.ts';
import type { Place } from '../recess/recess.ts';
import type { Side } from '../recess/recess-spec.ts';
import type { CarcassKey } from './answer-key.ts';
import { type Clearances, type ClearSide, clearSides } from './carcass-fit.ts';

export interface TightPlace {
  readonly letter: 'a' | 'b' | 'c' | 'd';
  readonly side: ClearSide;
  readonly surface: Side;
  readonly at: Place;
  /** < 0 where the carcass would run into the surface. */
  readonly clearanceMm: number;
  readonly askedMm: number;
  /** Whether it touches there, or would run in. */
  readonly touches: boolean;
}

/** At or under this the carcass is said to touch, mm: what is shown as 0.0. */
const touchMm = 0.05;

/** Further off than this there is nothing: an open side's field lies 16 m away, mm. */
const nothingThereMm = 5000;

const letters = { left: 'a', right: 'b', top: 'c', back: 'd' } as const;

/** Gives the tight places where a carcass stands. */
export function tightPlaces(clear: Clearances, brief: Brief): readonly TightPlace[] {
  return clearSides
    .filter((side) => clear[side].mm < nothingThereMm)
    .map((side) => tight(side, { ...clear[side], askedMm: brief.askMm[side] }));
}

/** Gives the tight places of a carcass as it would stand at home. */
export function tightAtHome(carcass: CarcassKey, brief: Brief): readonly TightPlace[] {
  const there = carcass.tightest.filter(({ clearanceMm }) => clearanceMm < nothingThereMm);
  return there.map(({ side, atMm: [x, y, z], clearanceMm, on }) =>
    tight(side, {
      mm: clearanceMm,
      at: { x, y, z },
      on: on ?? (side === 'top' ? 'ceiling' : side),
      askedMm: brief.askMm[side],
    }),
  );
}

function tight(side: ClearSide, of: { mm: number; at: Place; on: Side; askedMm: number }): TightPlace {
  return {
    letter: letters[side],
    side,
    surface: of.on,
    at: of.at,
    clearanceMm: of.mm,
    askedMm: of.askedMm,
    touches: of.mm <= touchMm,
  };
}
