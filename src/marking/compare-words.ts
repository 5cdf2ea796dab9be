/**
 * Two surveys of one room, in words: a line a fact, the one's first and the other's after.
 */
import { sayLength } from '../recess/lengths.ts';
import { type SidesOf, sideName } from '../recess/side-words.ts';
import type { Comparison, SideCompared, SizeCompared, Two } from './compare.ts';
import { sayMiss } from './how-sure-words.ts';
import { lineTitles } from './report-words.ts';
import { sizeWords } from './size-words.ts';

/** Says a comparison, a line an element. */
export function sayComparison(c: Comparison, names: Two<string>, room: SidesOf): string[] {
  const [one, other] = names;
  const wide = Math.max(12, one.length, other.length) + 2;
  const row = (what: string, [a, b]: Two<string>) => `${what.padEnd(34)}${a.padStart(wide)}${b.padStart(wide)}`;
  const each = <T>(two: Two<T>, say: (of: T) => string): Two<string> => [say(two[0]), say(two[1])];
  return [
    row('', names),
    row('verdict', c.verdict),
    row('score', each(c.score, String)),
    row(
      'set-ups',
      each(c.counts, (n) => String(n.setUps)),
    ),
    row(
      'readings',
      each(c.counts, (n) => String(n.readings + n.spans)),
    ),
    row(
      'bookings',
      each(c.counts, (n) => String(n.bookings)),
    ),
    '',
    'Where it was read',
    ...c.sides.flatMap((s) => [
      row(
        `${bayWord(s)}${sideName(room, s.side)}, readings`,
        each(s.read, (r) => String(r.length)),
      ),
      ...s.decided.map((d) =>
        row(
          `  decides the ${sizeWords[d.size]}`,
          each(d.nearestMm, (mm) => (mm === null ? 'not read' : `${sayLength(Math.round(mm))} away`)),
        ),
      ),
    ]),
    '',
    'Ledger against ledger',
    ...c.sizes.flatMap((s) => sayLines(s, row)),
  ];
}

/** Says in one sentence which line of a size parts the two most; empty where nothing over a millimetre does. */
export function sayParting(s: SizeCompared, names: Two<string>): string {
  const [worst] = s.lines
    .map((l, i) => ({ ...l, i, apart: Math.abs(l.mm[0]) - Math.abs(l.mm[1]) }))
    .sort((a, b) => Math.abs(b.apart) - Math.abs(a.apart) || a.i - b.i);
  if (!worst || Math.abs(worst.apart) <= 1) return '';
  const [more, less] = worst.apart > 0 ? [0, 1] : [1, 0];
  const mm = (i: number) => sayLength(Math.abs(worst.mm[i] as number));
  return `${names[more]} lost ${mm(more)} by ${lineTitles[worst.name].toLowerCase()}, ${names[less]} ${mm(less)}.`;
}

function sayLines(s: SizeCompared, row: (what: string, two: Two<string>) => string): string[] {
  const name = `${bayWord(s)}${sizeWords[s.size]}`;
  const miss = (mm: number | null) => (mm === null ? 'not sent' : sayMiss(mm));
  return [
    row(name, [miss(s.missMm[0]), miss(s.missMm[1])]),
    ...s.lines
      .filter((l) => l.mm.some((mm) => Math.abs(mm) >= 0.05))
      .map((l) => row(`  ${lineTitles[l.name].toLowerCase()}`, [signed(l.mm[0]), signed(l.mm[1])])),
  ];
}

function bayWord({ bay }: Pick<SideCompared, 'bay'>): string {
  return bay === 2 ? 'right-hand recess, ' : '';
}

function signed(mm: number): string {
  const text = sayLength(mm);
  return text.startsWith('-') || text === sayLength(0) ? text : `+${text}`;
}
