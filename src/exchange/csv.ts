/**
 * Tables in CSV: read by their head, numbers with a point or, in tables parted by semicolons or tabs, with a comma.
 */
import Papa from 'papaparse';
import { refuse, type Taken } from './refusal.ts';

export interface CsvTable {
  /** Names of the columns, in small letters. */
  readonly head: readonly string[];
  readonly rows: readonly CsvRow[];
  readonly delimiter: string;
}

export interface CsvRow {
  /** The line of the file on which it stands, counted from 1; a head that is one line long is line 1. */
  readonly line: number;
  readonly cells: Readonly<Record<string, string>>;
}

const mostRows = 2000;

/** Reads a table whose first line names its columns; empty lines are passed over. */
export function readCsv(text: string, what: string): Taken<CsvTable> {
  const plain = text.replace(/^\uFEFF/, '');
  const delimiter = delimiterOf(plain);
  const parsed = Papa.parse<string[]>(plain, { delimiter });
  const wrong = parsed.errors[0];
  if (wrong) return refuse(`${what}, line ${(wrong.row ?? 0) + 1}: ${wrong.message}`);
  const lines = parsed.data
    .map((cells, i) => ({ line: i + 1, cells: cells.map((c) => c.trim()) }))
    .filter(({ cells }) => cells.some((c) => c !== ''));
  const [first, ...rest] = lines;
  if (!first || rest.length === 0) return refuse(`${what}: expected a head and rows below it, got none`);
  if (rest.length > mostRows) return refuse(`${what}: expected ${mostRows} rows at most, got ${rest.length}`);
  const head = first.cells.map((name) => name.toLowerCase());
  const twice = head.find((name, i) => name !== '' && head.indexOf(name) !== i);
  if (twice) return refuse(`${what}, line ${first.line}: the column ${JSON.stringify(twice)} stands twice`);
  const odd = rest.find(({ cells }) => cells.length > head.length && cells.slice(head.length).some((c) => c !== ''));
  if (odd) return refuse(`${what}, line ${odd.line}: expected ${head.length} cells, got ${odd.cells.length}`);
  const rows = rest.map(({ line, cells }) => ({
    line,
    cells: Object.fromEntries(head.map((name, i) => [name, cells[i] ?? ''])),
  }));
  return { ok: true, value: { head, rows, delimiter } };
}

/** What parts the cells: the head has names alone, so it is the sign that stands there most. */
function delimiterOf(text: string): string {
  const head = text.split(/\r\n|\r|\n/).find((line) => line.trim() !== '') ?? '';
  const count = (sign: string) => head.split(sign).length;
  return [';', '\t'].reduce((best, sign) => (count(sign) > count(best) ? sign : best), ',');
}

/** Takes a cell's number, mm. */
export function numberIn(table: CsvTable, row: CsvRow, name: string, what: string): Taken<number> {
  const cell = row.cells[name] ?? '';
  const plain = table.delimiter === ',' ? cell : cell.replace(',', '.');
  const value = /^[+-]?(\d+\.?\d*|\.\d+)$/.test(plain.replace('\u2212', '-'))
    ? Number(plain.replace('\u2212', '-'))
    : Number.NaN;
  if (Number.isFinite(value)) return { ok: true, value };
  return refuse(`${what}, line ${row.line}, ${name}: expected a number, got ${JSON.stringify(cell)}`);
}
