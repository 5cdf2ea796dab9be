/**
 * M03 to M07 and M26: the figures are there, and another rule than the right one gives what was sent.
 *
 * A wrong rule is run on what was booked. It is blamed where it gives the number that was sent and the right rule does
 * not: in two sizes, or in one size where the log says the same.
 */
import { sayLength } from '../../recess/lengths.ts';
import { grouped, mean } from '../../survey/offsets.ts';
import { type SizeName, sizeRules } from '../../survey/size.ts';
import { lineOf } from '../ledger.ts';
import type { Word } from '../ledger-story.ts';
import { byReadingAgain, byTightest } from './catching.ts';
import { chainedSizes } from './chained-sizes.ts';
import { type Evidence, type Figure, proposedOffsets, spansOf } from './evidence.ts';
import { type Found, type Mistake, nothingMm } from './mistake.ts';

const carcassSizes = ['carcass-width', 'carcass-height', 'carcass-depth'] as const;
/** Of what goes in: the tightest counts. */
const tightSizes = [...carcassSizes, 'lining-width', 'lining-height'] as const;
/** Of what is scribed: the widest counts. */
const scribedSizes = ['frame-width', 'frame-height', 'shelf-depth', 'lining-depth'] as const;

export const everySize = [...tightSizes, ...scribedSizes] as const;

/** What was sent agrees with a rule within this: half a millimetre of rounding for the workshop, mm. */
const agreesMm = 0.55;
/** Two rules that give numbers nearer than this cannot be told apart by what was sent, mm. */
const apartMm = 1.05;

export const leastSum: Mistake = {
  id: 'M03',
  name: 'least sum for sum of the least',
  find: (from) => {
    const byTape = taped(from);
    if (byTape) return byTape;
    if (plinthExplains(from) || averagesExplain(from, everySize, sumsRule)) return null;
    return bySums(from, everySize, sumsRule, (size) => ({
      happened: size.endsWith('height')
        ? 'Floor and ceiling fall. Each height is fair where it is, but what is made is level and meets the nearest of each.'
        : 'The walls lean or turn the same way. Each width is fair where it is, but what is made is plumb and meets the nearest of each.',
      did: 'You added the two sides place by place, and took one of those sums.',
      next: 'Take the smallest of each side by itself, wherever it is, and add the two. For a frame, the largest of each.',
    }));
  },
};

export const averages: Mistake = {
  id: 'M04',
  name: 'average of readings',
  find: (from) =>
    bySums(from, everySize, meanRule, {
      happened: 'An average is larger than the tight places and smaller than the wide ones: half of them do not fit.',
      did: 'You added the averages of each side.',
      next: 'For what goes in add the smallest of each side, for what is scribed the largest.',
    }),
};

export const mostForCarcass: Mistake = {
  id: 'M05',
  name: 'largest used for the carcass',
  find: (from) =>
    bySums(from, tightSizes, (_, sides) => addUp(sides, (v) => Math.max(...v)), {
      happened: 'What goes in is as large as the recess is at its widest. It has to pass the tightest.',
      did: 'You added the largest of each side for what goes in.',
      next: 'For what goes in add the smallest of each side.',
    }),
};

export const leastForFrame: Mistake = {
  id: 'M06',
  name: 'smallest used for the frame',
  find: (from) =>
    explainsLess(from, leastRule, bareRule(from)) || averagesExplain(from, scribedSizes, leastRule)
      ? null
      : bySums(from, scribedSizes, leastRule, {
          happened:
            'The blank is as large as its place at the tightest. Where the place is wider there is nothing to scribe.',
          did: 'You took the smallest of each side for the blank.',
          next: 'For a blank that is scribed take the largest of each side along the line that it meets.',
        }),
};

export const noStock: Mistake = {
  id: 'M07',
  name: 'no scribe allowance',
  find: (from) =>
    explainsLess(from, bareRule(from), leastRule) || averagesExplain(from, scribedSizes, bareRule(from))
      ? null
      : bySums(from, scribedSizes, bareRule(from), {
          happened: 'The blank is as large as its place and no larger. A saw needs stock to follow the wall.',
          did: 'You sent the largest sums as they were, with no stock put on.',
          next: 'Put on the least stock that the brief asks for, at every edge that is scribed.',
        }),
};

const meanRule: Rule = (_, sides) => addUp(sides, (v) => mean(v));

const leastRule: Rule = (_, sides) => addUp(sides, (v) => Math.min(...v));

/** The largest of each side with no stock put on. */
function bareRule(from: Evidence): Rule {
  return (size, sides) => {
    const bare = addUp(sides, (v) => Math.max(...v));
    return bare === null ? null : bare + from.ledger(size).overMadeMm;
  };
}

/** Whether another rule gives what was sent of blanks as well, and more nearly: walls that wander by the stock let both do so. */
function explainsLess(from: Evidence, rule: Rule, other: Rule): boolean {
  return agreesLess(agreement(from, scribedSizes, rule), agreement(from, scribedSizes, other));
}

/** Whether averages give more of what was sent than a rule of some sizes does, or as much and more nearly. */
function averagesExplain(from: Evidence, sizes: readonly SizeName[], rule: Rule): boolean {
  return agreesLess(agreement(from, sizes, rule), agreement(from, everySize, meanRule));
}

function agreesLess(its: readonly Agreeing[] | null, others: readonly Agreeing[] | null): boolean {
  if (!its || !others) return false;
  const off = (of: readonly Agreeing[]) => of.reduce((sum, a) => sum + a.offMm, 0) / of.length;
  return others.length > its.length || (others.length === its.length && off(others) < off(its));
}

export const plinthFromElsewhere: Mistake = {
  id: 'M26',
  name: 'plinth not from the high point',
  find: (from) => {
    const size = 'carcass-height';
    const found = floorElsewhere(from);
    if (!found || (agreement(from, everySize, sumsRule) && !plinthExplains(from))) return null;
    const { wrong, highest } = found;
    const high = highest.mm;
    return {
      costMm: wrong.mm - high,
      sizes: [size],
      acts: [wrong.figure.n, highest.figure.n],
      caught: again(from, highest.figure),
      happened: [
        'The carcass stands on the high point of the floor. Measured from a lower place, it comes out too tall.',
      ],
      did: ['You took ', his(wrong.mm), ' for the floor, where ', his(high), ' stands on the sheet as its high point.'],
      next: ['Take the smallest of the floor figures: that is where the floor is highest.'],
    };
  },
};

interface Grouped {
  readonly mm: number;
  readonly figure: Figure;
}

/** The figures of a size by side, those of one place averaged, and what the right rule makes of them. */
interface Table {
  readonly sides: Readonly<Partial<Record<Figure['side'], readonly Grouped[]>>>;
  readonly right: number;
}

type Sides = readonly (readonly Grouped[])[];
type Rule = (size: SizeName, sides: Sides) => number | null;

interface Said {
  readonly happened: string;
  readonly did: string;
  readonly next: string;
}

/** A size in which a rule gives what was sent, and the right rule does not. */
interface Agreeing {
  readonly size: SizeName;
  readonly table: Table;
  readonly wrong: number;
  readonly mm: number;
  /** How far what was sent lies from what the rule gives. */
  readonly offMm: number;
}

/**
 * Finds the sizes that a rule is blamed for, the one that it cost most first; null where it is not to be blamed.
 *
 * Two sizes that only this rule explains are enough; one is, where all other sizes that were sent go with the rule as well.
 */
function agreement(from: Evidence, among: readonly SizeName[], rule: Rule): readonly [Agreeing, ...Agreeing[]] | null {
  // A width that was laid end to end has its own mistake: what it agrees with here is chance.
  const chained = chainedSizes.find(from) !== null;
  const tables = among.flatMap((size) => {
    const table = from.sizes.includes(size) && !(chained && size === 'carcass-width') ? tableOf(from, size) : null;
    const wrong = table && rule(size, listed(size, table));
    return table && wrong !== null ? [{ size, table, wrong, sent: proposedOffsets(from, size) }] : [];
  });
  const told = tables.filter((t) => Math.abs(t.wrong - t.table.right) > apartMm);
  const agreeing = told
    .filter((t) => agree(t.sent, t.wrong) && !agree(t.sent, t.table.right))
    .map(({ size, table, wrong, sent }) => ({
      size,
      table,
      wrong,
      mm: Math.abs(wrong - table.right),
      offMm: Math.abs(wrong - sent),
    }))
    .sort((a, b) => b.mm - a.mm || among.indexOf(a.size) - among.indexOf(b.size));
  // What neither rule gives was come by otherwise: then this rule's agreeing elsewhere is chance.
  if (told.some((t) => !agree(t.sent, t.wrong) && !agree(t.sent, t.table.right))) return null;
  const allGoWith = tables.length > 1 && tables.every((t) => agree(t.sent, t.wrong));
  const [worst, ...others] = agreeing;
  return worst && (others.length > 0 || allGoWith) ? [worst, ...others] : null;
}

/** Blames a rule on what was booked; null where it is not to be blamed. */
export function bySums(
  from: Evidence,
  among: readonly SizeName[],
  rule: Rule,
  says: Said | ((size: SizeName) => Said),
): Found | null {
  const agreeing = agreement(from, among, rule);
  if (!agreeing) return null;
  const [worst] = agreeing;
  if (worst.mm <= nothingMm) return null;
  const said = typeof says === 'function' ? says(worst.size) : says;
  const counting = countingOf(worst.size, worst.table);
  const { overMadeMm } = from.ledger(worst.size);
  const figures = counting.flatMap((g, i): Word[] => [i > 0 ? ' and ' : '', his(g.mm)]);
  return {
    costMm: worst.mm,
    sizes: agreeing.map((a) => a.size),
    acts: agreeing.flatMap((a) => countingOf(a.size, a.table).map((g) => g.figure.n)),
    caught: counting.map((g) => again(from, g.figure)).find((c) => c !== null) ?? null,
    happened: [said.happened],
    did: [`${said.did} That gives `, his(worst.wrong - overMadeMm), '; the figures that count are ', ...figures, '.'],
    next: [said.next],
  };
}

/** A width that was taped is a sum that the tape made: the walls' leaning is not in it. */
function taped(from: Evidence): Found | null {
  const sizes = from.sizes.filter((size) => from.ledger(size).how === 'spans');
  const costs = sizes.map((size) => ({ size, mm: Math.abs(lineOf(from.ledger(size), 'method')) }));
  const sorted = [...costs].sort((a, b) => b.mm - a.mm || sizes.indexOf(a.size) - sizes.indexOf(b.size));
  const [worst] = sorted;
  if (!worst || worst.mm <= nothingMm) return null;
  const spans = spansOf(from.survey, worst.size);
  const { sides } = sizeRules[worst.size];
  return {
    costMm: worst.mm,
    sizes: sorted.filter((c) => c.mm > nothingMm).map((c) => c.size),
    acts: spans.map((s) => s.n),
    caught: sides[0] ? byTightest(from, worst.size, sides[0]) : null,
    happened: [
      'A tape gives the distance between two points. The walls lean or turn the same way, and what is made stands plumb.',
    ],
    did: ['You taped from wall to wall and took one of those sizes.'],
    next: ['Read each side from a line, take the smallest of each (for a frame the largest), and add the two.'],
  };
}

/** The least (for a frame the most) of the sums of places that lie across from each other. */
function sumsRule(size: SizeName, sides: Sides): number | null {
  const [one, other] = sides;
  if (!one || !other) return null;
  const near = (a: Grouped, b: Grouped) =>
    Math.abs(a.figure.offset.at.u - b.figure.offset.at.u) <= 20 &&
    Math.abs(a.figure.offset.at.v - b.figure.offset.at.v) <= 20;
  const sums = one.flatMap((a) => other.filter((b) => near(a, b)).map((b) => a.mm + b.mm));
  if (sums.length === 0) return null;
  return sizeRules[size].counts === 'least' ? Math.min(...sums) : Math.max(...sums);
}

function addUp(sides: Sides, pick: (values: readonly number[]) => number): number | null {
  return sides.reduce((sum, side) => sum + pick(side.map((g) => g.mm)), 0);
}

/** Gives the table of a size; null where a side has no figure. */
export function tableOf(from: Evidence, size: SizeName): Table | null {
  const figures = from.figures(size);
  const groups = grouped(figures.map((f) => f.offset)).flatMap((g): Grouped[] => {
    const figure = figures.find((f) => f.n === g.bookings[0]?.n);
    return figure ? [{ mm: g.meanMm + figure.overMm, figure }] : [];
  });
  const { sides, counts } = sizeRules[size];
  const bySide = Object.fromEntries(sides.map((side) => [side, groups.filter((g) => g.figure.side === side)]));
  if (sides.some((side) => (bySide[side]?.length ?? 0) === 0)) return null;
  const pick = counts === 'least' ? Math.min : Math.max;
  const right = sides.reduce((sum, side) => sum + pick(...(bySide[side] ?? []).map((g) => g.mm)), 0);
  return { sides: bySide, right };
}

function listed(size: SizeName, table: Table): Sides {
  return sizeRules[size].sides.map((side) => table.sides[side] ?? []);
}

function countingOf(size: SizeName, table: Table): readonly Grouped[] {
  const pick = sizeRules[size].counts === 'least' ? Math.min : Math.max;
  return listed(size, table).flatMap((side) => {
    const best = pick(...side.map((g) => g.mm));
    return side.filter((g) => g.mm === best).slice(0, 1);
  });
}

/** Whether what was sent of the other carcass sizes is what the right rule gives: the mistake is in this one alone. */
function otherSizesRight(from: Evidence, size: SizeName): boolean {
  return carcassSizes
    .filter((other) => other !== size && from.sizes.includes(other))
    .every((other) => {
      const table = tableOf(from, other);
      return table !== null && agree(table.right, proposedOffsets(from, other));
    });
}

/** Whether one size alone speaks for the sums, and a plinth from elsewhere gives it as nearly. */
function plinthExplains(from: Evidence): boolean {
  const sums = agreement(from, everySize, sumsRule);
  const floor = floorElsewhere(from);
  return sums?.length === 1 && floor !== null && floor.offMm < sums[0].offMm + 0.1;
}

/** Finds the floor figure that the height was worked out from, where it is another than the high point. */
function floorElsewhere(from: Evidence): { wrong: Grouped; highest: Grouped; offMm: number } | null {
  const size = 'carcass-height';
  const table = from.sizes.includes(size) ? tableOf(from, size) : null;
  if (!table || !otherSizesRight(from, size)) return null;
  const sent = proposedOffsets(from, size);
  const top = Math.min(...(table.sides.ceiling ?? []).map((g) => g.mm));
  const floor = table.sides.floor ?? [];
  const high = Math.min(...floor.map((g) => g.mm));
  const wrong = floorsElsewhere(from, floor).find((g) => g.mm - high > apartMm && agree(g.mm + top, sent));
  const highest = floor.find((g) => g.mm === high);
  return wrong && highest && !agree(table.right, sent)
    ? { wrong, highest, offMm: Math.abs(wrong.mm + top - sent) }
    : null;
}

/** The figures that a plinth is wrongly taken from: the one nearest to the middle of the floor, and the lowest. */
function floorsElsewhere(from: Evidence, floor: readonly Grouped[]): readonly Grouped[] {
  const { mouthMm, carcassFrontMm, carcassMm } = from.brief;
  const middle = (mouthMm + carcassFrontMm + carcassMm.depth.nominalMm) / 2;
  const far = ({ figure }: Grouped) => {
    const { u, v } = figure.offset.at;
    return u * u + (v - middle) * (v - middle);
  };
  const byPlace = [...floor].sort((a, b) => far(a) - far(b) || a.figure.n - b.figure.n);
  const byDepth = [...floor].sort((a, b) => b.mm - a.mm || a.figure.n - b.figure.n);
  return [...byPlace.slice(0, 1), ...byDepth.slice(0, 1)];
}

function agree(a: number, b: number): boolean {
  return Math.abs(a - b) <= agreesMm;
}

function again(from: Evidence, figure: Figure) {
  const { place } = figure.offset.said;
  return 'surface' in place ? byReadingAgain(from, figure.offset.datum, place) : null;
}

function his(mm: number): Word {
  return { his: sayLength(mm) };
}
