/**
 * Severities: how far out of true a room is drawn. The first three are invented for teaching and meet no published limit;
 * the rest keep every surface inside the limits of a named document (`limits/`).
 */
import { dinFinished, dinHigher } from './limits/din-18202.ts';
import type { Limits } from './limits/limits.ts';
import { northAmerica } from './limits/north-america.ts';
import { uk2019, uk2020 } from './limits/uk-warranty.ts';

export interface Severity {
  readonly name: string;
  /** Multiplies every drawn defect. */
  readonly scale: number;
  /** Bound of the short-wave unevenness of each control value, mm. */
  readonly wobbleMm: number;
  readonly says: string;
  /** What the room is kept inside, once it is drawn. */
  readonly limits?: Limits;
}

/** In the order of the exercise code: only ever add at the end. At most as many as the code has signs. */
export const severities: readonly Severity[] = [
  {
    name: 'settled',
    scale: 1,
    wobbleMm: 0.6,
    says: 'a house that has settled a little (invented, no published limit)',
  },
  {
    name: 'old',
    scale: 1.6,
    wobbleMm: 1,
    says: 'an old house, plaster patched over the years (invented, no published limit)',
  },
  {
    name: 'stone',
    scale: 2.4,
    wobbleMm: 1.6,
    says: 'thick stone walls under lime plaster (invented, no published limit)',
  },
  {
    name: 'uk-2019',
    scale: 1,
    wobbleMm: 0.5,
    says: 'new-build inside the UK warranty standard: NHBC Standards 2019, chapter 9.1 (floors and ceilings of 2020)',
    limits: uk2019,
  },
  {
    name: 'uk-2020',
    scale: 1,
    wobbleMm: 0.5,
    says: 'new-build inside the UK warranty standard: NHBC Standards 2020, chapter 9.1',
    limits: uk2020,
  },
  {
    name: 'din-finished',
    scale: 1,
    wobbleMm: 0.5,
    says: 'finished surfaces inside DIN 18202 (2013-04; flatness as quoted of 1997): rows 6 and 3, angles, sizes',
    limits: dinFinished,
  },
  {
    name: 'din-higher',
    scale: 1,
    wobbleMm: 0.5,
    says: 'as din-finished, by the rows of higher demand: 7 and 4',
    limits: dinHigher,
  },
  {
    name: 'na-guideline',
    scale: 2,
    wobbleMm: 0.6,
    says: 'inside the North American guideline: NAHB, 3rd edition, for plumb; 10 TAC 304 (2005) for bows and floors',
    limits: northAmerica,
  },
];
