/**
 * Kinds of recess and severities, as the first screen offers them: names as in a code, and words. Held to the families by
 * a test, for the families themselves come only when a room is opened.
 */

export interface Choice {
  readonly name: string;
  readonly says: string;
}

export const kinds: readonly Choice[] = [
  { name: 'alcove', says: 'Alcove beside a breast' },
  { name: 'alcove-pair', says: 'Pair of alcoves' },
  { name: 'run', says: 'Run from wall to wall' },
  { name: 'reveal', says: 'Window reveal' },
  { name: 'doorway', says: 'Door opening' },
  { name: 'under-stair', says: 'Space under a stair' },
  { name: 'roof-slope', says: 'Space under a roof slope' },
  { name: 'plain-wall', says: 'Plain wall' },
];

export const houses: readonly Choice[] = [
  { name: 'settled', says: 'a settled house' },
  { name: 'old', says: 'an old house' },
  { name: 'stone', says: 'a stone house' },
];

export const helps: readonly Choice[] = [
  { name: 'guided', says: 'the rule is read for you' },
  { name: 'site', says: 'you read the rule' },
  { name: 'faulty', says: 'check the level first' },
  { name: 'two-levels', says: 'two levels, a door may slam' },
  { name: 'inches-guided', says: 'in inches, the rule is read for you' },
  { name: 'inches', says: 'in inches, you read the rule' },
];
