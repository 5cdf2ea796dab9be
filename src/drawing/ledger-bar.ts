/**
 * The ledger as a rule: parts step along it from what the room allows to what was sent.
 *
 * Places along the rule are shares of its width, 0 at its left end and 1 at its right, so that it can be drawn at any
 * width; how many graduations are named is chosen for the width that it is laid out for.
 */
import type { LineName, SizeLedger } from '../marking/ledger.ts';
import { graduationMm, sayLength, sayTenths, sayWritten, spokenUnits } from '../recess/lengths.ts';

/** What a bar is laid out of: of a size, or of one coordinate of a place. */
type Walked = Pick<SizeLedger, 'keyMm' | 'proposedMm' | 'lines'>;

/** A part; `rest` is what the lines too small to be drawn come to together. */
export interface BarPart {
  readonly name: LineName | 'rest';
  readonly mm: number;
  readonly from: number;
  readonly to: number;
  /** What pulls back is drawn hollow. */
  readonly back: boolean;
  /** Its figure stands beside the end of the part that has room. */
  readonly figure: BarWords;
}

export interface BarWords {
  readonly text: string;
  /** Where the words begin, or end when they stand to the left. */
  readonly at: number;
  readonly anchor: 'start' | 'end';
}

export interface LedgerBar {
  readonly ticks: readonly { readonly at: number; readonly named: boolean; readonly text: string }[];
  readonly parts: readonly BarPart[];
  /** Where the room's size and the sent one stand. */
  readonly keyAt: number;
  readonly sentAt: number;
  readonly key: BarWords;
  readonly sent: BarWords;
}

/** Lines under this are put together as the rest: what does not show in tenths of a mm, or in half a graduation, mm. */
function restUnderMm(): number {
  return spokenUnits() === 'mm' ? 0.05 : graduationMm(spokenUnits()) / 4;
}
/** A rest that shows as nothing in hundredths is left out, mm. */
const restFromMm = 0.005;
const besidePx = 7;

/** How a rule is named: its steps between names, mm, each with the parts between two. */
interface Face {
  /** What a figure takes beside a part, px. */
  readonly figurePx: number;
  /** How far in from its ends the rule is drawn, so that the names at its ends are whole, px. */
  readonly insetPx: number;
  /** The least that lies between two named graduations, px. */
  readonly namedPx: number;
  readonly steps: readonly (readonly [stepMm: number, parts: number])[];
}

const metric: Face = {
  figurePx: 48,
  insetPx: 20,
  namedPx: 46,
  steps: [1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000].map((mm) => [
    mm,
    mm <= 2 ? 2 : String(mm).startsWith('2') ? 4 : 5,
  ]),
};
const inches: Face = {
  figurePx: 66,
  insetPx: 36,
  namedPx: 76,
  steps: [1 / 16, 1 / 8, 1 / 4, 1 / 2, 1, 2, 4, 8, 16, 32, 64].map((inch) => [inch * 25.4, inch > 1 / 16 ? 4 : 2]),
};

const face = () => (spokenUnits() === 'mm' ? metric : inches);

/** Lays out the rule of a size that was sent, for a width of so many px. */
export function layoutLedgerBar(ledger: Walked, widthPx: number): LedgerBar {
  const parts = partsOf(ledger);
  const stations = [ledger.keyMm];
  for (const p of parts) stations.push((stations.at(-1) ?? 0) + p.mm);
  const sentMm = stations.at(-1) ?? ledger.keyMm;
  const { from, to, step, parts: between } = stretch(Math.min(...stations), Math.max(...stations), widthPx);
  const inset = face().insetPx / widthPx;
  const at = (mm: number) => inset + ((mm - from) / (to - from)) * (1 - 2 * inset);
  const beside = (a: number, b: number, wide: number) => sideOf(Math.min(a, b), Math.max(a, b), { wide, widthPx });
  const wordsAt = (texts: readonly [long: string, short: string], mm: number) => {
    const [long, short] = texts;
    const text = Math.max(at(mm), 1 - at(mm)) * widthPx > besidePx + wordsPx(long) ? long : short;
    return { text, ...beside(at(mm), at(mm), wordsPx(text)) };
  };
  const sent = ledger.proposedMm === null ? '' : sayWritten(ledger.proposedMm);
  const allows = sayTenths(ledger.keyMm);
  return {
    ticks: ticksOf({ from, to, step, between }, at),
    parts: parts.map(({ name, mm }, i) => {
      const [start, end] = [at(stations[i] ?? 0), at(stations[i + 1] ?? 0)];
      const figure = { text: signed(mm), ...beside(start, end, face().figurePx) };
      return { name, mm, from: start, to: end, back: mm < 0, figure };
    }),
    keyAt: at(ledger.keyMm),
    sentAt: at(sentMm),
    key: wordsAt([`the room allows ${allows}`, `allows ${allows}`], ledger.keyMm),
    sent: wordsAt([`you sent ${sent}`, `sent ${sent}`], sentMm),
  };
}

/** The lines worth a part, then what the others come to: the parts add up to what the size missed by, to 0.005 mm. */
export function partsOf(ledger: Pick<SizeLedger, 'lines'>): readonly { name: BarPart['name']; mm: number }[] {
  const least = restUnderMm();
  const drawn = ledger.lines.filter((l) => Math.abs(l.mm) >= least).map(({ name, mm }) => ({ name, mm }));
  const rest = ledger.lines.filter((l) => Math.abs(l.mm) < least).reduce((sum, l) => sum + l.mm, 0);
  return Math.abs(rest) < restFromMm ? drawn : [...drawn, { name: 'rest' as const, mm: rest }];
}

/** A figure with its sign; what does not show in tenths is given in hundredths. */
export function signed(mm: number): string {
  const size = Math.abs(mm);
  if (spokenUnits() !== 'mm') {
    const said = sayLength(size);
    return said === sayLength(0) ? said : `${mm > 0 ? '+' : '−'}${said}`;
  }
  const text = size < restUnderMm() && size > 0 ? String(Math.round(size * 100) / 100) : size.toFixed(1);
  return Number(text) === 0 ? text : `${mm > 0 ? '+' : '−'}${text}`;
}

/** The stretch of the rule that is shown, whole named steps, and the step between named graduations, mm. */
function stretch(
  low: number,
  high: number,
  widthPx: number,
): { from: number; to: number; step: number; parts: number } {
  const { steps, namedPx, figurePx, insetPx } = face();
  const over = ([step, parts]: Face['steps'][number]) => ({
    from: Math.floor(low / step - 0.25) * step,
    to: Math.ceil(high / step + 0.25) * step,
    step,
    parts,
  });
  const found = steps.map(over).find(({ from, to, step }) => {
    const perMm = (widthPx - 2 * insetPx) / (to - from);
    const aside = insetPx + Math.max(low - from, to - high) * perMm;
    return step * perMm >= namedPx && aside >= besidePx + figurePx;
  });
  return found ?? over(steps.at(-1) ?? [1, 2]);
}

/** Graduations: the named ones, and a few between them. */
function ticksOf(
  { from, to, step, between }: { from: number; to: number; step: number; between: number },
  at: (mm: number) => number,
): LedgerBar['ticks'] {
  const count = Math.round(((to - from) / step) * between);
  return Array.from({ length: count + 1 }, (_, i) => {
    const mm = from + (i * step) / between;
    const named = i % between === 0;
    return { at: at(mm), named, text: named ? sayWritten(mm) : '' };
  });
}

/** What words take, px. */
function wordsPx(text: string): number {
  return text.length * 6.9;
}

/** To the right of a part where there is room, else to its left. */
function sideOf(low: number, high: number, of: { wide: number; widthPx: number }): Omit<BarWords, 'text'> {
  const beside = besidePx / of.widthPx;
  const wide = of.wide / of.widthPx;
  return high + beside + wide <= 1 || low - beside - wide < 0
    ? { at: high + beside, anchor: 'start' }
    : { at: low - beside, anchor: 'end' };
}
