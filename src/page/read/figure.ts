/** Figures as they are typed into the box under the loupe, mm: what is one, and what is asked about before it is written. */

/** The most that any rule or tape shows. */
const mostMm = 5000;
/** So far off what the loupe shows, a figure is asked about. */
const farMm = 150;

/** Gives what was typed, mm; null where it is no plain figure. */
export function parseFigure(text: string): number | null {
  const said = text.replace(',', '.').trim();
  if (!/^(\d+\.?\d*|\.\d+)$/.test(said)) return null;
  return Number(said) > mostMm ? null : Number(said);
}

/**
 * Asks about a figure that lies far from what the loupe shows; null where there is nothing to ask.
 *
 * What is shown is said to the ten: the judgement is left to who reads.
 */
export function askBefore(valueMm: number, shownMm: number | null): string | null {
  if (shownMm === null || Math.abs(valueMm - shownMm) <= farMm) return null;
  return `The loupe shows about ${Math.round(shownMm / 10) * 10}. To book ${valueMm} all the same, press again.`;
}

/** Says whether a figure is finer than a rule is read: than half a millimetre. */
export function tooFine(valueMm: number | null): boolean {
  return valueMm !== null && !Number.isInteger(valueMm * 2);
}
