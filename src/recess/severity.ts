/**
 * Severities: how far out of true a room is drawn. These three are invented for teaching and meet no published limit.
 */
export interface Severity {
  readonly name: string;
  /** Multiplies every drawn defect. */
  readonly scale: number;
  /** Bound of the short-wave unevenness of each control value, mm. */
  readonly wobbleMm: number;
  readonly says: string;
}

/** In the order of the exercise code: only ever add at the end. */
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
];
