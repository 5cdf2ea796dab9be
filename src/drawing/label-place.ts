/**
 * Places for labels: each wish names where it would stand, best first; none ever stands on another or off the panel.
 *
 * Text is not measured but reckoned, a little wide, so that a layout is the same wherever it is made.
 */
import type { Box, Label } from './item.ts';

export type Where = readonly [x: number, y: number, anchor?: Label['anchor']];

export interface Wish {
  readonly label: Omit<Label, 'x' | 'y' | 'anchor'>;
  /** Where it may stand, best first; a flag by its middle, words by the line they stand on. */
  readonly at: readonly Where[];
  /** Left out, sooner than stand on what is drawn there. */
  readonly optional?: true;
}

export interface Around {
  readonly panel: Box;
  /** What is drawn and had better stay clear. */
  readonly clear: readonly Box[];
}

/** Half a flag's height, px. */
export const flagPx = 9;

/** Places labels one after the other; a wish that finds no place is left out. */
export function placeLabels(wishes: readonly Wish[], around: Around): readonly Label[] {
  const placed: Label[] = [];
  const taken: Box[] = [];
  for (const wish of wishes) {
    const label = placeOne(wish, { ...around, taken });
    if (!label) continue;
    placed.push(label);
    taken.push(labelBox(label));
  }
  return placed;
}

/** Gives the box that a label fills, px. */
export function labelBox(label: Label): Box {
  const { x, y, anchor, role } = label;
  const width = labelWidth(label.text, role);
  const left = anchor === 'middle' ? x - width / 2 : anchor === 'end' ? x - width : x;
  if (role === 'flag') return { x: left, y: y - 4.5 - flagPx - 1, width, height: 2 * flagPx + 2 };
  if (role === 'caption') return { x: left, y: y - 16, width, height: 22 };
  return { x: left, y: y - 11, width, height: 14 };
}

/** Reckons the width of a label's text, px. */
export function labelWidth(text: string, role: Label['role']): number {
  if (role === 'flag') return text.length > 1 ? 26 : 20;
  const size = role === 'caption' ? 14 : 12;
  let ems = 0;
  for (const sign of text) ems += emsOf(sign);
  return ems * size + 2;
}

/** Says whether two boxes share any px. */
export function overlap(a: Box, b: Box): boolean {
  return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
}

function placeOne(wish: Wish, around: Around & { taken: readonly Box[] }): Label | null {
  let second: Label | null = null;
  for (const [x, y, anchor] of wish.at) {
    const label: Label = { ...wish.label, x, y, anchor: anchor ?? 'middle' };
    const box = labelBox(label);
    if (!within(box, around.panel) || around.taken.some((t) => overlap(t, box))) continue;
    if (!around.clear.some((c) => overlap(c, box))) return label;
    second ??= label;
  }
  return wish.optional ? null : second;
}

function within(box: Box, panel: Box): boolean {
  return (
    box.x >= panel.x &&
    box.y >= panel.y &&
    box.x + box.width <= panel.x + panel.width &&
    box.y + box.height <= panel.y + panel.height
  );
}

/** A sign's width in ems of a plain face, a little wide. */
function emsOf(sign: string): number {
  if ("iljtfrI.,:;'| ".includes(sign)) return 0.34;
  if ('mwMW'.includes(sign)) return 0.88;
  if (sign >= 'A' && sign <= 'Z') return 0.72;
  return 0.57;
}
