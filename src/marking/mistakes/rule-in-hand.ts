/**
 * M15, M16, M18, M19: what was written is not the offset: the line's edge, a rule held askew, a tape bent into a corner,
 * a decade misread.
 */
import { sayLength } from '../../recess/lengths.ts';
import type { SizeName } from '../../survey/size.ts';
import { sizeRules } from '../../survey/size.ts';
import { lineOf } from '../ledger.ts';
import type { Word } from '../ledger-story.ts';
import { sayBookedPlace } from '../place-words.ts';
import { byReadingAgain } from './catching.ts';
import { type Evidence, type Figure, ruledOver, spansOf } from './evidence.ts';
import { type Found, type Mistake, nothingMm } from './mistake.ts';

/** Written to the half millimetre, a number is this near to what it is of, mm. */
const writtenMm = 0.3;
/** Of the figures, the share that has to show a habit. */
const habitShare = 0.8;
const fewestForHabit = 6;
/** A rule that leans more than this, mm a metre, was not held square; the hand's own unsteadiness stays under it. */
const askewMmPerM = 30;
/** How near to a whole decade a slip of one is, mm. */
const decadeMm = 1;

export const lineEdge: Mistake = {
  id: 'M15',
  name: 'edge of the line, not its middle',
  find: (from) => {
    const read = allFigures(from).filter((f) => f.reading !== null);
    for (const edge of [0, 1] as const) {
      const isEdge = (f: Figure) =>
        Math.abs(f.offset.said.valueMm - (f.reading?.edgesMm[edge] ?? 0)) <= writtenMm &&
        Math.abs(f.offset.said.valueMm - (f.seenMm ?? 0)) > writtenMm;
      const those = read.filter(isEdge);
      if (read.length < fewestForHabit || those.length < habitShare * read.length) continue;
      return byFigures(
        from,
        those,
        (f) => f.seenMm ?? f.offset.said.valueMm,
        (worst) => ({
          happened: [
            'The laser line is wider than a graduation. Its middle is the line; an edge is off by half its width.',
          ],
          did: [
            'You wrote ',
            his(worst.offset.said.valueMm),
            ` where the line stood from ${edges(worst)}, and so at nearly every place.`,
          ],
          next: ['Read both edges of the line, and write the number half-way between them.'],
        }),
      );
    }
    return null;
  },
};

export const ruleAskew: Mistake = {
  id: 'M16',
  name: 'rule not square to the line',
  find: (from) => {
    const askew = allFigures(from).filter((f) => slopeOf(from, f) > askewMmPerM / 1000);
    return byFigures(
      from,
      askew,
      (f) => squared(from, f),
      (worst) => ({
        happened: ['A rule that is not square to the line goes a longer way to it. It reads long, never short.'],
        did: [
          'You held the rule ',
          `${Math.round(1000 * slopeOf(from, worst))} mm in a metre off square and wrote `,
          his(worst.offset.said.valueMm),
          ` (${sayBookedPlace(worst.offset.said.place, from.survey.world.exercise.spec)}).`,
        ],
        next: ['Swing the rule a little each way: the smallest number that it shows is the offset.'],
      }),
    );
  },
};

export const tapeInCorner: Mistake = {
  id: 'M18',
  name: 'tape bent into the corner',
  find: (from) => {
    const sizes = from.sizes.filter((size) => from.ledger(size).how === 'spans');
    const costs = sizes.map((size) => ({ size, mm: 0 - lineOf(from.ledger(size), 'rule') }));
    const sorted = [...costs].sort((a, b) => b.mm - a.mm || sizes.indexOf(a.size) - sizes.indexOf(b.size));
    const [worst] = sorted;
    if (!worst || worst.mm <= nothingMm) return null;
    const counting = from.ledger(worst.size).counting;
    const span = spansOf(from.survey, worst.size).find((s) => counting.includes(s.n));
    const place = from.survey.bookings.find((b) => b.n === span?.n)?.said.place;
    if (!span || !place || !('surface' in place)) return null;
    return {
      costMm: worst.mm,
      sizes: sorted.filter((c) => c.mm > nothingMm).map((c) => c.size),
      acts: [span.n],
      caught: byReadingAgain(from, sizeRules[worst.size].datum, place),
      happened: [`A tape bends where it comes into the corner and reads short. Here it lost ${sayLength(worst.mm)}.`],
      did: [
        'You taped ',
        his(span.writtenMm),
        ` (${sayBookedPlace(place, from.survey.world.exercise.spec)}) and read no offsets beside it.`,
      ],
      next: ['Read each side from the line with the rule; keep the tape for a check.'],
    };
  },
};

export const decadeMisread: Mistake = {
  id: 'M19',
  name: 'decade misread',
  find: (from) => {
    const read = allFigures(from).filter((f) => f.seenMm !== null);
    const slipped = read.filter((f) => isDecade(f.offset.said.valueMm, f.seenMm ?? 0));
    if (slipped.length > read.length / 2) return null;
    return byFigures(
      from,
      slipped,
      (f) => f.seenMm ?? f.offset.said.valueMm,
      (worst) => ({
        happened: ['A figure on the sheet is a whole ten, or a pair of digits, off what stood on the rule.'],
        did: [
          'You wrote ',
          his(worst.offset.said.valueMm),
          ` where the rule showed ${sayLength(worst.seenMm ?? 0)} (${sayBookedPlace(worst.offset.said.place, from.survey.world.exercise.spec)}).`,
        ],
        next: ['Read the tens last, say the number aloud, and look whether it goes with its neighbours.'],
      }),
    );
  },
};

/** Every figure of every size, each booking once. */
export function allFigures(from: Evidence): readonly Figure[] {
  const all = from.sizes.flatMap((size) => from.figures(size));
  return all.filter((f, i) => all.findIndex((g) => g.n === f.n) === i);
}

/**
 * Finds what a group of figures cost: the right rule over the sheet as it stands, against the same with those figures as
 * they should be.
 */
export function byFigures(
  from: Evidence,
  wrong: readonly Figure[],
  shouldBe: (f: Figure) => number,
  say: (worst: Figure) => Pick<Found, 'happened' | 'did' | 'next'>,
): Found | null {
  const isWrong = (f: Figure) => wrong.some((w) => w.n === f.n);
  const costs = from.sizes.flatMap((size, i) => {
    const figures = from.figures(size);
    const [as, right] = [
      ruledOver(size, figures),
      ruledOver(size, figures, (f) => (isWrong(f) ? shouldBe(f) + f.overMm + f.offset.allowedMm : f.valueMm)),
    ];
    return as === null || right === null ? [] : [{ size, i, mm: Math.abs(as - right) }];
  });
  const sorted = [...costs].sort((a, b) => b.mm - a.mm || a.i - b.i);
  const [worst] = sorted;
  const figure = worst && countingAmong(from, worst.size, isWrong);
  if (!worst || worst.mm <= nothingMm || !figure || !('surface' in figure.offset.said.place)) return null;
  return {
    costMm: worst.mm,
    sizes: sorted.filter((c) => c.mm > nothingMm).map((c) => c.size),
    acts: wrong.map((f) => f.n),
    caught: byReadingAgain(from, figure.offset.datum, figure.offset.said.place),
    ...say(figure),
  };
}

/** Of the wrong figures of a size, the one that counts, else the first. */
function countingAmong(from: Evidence, size: SizeName, isWrong: (f: Figure) => boolean): Figure | null {
  const counting = from.ledger(size).counting;
  const wrong = from.figures(size).filter(isWrong);
  return wrong.find((f) => counting.includes(f.n)) ?? wrong[0] ?? null;
}

/** How far from square the rule was held on purpose: the slope that was said. */
function slopeOf(from: Evidence, f: Figure): number {
  const act = f.reading ? from.survey.entries[f.reading.n - 1]?.act : undefined;
  const [a, b] = act?.act === 'read' ? (act.skewMmPerM ?? [0, 0]) : [0, 0];
  return Math.sqrt(a * a + b * b) / 1000;
}

/** What would have been written of a rule held square. */
function squared(from: Evidence, f: Figure): number {
  const slope = slopeOf(from, f);
  return f.offset.said.valueMm / Math.sqrt(1 + slope * slope);
}

/** Off by ten, ninety or a hundred, or by two digits that have changed places. */
function isDecade(written: number, seen: number): boolean {
  const off = Math.abs(written - seen);
  if ([10, 20, 90, 100].some((slip) => Math.abs(off - slip) <= decadeMm)) return true;
  const digits = String(Math.round(seen));
  return (
    off > 5 &&
    [...digits].some((_, i) => {
      const swapped = digits.slice(0, i) + (digits[i + 1] ?? '') + (digits[i] ?? '') + digits.slice(i + 2);
      return i + 1 < digits.length && Math.abs(written - Number(swapped)) <= decadeMm;
    })
  );
}

function edges(f: Figure): string {
  const [low, high] = f.reading?.edgesMm ?? [0, 0];
  return `${sayLength(low)} to ${sayLength(high)}`;
}

function his(mm: number): Word {
  return { his: sayLength(mm) };
}
