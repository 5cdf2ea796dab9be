/** `offtrue own`: a room of one's own, from a short file written by hand or from tables, made into an exercise file. */
import type { Command } from 'commander';
import { writeExerciseFile } from '../exchange/exercise-file.ts';
import { writeLink } from '../exchange/exercise-link.ts';
import {
  type LinesAt,
  nearnessTo,
  type ReadingsOf,
  readOffsetTable,
  sayNearness,
  withReadings,
} from '../exchange/offset-table.ts';
import { readOutlineLine } from '../exchange/outline-line.ts';
import { exerciseOfRoom, readOwnRoom } from '../exchange/own-room-file.ts';
import { sayBrief } from '../exercise/brief-words.ts';
import type { Exercise } from '../exercise/exercise.ts';
import type { OwnRoom } from '../exercise/own/own-room.ts';
import { buildRecess } from '../recess/recess.ts';
import { sayRecess } from '../recess/trade-words.ts';
import { readText, writeNewText } from './disk.ts';
import { printJson, printLines } from './print.ts';
import { Refused, taken } from './refused.ts';

interface OwnOptions {
  readonly offsets?: string;
  readonly line?: string;
  readonly lines?: string;
  readonly out?: string;
  readonly link?: boolean;
  readonly json?: boolean;
}

/** Adds the verb. */
export function addOwn(program: Command): void {
  program
    .command('own')
    .description('a room of your own: check it, say it in trade words, write its exercise file')
    .argument('<file>', 'the room, written by hand: see `offtrue schema room`')
    .option('--offsets <csv>', 'surfaces from a table: surface, along, up, in, offset, from')
    .option('--lines <S,F,L>', 'where the lines of the table stand: S right of the middle, F in, L up', '0,0,0')
    .option('--line <csv>', 'surfaces from a line round the recess: x, y or y, z or x, z')
    .option('--out <file>', 'write the exercise file')
    .option('--link', 'print what stands after # in a link that opens it')
    .option('--json', 'print the exercise')
    .action(run);
}

async function run(file: string, options: OwnOptions): Promise<void> {
  const told = taken(readOwnRoom(readText(file)), file);
  const { room, readings } = measuredRoom(told, options, file);
  const exercise = taken(exerciseOfRoom(room), file);
  if (options.out !== undefined) writeNewText(options.out, writeExerciseFile(exercise));
  if (options.json) printJson(exercise);
  else if (options.link) printLines([`#/own/${await writeLink(exercise)}`]);
  else printLines(sayAll(exercise, readings));
}

function sayAll(exercise: Exercise, readings: ReadingsOf): string[] {
  const near = nearnessTo(buildRecess(exercise.spec), readings);
  return [
    ...sayRecess(exercise.spec),
    ...sayBrief(exercise.brief),
    ...near.map((n) => `as measured, ${sayNearness(n)}`),
  ];
}

/** The room with the surfaces that tables tell. */
function measuredRoom(told: OwnRoom, options: OwnOptions, file: string): { room: OwnRoom; readings: ReadingsOf } {
  if (options.offsets === undefined && options.line === undefined) return { room: told, readings: {} };
  const { spec } = taken(exerciseOfRoom(told), file);
  let readings: ReadingsOf = {};
  if (options.line !== undefined) readings = taken(readOutlineLine(readText(options.line), spec), options.line);
  if (options.offsets !== undefined) {
    const lines = linesAt(options.lines ?? '0,0,0');
    readings = { ...readings, ...taken(readOffsetTable(readText(options.offsets), spec, lines), options.offsets) };
  }
  return { room: withReadings(told, spec, readings), readings };
}

function linesAt(text: string): LinesAt {
  const [S, F, L, more] = text.split(',').map(Number);
  if (more === undefined && [S, F, L].every((n) => n !== undefined && Number.isFinite(n)))
    return { S, F, L } as LinesAt;
  throw new Refused(`--lines: expected three numbers, as in 0,0,1100, got ${JSON.stringify(text)}`);
}
