/** `offtrue schema`: the JSON Schema of a file or of the acts. */
import { toJsonSchema } from '@valibot/to-json-schema';
import type { Command } from 'commander';
import { type GenericSchema, union } from 'valibot';
import { lessonHeaderSchema } from '../course/lesson.ts';
import { entrySchema, logHeaderSchema } from '../exchange/log-file.ts';
import { briefSchema } from '../exercise/brief.ts';
import { exerciseSchema } from '../exercise/exercise.ts';
import { ownRoomSchema } from '../exercise/own/own-room.ts';
import { recessSpecSchema } from '../recess/recess-spec.ts';
import { actSchema } from '../survey/act.ts';
import { printLines } from './print.ts';
import { Refused } from './refused.ts';

const schemas: Readonly<Record<string, { readonly says: string; readonly schema: GenericSchema }>> = {
  act: { says: 'an act, as it is sent to `offtrue field`', schema: actSchema },
  log: {
    says: 'a line of a field log: the first a log-header, the others an entry each',
    schema: union([logHeaderSchema, entrySchema]),
  },
  entry: { says: 'a line of a field log after its header: an act and its outcome', schema: entrySchema },
  'log-header': { says: 'the first line of a field log: which exercise, whose', schema: logHeaderSchema },
  exercise: { says: 'an exercise file', schema: exerciseSchema },
  room: { says: 'a room of your own, written by hand: see `offtrue own`', schema: ownRoomSchema },
  spec: { says: 'the spec of a recess', schema: recessSpecSchema },
  brief: { says: 'a brief', schema: briefSchema },
  lesson: { says: "the header of a lesson's file", schema: lessonHeaderSchema },
};

/** Adds the verb. */
export function addSchema(program: Command): void {
  program
    .command('schema')
    .description('the JSON Schema of a file or of the acts')
    .argument('[name]', Object.keys(schemas).join(', '))
    .option('--list', 'name the schemas')
    .action((name: string | undefined, options: { list?: boolean }) => {
      if (options.list) return printLines(Object.entries(schemas).map(([n, s]) => `${n.padEnd(12)}${s.says}`));
      const found = name !== undefined && Object.hasOwn(schemas, name) ? schemas[name] : undefined;
      if (!found)
        throw new Refused(
          `schema: expected one of ${Object.keys(schemas).join(', ')}, got ${JSON.stringify(name ?? '')}`,
        );
      printLines([JSON.stringify(toJsonSchema(found.schema, { errorMode: 'ignore' }), null, 2)]);
    });
}
