/**
 * The field sheet as a drawing: datums dotted, readings against arrows, struck ones kept. Units px, y down, 360 wide.
 *
 * Widths stand left and right of S, one line a height and depth; heights up and down from L and depths back from F stand
 * in bands of columns.
 */
import type { Outline } from '../exercise/outline.ts';
import { sayWritten, spokenUnits } from '../recess/lengths.ts';
import type { Side } from '../recess/recess-spec.ts';
import { datumParts, type SurfacePlace, saidKey } from '../survey/act.ts';
import type { LearnerView } from '../survey/learner-view.ts';
import type { Booking } from '../survey/survey.ts';
import { layoutBoxes } from './box-sheet.ts';
import { topAt } from './outline-shape.ts';

export const sheetNames = ['widths', 'heights', 'depths', 'boxes'] as const;
export type SheetName = (typeof sheetNames)[number];

export interface SheetFigure {
  readonly booking: number;
  readonly text: string;
  readonly x: number;
  readonly y: number;
  readonly struck: boolean;
  readonly check: boolean;
}

export interface SheetText {
  readonly text: string;
  readonly x: number;
  readonly y: number;
  readonly anchor: 'start' | 'middle' | 'end';
  readonly small: boolean;
}

export interface SheetLayout {
  readonly width: number;
  readonly height: number;
  readonly dotted: readonly string[];
  readonly outline: readonly string[];
  readonly arrows: readonly { readonly path: string; readonly now: boolean }[];
  readonly flags: readonly { readonly x: number; readonly y: number; readonly datum: string }[];
  readonly figures: readonly SheetFigure[];
  readonly texts: readonly SheetText[];
  /** Where the figure in hand will stand. */
  readonly slot: { readonly x: number; readonly y: number } | null;
}

/** A place that a sheet has a slot for: booked or in hand. */
export interface Slot {
  readonly place: SurfacePlace;
  readonly bookings: readonly Booking[];
  readonly now: boolean;
}

const width = 360;
/** How far apart two figures of one place stand on the sheet of widths, px. */
const acrossPx = 56;
const surfacesOf: Record<SheetName, readonly Side[]> = {
  widths: ['left', 'right'],
  heights: ['floor', 'ceiling', 'slope'],
  depths: ['back'],
  boxes: ['left', 'right', 'back'],
};

/** Names the sheet that a place is booked on. */
export function sheetOf(place: SurfacePlace): SheetName {
  if (place.edge !== undefined) return 'boxes';
  if (place.surface === 'left' || place.surface === 'right') return 'widths';
  return place.surface === 'back' ? 'depths' : 'heights';
}

/** Gives the sheets that a survey can have: widths where there is a side wall, boxes where the back is cut for some. */
export function sheetsOf({ outline, brief }: Pick<LearnerView, 'outline' | 'brief'>): readonly SheetName[] {
  return sheetNames.filter((name) => {
    if (name === 'boxes') return brief.cutOuts !== undefined;
    return surfacesOf[name].some((side) => !outline.open.includes(side));
  });
}

/** Lays out one sheet; `now` is the place in hand, `planned` are places of the run without a figure yet. */
export function layoutSheet(
  view: Pick<LearnerView, 'bookings' | 'outline'> & Partial<Pick<LearnerView, 'level'>>,
  sheet: SheetName,
  hand: { now: SurfacePlace | null; planned: readonly SurfacePlace[] },
): SheetLayout {
  const slots = slotsOf(view, sheet, hand);
  if (sheet === 'boxes') {
    const datums = { S: datumOfSlots(slots, 'S'), L: datumOfSlots(slots, 'L') };
    return layoutBoxes(slots, { width, levelMm: view.level?.at.z ?? 0, datums, figures: figuresOf });
  }
  return sheet === 'widths' ? layoutWidths(slots) : layoutBands(slots, sheet, view.outline);
}

function slotsOf(
  view: Pick<LearnerView, 'bookings'>,
  sheet: SheetName,
  hand: { now: SurfacePlace | null; planned: readonly SurfacePlace[] },
): Slot[] {
  const found = new Map<string, { place: SurfacePlace; bookings: Booking[] }>();
  const add = (place: SurfacePlace, booking: Booking | null) => {
    if (!surfacesOf[sheet].includes(place.surface) || (place.edge !== undefined) !== (sheet === 'boxes')) return;
    const key = saidKey(place);
    const slot = found.get(key) ?? { place, bookings: [] };
    if (booking) slot.bookings.push(booking);
    found.set(key, slot);
  };
  for (const b of view.bookings) if (b.said.what === 'offset' && 'surface' in b.said.place) add(b.said.place, b);
  for (const place of hand.planned) add(place, null);
  if (hand.now) add(hand.now, null);
  const nowKey = hand.now ? saidKey(hand.now) : '';
  return [...found.entries()].map(([key, slot]) => ({ ...slot, now: key === nowKey }));
}

function layoutWidths(slots: readonly Slot[]): SheetLayout {
  const lines = rowsOf(
    slots,
    (p) => p.zMm ?? 0,
    (p) => depthOf(p),
    'falling',
  );
  const rowHeight = lines.length > 16 ? 22 : 28;
  const top = 30;
  // A height and a depth in inches are fractions: they take more.
  const left = spokenUnits() === 'mm' ? 72 : 112;
  const right = 352;
  const middle = (left + right) / 2;
  const bottom = top + lines.reduce((sum, l) => sum + rowHeight + (l.first ? 8 : 0), 0) + 8;
  const texts: SheetText[] = [];
  const figures: SheetFigure[] = [];
  const arrows: SheetLayout['arrows'][number][] = [];
  let slotAt: SheetLayout['slot'] = null;
  let y = top;
  for (const line of lines) {
    y += rowHeight + (line.first ? 8 : 0);
    if (line.first) texts.push({ text: sayWritten(Number(line.group)), x: 4, y: y - 6, anchor: 'start', small: false });
    texts.push({
      text: line.sub === 'f' ? 'F' : sayWritten(Number(line.sub)),
      x: left - 10,
      y: y - 6,
      anchor: 'end',
      small: true,
    });
    for (const slot of line.slots) {
      const toLeft = slot.place.surface === 'left';
      const from = toLeft ? middle - 5 : middle + 5;
      const to = toLeft ? left + 3 : right - 3;
      const back = toLeft ? 7 : -7;
      arrows.push({ path: `M${from} ${y}H${to}m${back} -3.5l${-back} 3.5l${back} 3.5`, now: slot.now });
      const x = (from + to) / 2;
      figures.push(...figuresOf(slot, { x, y: y - 5, across: acrossPx }));
      if (slot.now) slotAt = { x, y: y - 5 };
    }
  }
  const wobble = `M${left} ${top - 6}C${left - 1.2} ${top + 50} ${left + 1} ${bottom - 60} ${left} ${bottom}M${right} ${top - 6}c1.4 60 -1.2 ${bottom - top - 60} 0 ${bottom - top + 6}M${left - 2} ${top - 5}C${left + 80} ${top - 6.5} ${left + 200} ${top - 4} ${right + 2} ${top - 5.5}M${left - 2} ${bottom}C${left + 90} ${bottom + 1.5} ${left + 190} ${bottom - 0.5} ${right + 2} ${bottom + 0.5}`;
  return {
    width,
    height: bottom + 12,
    dotted: [`M${middle} ${top - 6}V${bottom + 8}`],
    outline: [wobble],
    arrows,
    flags: [{ x: middle, y: 10, datum: datumOfSlots(slots, 'S') }],
    figures,
    texts,
    slot: slotAt,
  };
}

/** Heights and depths: a band for each depth or height, a column for each place along. */
function layoutBands(slots: readonly Slot[], sheet: 'heights' | 'depths', outline: Outline): SheetLayout {
  const up = sheet === 'heights';
  const bandOf = (p: SurfacePlace) => (up ? depthOf(p) : String(p.zMm ?? 0));
  const bands = [...new Set(slots.map((s) => bandOf(s.place)))].sort(up ? byDepth : (a, b) => Number(b) - Number(a));
  const bandHeight = up ? 112 : 72;
  const texts: SheetText[] = [];
  const figures: SheetFigure[] = [];
  const arrows: SheetLayout['arrows'][number][] = [];
  const dotted: string[] = [];
  const sloped: string[] = [];
  const flags: SheetLayout['flags'][number][] = [];
  let slotAt: SheetLayout['slot'] = null;
  bands.forEach((band, i) => {
    const own = slots.filter((s) => bandOf(s.place) === band);
    const line = 8 + i * bandHeight + (up ? bandHeight / 2 : bandHeight - 14);
    dotted.push(`M64 ${line}H340`);
    flags.push({ x: 350, y: line, datum: datumOfSlots(own, up ? 'L' : 'F') });
    texts.push({
      text: up ? sayDepth(band) : `${sayWritten(Number(band))} up`,
      x: 4,
      y: line + 4,
      anchor: 'start',
      small: false,
    });
    const columns = [...new Set(own.map((s) => s.place.xMm ?? 0))].sort((a, b) => a - b);
    // The names of the last column end before the line's flag.
    const step = 256 / Math.max(columns.length, 1);
    // A figure stands beside its arrow, whole.
    const beside = spokenUnits() === 'mm' ? 24 : 33;
    columns.forEach((column, j) => {
      const x = 64 + step * (j + 0.5);
      texts.push({
        text: sayAlong(column, step >= (spokenUnits() === 'mm' ? 64 : 96)),
        x,
        y: line + (up ? -6 : 13),
        anchor: 'start',
        small: true,
      });
      for (const slot of own.filter((s) => (s.place.xMm ?? 0) === column)) {
        const down = slot.place.surface === 'floor';
        const end = down ? line + 44 : line - tipOver(slot.place, outline, up);
        if (slot.place.surface === 'slope') sloped.push(slopeStroke(x - 4, end, outline));
        const head = down ? -7 : 7;
        arrows.push({ path: `M${x - 4} ${line}V${end}m-3.5 ${head}l3.5 ${-head}l3.5 ${head}`, now: slot.now });
        const y = down ? line + 30 : line - 20;
        figures.push(...figuresOf(slot, { x: x + beside, y, across: 48 }));
        if (slot.now) slotAt = { x: x + beside, y };
      }
    });
  });
  return {
    width,
    height: Math.max(60, 16 + bands.length * bandHeight),
    dotted,
    outline: sloped,
    arrows,
    flags,
    figures,
    texts,
    slot: slotAt,
  };
}

/** How far over its datum an arrow ends, px: to the slope by how high that is there. */
function tipOver(place: SurfacePlace, outline: Outline, up: boolean): number {
  if (!up) return 46;
  if (place.surface !== 'slope') return 44;
  return 26 + 18 * (topAt(outline, place.xMm ?? 0) / outline.openingMm.height);
}

/** A stroke of the slope over an arrow's end, as it leans. */
function slopeStroke(x: number, y: number, outline: Outline): string {
  const lean = outline.slope?.low === 'right' ? 5 : -5;
  return `M${x - 14} ${y - lean}L${x + 14} ${y + lean}`;
}

interface SheetLine {
  readonly group: string;
  readonly sub: string;
  readonly first: boolean;
  readonly slots: readonly Slot[];
}

function rowsOf(
  slots: readonly Slot[],
  height: (p: SurfacePlace) => number,
  sub: (p: SurfacePlace) => string,
  _order: 'falling',
): SheetLine[] {
  const heights = [...new Set(slots.map((s) => height(s.place)))].sort((a, b) => b - a);
  return heights.flatMap((z) => {
    const own = slots.filter((s) => height(s.place) === z);
    const subs = [...new Set(own.map((s) => sub(s.place)))].sort(byDepth);
    return subs.map((d, i) => ({
      group: String(z),
      sub: d,
      first: i === 0,
      slots: own.filter((s) => sub(s.place) === d),
    }));
  });
}

/** Struck figures stand small beside the live one. */
function figuresOf(slot: Slot, at: { x: number; y: number; across: number }): SheetFigure[] {
  const struck = slot.bookings.filter((b) => b.struck);
  const live = slot.bookings.filter((b) => !b.struck);
  const all = [...struck.slice(-1), ...live.slice(-2)];
  const start = at.x - ((all.length - 1) * at.across) / 2;
  return all.map((b, i) => ({
    booking: b.n,
    text: sayWritten(b.said.valueMm),
    x: start + i * at.across,
    y: at.y,
    struck: b.struck,
    check: b.said.check ?? false,
  }));
}

function depthOf(p: SurfacePlace): string {
  return p.along === undefined ? String(p.yMm ?? 0) : 'f';
}

function sayDepth(depth: string): string {
  return depth === 'f' ? 'on F' : `${sayWritten(Number(depth))} in`;
}

/** Where a column is, from S: with its side in words where there is room, else left is −. */
function sayAlong(x: number, roomy: boolean): string {
  if (x === 0) return '0';
  const far = sayWritten(Math.abs(x));
  if (!roomy) return `${x < 0 ? '−' : '+'} ${far}`;
  return `${far} ${x < 0 ? 'left' : 'right'}`;
}

function byDepth(a: string, b: string): number {
  const value = (d: string) => (d === 'f' ? 0 : Number(d));
  return value(a) - value(b) || (a < b ? -1 : a > b ? 1 : 0);
}

function datumOfSlots(slots: readonly Slot[], kind: string): string {
  const used = slots.flatMap((s) => s.bookings.flatMap((b) => b.said.datum ?? []));
  return used.filter((d) => datumParts(d).kind === kind).at(-1) ?? kind;
}
