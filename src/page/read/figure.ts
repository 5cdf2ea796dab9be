/** Figures as they are typed into the box under the loupe: what is one, and what is asked about before it is written. */
import { graduationMm, readTo, sayWritten, spokenUnits, writtenLength } from '../../recess/lengths.ts';

/** The most that any rule or tape shows. */
const mostMm = 5000;
/** So far off what the loupe shows, a figure is asked about. */
const farMm = 150;

/** Gives what was typed, mm; null where it is no plain figure. */
export function parseFigure(text: string): number | null {
  const mm = writtenLength(text);
  return mm === null || /^\s*[+−-]/.test(text) || mm > mostMm ? null : mm;
}

/**
 * Asks about a figure that lies far from what the loupe shows; null where there is nothing to ask.
 *
 * What is shown is said to the ten, or the inch: the judgement is left to who reads.
 */
export function askBefore(valueMm: number, shownMm: number | null): string | null {
  if (shownMm === null || Math.abs(valueMm - shownMm) <= farMm) return null;
  const to = spokenUnits() === 'mm' ? 10 : 25.4;
  const about = sayWritten(Math.round(shownMm / to) * to);
  return `The loupe shows about ${about}. To book ${sayWritten(valueMm)} all the same, press again.`;
}

/** Says whether a figure is finer than a rule is read: than half a graduation. */
export function tooFine(valueMm: number | null): boolean {
  return valueMm !== null && Math.abs(readTo(spokenUnits(), valueMm) - valueMm) > 1e-6;
}

/** The keys that a device shows for a length: of inches those with a stroke and a dash. */
export function lengthKeys(): 'decimal' | 'text' {
  return spokenUnits() === 'mm' ? 'decimal' : 'text';
}

/** Half a graduation, by which a figure is nudged, mm. */
export function nudgeMm(): number {
  return graduationMm(spokenUnits()) / 2;
}

/** The keys of the pad, three a row; a fraction's foot is one key. */
export function padKeys(): readonly string[] {
  const digits = ['7', '8', '9', '4', '5', '6', '1', '2', '3', 'delete', '0'];
  switch (spokenUnits()) {
    case 'mm':
      return [...digits, '.5'];
    case 'in-16':
      return [...digits, '-', '/2', '/4', '/8', '/16', '/32', '.'];
    case 'in-32':
      return [...digits, '-', '/4', '/8', '/16', '/32', '/64', '.'];
  }
}
