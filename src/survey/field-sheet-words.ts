/**
 * The field sheet as text: the learner's own bookings, at their places, against their datums.
 */
import { sayRead, sayWritten, unitWord } from '../recess/lengths.ts';
import { axesOf, type Side } from '../recess/recess-spec.ts';
import { type SidesOf, sayTo } from '../recess/side-words.ts';
import type { ActOf, PlaceSaid } from './act.ts';
import { closingChecks } from './closing-checks.ts';
import { type BookedOffset, bookedOffsets } from './offsets.ts';
import type { Survey } from './survey.ts';

/** What the rows and columns of a side's table are. */
const tableOf: Record<Side, { rowName: string; columnName: string }> = {
  left: { rowName: 'height', columnName: 'depth' },
  right: { rowName: 'height', columnName: 'depth' },
  back: { rowName: 'height', columnName: 'place along' },
  floor: { rowName: 'depth', columnName: 'place along' },
  ceiling: { rowName: 'depth', columnName: 'place along' },
  slope: { rowName: 'depth', columnName: 'place along' },
};

/**
 * Says the field sheet, a line an element.
 *
 * @returns offsets as tables (rows by height or by how far in), then verdicts on the level, tape sizes, struck bookings, steps carried over,
 *   closing checks and notes
 */
export function saySheet(survey: Survey): string[] {
  const offsets = bookedOffsets(survey).filter((o) => !o.check);
  const tables = [...new Set(offsets.map((o) => `${o.datum} ${o.side}`))].flatMap((key) =>
    sayTable(
      survey.world.exercise.spec,
      offsets.filter((o) => `${o.datum} ${o.side}` === key),
    ),
  );
  const rest = [
    ...sayVerdicts(checksOf(survey)),
    ...sayTapes(survey),
    ...sayStruck(survey),
    ...sayCarries(survey),
    ...sayChecks(survey),
  ];
  const notes = survey.notes.map((text) => `note: ${text}`);
  const all = [...tables, ...rest, ...notes];
  return all.length > 0 ? all : ['nothing is booked yet'];
}

/** Says a place as it was said. */
export function sayPlace(place: PlaceSaid): string {
  if ('mark' in place) return `mark ${place.mark}`;
  const parts = [
    place.along === undefined ? '' : `along ${place.along}`,
    place.xMm === undefined ? '' : `${sayWritten(place.xMm)} along`,
    place.yMm === undefined ? '' : `${sayWritten(place.yMm)} in`,
    place.zMm === undefined ? '' : `${sayWritten(place.zMm)} up`,
  ];
  return `${place.surface}, ${parts.filter((p) => p !== '').join(', ')}`;
}

function sayTable(of: SidesOf, offsets: readonly BookedOffset[]): string[] {
  const first = offsets[0];
  if (!first) return [];
  const { rowName, columnName } = tableOf[first.side];
  const columns = distinct(offsets.map(columnOf));
  const rows = distinct(offsets.map((o) => String(Math.round(o.at.v))));
  const cell = (row: string, column: string) =>
    offsets
      .filter((o) => String(Math.round(o.at.v)) === row && columnOf(o) === column)
      .map((o) => sayWritten(o.said.valueMm))
      .join(' and ') || '·';
  const cells = rows.flatMap((row) => columns.map((column) => cell(row, column)));
  const wide = Math.max(8, ...[...columns.map(headed), ...cells].map((c) => c.length + 2));
  const line = (head: string, cells: readonly string[]) =>
    `  ${head.padEnd(8)}${cells.map((c) => c.padStart(wide)).join('')}`;
  const rising = axesOf(first.side).v === 'y' ? 1 : -1;
  return [
    `from ${first.datum} ${sayTo(of, first.side)}, ${unitWord()}: a row for each ${rowName}, a column for each ${columnName}`,
    line('', columns.map(headed)),
    ...rows
      .sort((a, b) => rising * (Number(a) - Number(b)))
      .map((row) =>
        line(
          headed(row),
          columns.map((c) => cell(row, c)),
        ),
      ),
  ];
}

function columnOf(o: BookedOffset): string {
  const along = 'surface' in o.said.place ? o.said.place.along : undefined;
  return along !== undefined && (o.side === 'left' || o.side === 'right') ? `on ${along}` : String(Math.round(o.at.u));
}

/** A row's or a column's place as it is said. */
function headed(place: string): string {
  return Number.isNaN(Number(place)) ? place : sayWritten(Number(place));
}

/** Distinct words, numbers among them in rising order after the rest. */
function distinct(words: readonly string[]): string[] {
  const value = (w: string) => (Number.isNaN(Number(w)) ? -1e9 : Number(w));
  return [...new Set(words)].sort((a, b) => value(a) - value(b) || (a < b ? -1 : 1));
}

/** Says the verdicts on a level as they were written down: `level checked for plumb (S): use, 0.42 mm a metre, allowed for`. */
export function sayVerdicts(checks: readonly ActOf<'check'>[]): string[] {
  const levels = new Set(checks.map((c) => c.level ?? 1));
  return checks
    .filter((c) => c.verdict !== undefined)
    .map(({ check, verdict, errorMmPerM, allow, of, level }) => {
      const which = levels.size > 1 ? `level ${level ?? 1}` : 'level';
      const way = of === undefined ? '' : ` (${of === 'fore' ? 'front to back' : of === 'side' ? 'side to side' : of})`;
      const error = errorMmPerM === undefined ? '' : `, ${errorMmPerM} mm a metre`;
      return `${which} checked for ${check}${way}: ${verdict === 'use' ? 'use' : 'do not use'}${error}${allow ? ', allowed for' : ''}`;
    });
}

function checksOf({ entries }: Survey): readonly ActOf<'check'>[] {
  return entries.flatMap(({ act, outcome }) => (act.act === 'check' && outcome.ok ? [act] : []));
}

function sayTapes(survey: Survey): string[] {
  return survey.bookings
    .filter((b) => !b.struck && b.said.what !== 'offset')
    .map(({ said }) => {
      const to = typeof said.to === 'string' ? said.to : said.to ? sayPlace(said.to) : '';
      return `${said.what === 'span' ? 'tape' : 'diagonal'} from ${sayPlace(said.place)} to ${to}: ${sayWritten(said.valueMm)}`;
    });
}

function sayStruck(survey: Survey): string[] {
  const struck = survey.bookings.filter((b) => b.struck);
  return struck.map(({ n, said }) => `struck through: ${sayWritten(said.valueMm)} (act ${n}), ${sayPlace(said.place)}`);
}

function sayCarries(survey: Survey): string[] {
  return survey.carries.map(
    ({ said }) => `carried over: ${said.from} stands ${sayWritten(said.stepMm)} from ${said.to}`,
  );
}

function sayChecks(survey: Survey): string[] {
  const names = {
    width: 'left + right against the tape',
    height: 'down + up against the tape',
    again: 'read again',
    diagonal: 'diagonal',
  };
  return closingChecks(survey).map(
    (c) =>
      `closing check, ${names[c.kind]}: ${sayRead(c.predictedMm)}, ${sayRead(c.directMm)}, differ ${sayRead(c.misclosureMm)}`,
  );
}
