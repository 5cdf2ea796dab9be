/**
 * Pens: which ink, width and dash each stroke of a drawing has. No line is told from another by colour alone.
 */

/** Inks by what they are for; the page gives them their colours. */
export const inks = [
  'ink',
  'soft',
  'graphite',
  'hand',
  'edge',
  'hatch',
  'paper',
  'sheet',
  'wood',
  'F',
  'S',
  'L',
] as const;
export type Ink = (typeof inks)[number];

export interface Pen {
  /** No ink: filled only. */
  readonly ink: Ink | null;
  /** px */
  readonly width: number;
  /** On, off, on, off, ... px along the path. */
  readonly dash?: readonly number[];
  /** Round dots of the pen's width, so many px apart, instead of a line. */
  readonly dotsPx?: number;
  readonly fill?: Ink;
  /** Soft light under a thrown line; where more contrast is wanted it turns into a halo of paper. */
  readonly glow?: true;
}

/** How strong and how wide the light under a thrown line is, and the halo that stands for it where more contrast is asked. */
export const glowAlpha = 0.13;
export const glowPx = 9;
export const haloPx = 6;

const glow = { width: glowPx, glow: true } as const;

export const pens = {
  hatch: { ink: 'hatch', width: 1.1 },
  cut: { ink: 'ink', width: 1.75 },
  seen: { ink: 'ink', width: 1 },
  trim: { ink: 'soft', width: 0.75 },
  /** A trim that comes off. */
  'trim-off': { ink: 'soft', width: 0.9, dash: [1.5, 3] },
  /** A trim that stands higher than the cut. */
  overhead: { ink: 'soft', width: 0.75, dash: [7, 4] },
  /** Where a drawing is cut off: there is no wall. */
  break: { ink: 'soft', width: 0.9 },
  reference: { ink: 'soft', width: 1 },
  dim: { ink: 'edge', width: 0.75 },
  'F-light': { ink: 'F', ...glow },
  'S-light': { ink: 'S', ...glow },
  'L-light': { ink: 'L', ...glow },
  F: { ink: 'F', width: 3 },
  S: { ink: 'S', width: 2.25, dash: [10, 5] },
  L: { ink: 'L', width: 2.25, dash: [11, 4, 2, 4] },
  /** One of the two lines of a later set-up. */
  'F-double': { ink: 'F', width: 1.25 },
  'S-double': { ink: 'S', width: 1.25, dash: [10, 5] },
  'L-double': { ink: 'L', width: 1.25, dash: [11, 4, 2, 4] },
  /** A datum that is thrown no more. */
  datum: { ink: 'ink', width: 1.75, dotsPx: 5 },
  'F-flag': { ink: 'F', width: 1.75, fill: 'sheet' },
  'S-flag': { ink: 'S', width: 1.75, fill: 'sheet' },
  'L-flag': { ink: 'L', width: 1.75, fill: 'sheet' },
  mark: { ink: 'graphite', width: 1.5 },
  ring: { ink: 'hand', width: 2 },
  /** Where a pointer is, in the other views. */
  cursor: { ink: 'hand', width: 1.25 },
  link: { ink: 'hand', width: 1, dotsPx: 4 },
  read: { ink: 'graphite', width: 1, fill: 'graphite' },
  unread: { ink: 'graphite', width: 1, fill: 'paper' },
  rule: { ink: 'ink', width: 1, fill: 'wood' },
  'rule-leg': { ink: 'ink', width: 1 },
  tripod: { ink: 'ink', width: 1 },
  foot: { ink: 'graphite', width: 1, fill: 'graphite' },
  dial: { ink: 'ink', width: 1, fill: 'paper' },
  body: { ink: 'ink', width: 1.5, fill: 'sheet' },
  ghost: { ink: 'hand', width: 1.25, dash: [3, 3] },
  /** Points to a level that stands further out than a view shows. */
  pointer: { ink: 'ink', width: 1.25 },
} as const satisfies Record<string, Pen>;

export type StrokeName = keyof typeof pens;

/** Gives a stroke's pen. */
export function penOf(stroke: StrokeName): Pen {
  return pens[stroke];
}
