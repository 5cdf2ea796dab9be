/**
 * A table of offsets in CSV, and the surfaces through them.
 *
 *     surface, along, up, in, offset, from
 *
 * `surface` is left, right, back, floor, ceiling or slope; `along` is in from the face line for a side wall, else right of the
 * middle; the other place is `up` for a wall, `in` for a floor, a ceiling or a slope. `offset` is measured off the straight
 * outline, + into the recess, or from the line that `from` names: S, F or L, as a rule reads it.
 */
import type { OwnRoom, OwnSurface } from '../exercise/own/own-room.ts';
import { heightAt } from '../geometry/height-field.ts';
import { outlineRect } from '../recess/corner-offsets.ts';
import { nominalObstruction } from '../recess/defect-shapes.ts';
import { fitMeasured, type MeasuredAt } from '../recess/measured-fit.ts';
import { buildRecess, type Recess } from '../recess/recess.ts';
import { axesOf, type Measured, type RecessSpec, type Side, sides } from '../recess/recess-spec.ts';
import { type CsvRow, type CsvTable, numberIn, readCsv } from './csv.ts';
import { nearestWord } from './nearest-word.ts';
import { type Refusal, refuse, type Taken } from './refusal.ts';

/** Readings by side. */
export type ReadingsOf = Readonly<Partial<Record<Side, readonly MeasuredAt[]>>>;

/** Where the lines stand, mm: S right of the middle, F in, L up. */
export interface LinesAt {
  readonly S: number;
  readonly F: number;
  readonly L: number;
}

const what = 'offsets';

/** Reads a table of offsets against an outline. */
export function readOffsetTable(
  text: string,
  spec: Pick<RecessSpec, 'openingMm' | 'slope' | 'surfaces'>,
  lines: LinesAt = { S: 0, F: 0, L: 0 },
): Taken<ReadingsOf> {
  const table = readCsv(text, what);
  if (!table.ok) return table;
  const known = ['surface', 'along', 'up', 'in', 'offset', 'from'];
  const stranger = table.value.head.find((name) => name !== '' && !known.includes(name));
  if (stranger !== undefined) return unknown('column', stranger, known, 'head');
  const lacking = ['surface', 'along', 'offset'].find((name) => !table.value.head.includes(name));
  if (lacking) return refuse(`${what}: expected a column ${lacking}, got ${table.value.head.join(', ')}`);
  const found: Partial<Record<Side, MeasuredAt[]>> = {};
  for (const row of table.value.rows) {
    const side = row.cells['surface']?.toLowerCase() as Side;
    if (!sides.includes(side)) return unknown('surface', row.cells['surface'] ?? '', sides, `line ${row.line}`);
    if (!spec.surfaces[side]) return refuse(`${what}, line ${row.line}: the ${side} is open`);
    const reading = readingIn(table.value, row, { side, spec, lines });
    if (!reading.ok) return reading;
    found[side] = [...(found[side] ?? []), reading.value];
  }
  return inMillimetres(found, spec) ?? { ok: true, value: found };
}

/** Gives a room the surfaces that come nearest to readings; what else was told of these is left out. */
export function withReadings(room: OwnRoom, spec: RecessSpec, readings: ReadingsOf): OwnRoom {
  const surfaces: { -readonly [side in Side]?: OwnSurface | undefined } = { ...room.surfaces };
  for (const [side, of] of Object.entries(readings) as [Side, readonly MeasuredAt[]][]) {
    const measured = through(spec, side, of);
    const { unevenMm } = surfaces[side] ?? {};
    surfaces[side] = { measured: plain(measured), ...(unevenMm === undefined ? {} : { unevenMm }) };
  }
  return { ...room, surfaces };
}

/** The net whose built surface comes nearest: what it fell short by is put on what it is fitted to, a few times over. */
function through(spec: RecessSpec, side: Side, readings: readonly MeasuredAt[]): Measured {
  const { from, to } = outlineRect(spec, side);
  const span = { u: [from[0], to[0]], v: [from[1], to[1]] } as const;
  let wanted = readings;
  let measured = fitMeasured(wanted, span);
  for (let round = 0; round < 4; round++) {
    const surfaces = { ...spec.surfaces, [side]: { offsetMm: 0, wobbleMm: 0, defects: [], measured } };
    const off = departuresFrom(buildRecess({ ...spec, surfaces }), side, readings);
    wanted = wanted.map((w, i) => ({ ...w, mm: w.mm - (off[i] ?? 0) }));
    measured = fitMeasured(wanted, span);
  }
  return measured;
}

/** How far a built surface lies past each reading, mm. */
function departuresFrom(recess: Recess, side: Side, readings: readonly MeasuredAt[]): number[] {
  return readings.map(
    (r) => heightAt(recess.fields[side], r.u, r.v) - nominalObstruction(recess.spec, side, r.u) - r.mm,
  );
}

/** How near the built surface comes to what was read on it. */
export interface Nearness {
  readonly side: Side;
  readonly count: number;
  readonly worstMm: number;
  readonly rootMeanSquareMm: number;
}

/** Gives how near a built recess comes to readings, a line a side. */
export function nearnessTo(recess: Recess, readings: ReadingsOf): readonly Nearness[] {
  return (Object.entries(readings) as [Side, readonly MeasuredAt[]][]).map(([side, of]) => {
    const off = departuresFrom(recess, side, of);
    const squares = off.reduce((sum, mm) => sum + mm * mm, 0);
    return {
      side,
      count: of.length,
      worstMm: Math.max(...off.map(Math.abs)),
      rootMeanSquareMm: Math.sqrt(squares / off.length),
    };
  });
}

/** Says how near a surface comes to what was read. */
export function sayNearness({ side, count, worstMm, rootMeanSquareMm }: Nearness): string {
  return `${side}: ${count} places, the surface comes within ${worstMm.toFixed(2)} of each (${rootMeanSquareMm.toFixed(2)} root mean square)`;
}

function plain(measured: Measured): NonNullable<OwnSurface['measured']> {
  return { uMm: [...measured.uMm], vMm: [...measured.vMm], mm: measured.mm.map((row) => [...row]) };
}

interface Against {
  readonly side: Side;
  readonly spec: Pick<RecessSpec, 'openingMm' | 'slope'>;
  readonly lines: LinesAt;
}

function readingIn(table: CsvTable, row: CsvRow, of: Against): Taken<MeasuredAt> {
  const { side } = of;
  const upright = axesOf(side).v === 'z';
  const [second, other] = upright ? (['up', 'in'] as const) : (['in', 'up'] as const);
  if ((row.cells[other] ?? '') !== '')
    return refuse(
      `${what}, line ${row.line}, ${other}: expected none, for a place on the ${side} is along and ${second}`,
    );
  const u = numberIn(table, row, 'along', what);
  if (!u.ok) return u;
  const v = numberIn(table, row, second, what);
  if (!v.ok) return v;
  const offset = numberIn(table, row, 'offset', what);
  if (!offset.ok) return offset;
  const at = { u: u.value, v: v.value };
  const far = outsideOf(of.spec, side, at);
  if (far) return refuse(`${what}, line ${row.line}, ${far}`);
  const from = (row.cells['from'] ?? '').toUpperCase();
  const mm = from === '' || from === 'OUTLINE' ? offset.value : offLine(of, from, { ...at, offset: offset.value });
  return typeof mm === 'number' ? { ok: true, value: { ...at, mm } } : refuse(`${what}, line ${row.line}, from: ${mm}`);
}

/** How far a surface stands off its outline, from what a rule reads between it and a line; else why that is no reading. */
function offLine(of: Against, from: string, read: { u: number; offset: number }): number | string {
  const { side, spec, lines } = of;
  const { across } = axesOf(side);
  const line = ({ x: 'S', y: 'F', z: 'L' } as const)[across];
  if (from !== line) return `the ${side} is read from ${line}, got ${JSON.stringify(from)}`;
  const near = side === 'left' || side === 'floor';
  const obstruction = near ? lines[line] - read.offset : 0 - lines[line] - read.offset;
  const off = obstruction - nominalObstruction(spec, side, read.u);
  if (Math.abs(off) > 300 && Math.abs(read.offset) <= 20)
    return `offset: expected millimetres, got ${read.offset}, which looks like metres`;
  return off;
}

/** A place beyond the outline by more than a surface reaches. */
function outsideOf(spec: Pick<RecessSpec, 'openingMm'>, side: Side, at: { u: number; v: number }): string | null {
  const { from, to } = outlineRect(spec, side);
  const name = axesOf(side).v === 'z' ? 'up' : 'in';
  for (const [k, value, word] of [
    [0, at.u, 'along'],
    [1, at.v, name],
  ] as const) {
    const [least, most] = [(from[k] as number) - 200, (to[k] as number) + 200];
    if (value < least || value > most) return `${word}: expected ${least} to ${most}, got ${value}`;
  }
  return null;
}

/** A whole table whose places would all fit in a few millimetres was written in metres. */
function inMillimetres(found: ReadingsOf, spec: Pick<RecessSpec, 'openingMm'>): Refusal | null {
  const { height, width } = spec.openingMm;
  const all = Object.values(found).flat();
  const most = Math.max(...all.flatMap((r) => [Math.abs(r.u), Math.abs(r.v)]));
  const out = Math.max(...all.map((r) => Math.abs(r.mm)));
  if (out > 0 && out < 0.05)
    return refuse(`${what}: expected millimetres, got offsets up to ${out}, which look like metres`);
  return all.length > 1 && most > 0 && most <= Math.max(height, width) / 100
    ? refuse(`${what}: expected millimetres, got places up to ${most}, which look like metres`)
    : null;
}

function unknown(kind: string, word: string, known: readonly string[], where: string): Refusal {
  const nearest = nearestWord(word, known);
  const hint = nearest ? `; the nearest that is known is ${JSON.stringify(nearest)}` : '';
  return refuse(`${what}, ${where}: expected a ${kind} of ${known.join(', ')}, got ${JSON.stringify(word)}${hint}`);
}
