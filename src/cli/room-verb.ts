/** `offtrue room`: the hidden room, in words, as its spec, or sampled. */
import type { Command } from 'commander';
import { writeSamples } from '../exchange/samples-file.ts';
import { saySpec } from '../exercise/spec-words.ts';
import { buildRecess } from '../recess/recess.ts';
import { bayNamed, bayOption, openForShowing, tutorOption } from './opening.ts';
import { printJson, printLines, printPieces } from './print.ts';
import { Refused } from './refused.ts';

/** Adds the verb. */
export function addRoom(program: Command): void {
  program
    .command('room')
    .description('the hidden room in trade words')
    .argument('<code>', 'an exercise code, or the path of an exercise file')
    .option('--json', 'print the spec')
    .option('--samples <mm>', 'print the heights on a grid of so many millimetres, 1 to 128')
    .option(...bayOption)
    .option(...tutorOption)
    .action(async (code: string, options: { json?: boolean; samples?: string; bay: string; tutor?: boolean }) => {
      const exercise = openForShowing(code, options);
      if (options.samples !== undefined) {
        const step = Number(options.samples);
        if (!/^\d+$/.test(options.samples) || step < 1 || step > 128)
          throw new Refused(`--samples: expected a whole number of millimetres from 1 to 128, got ${options.samples}`);
        const bay = bayNamed(exercise, options.bay);
        await printPieces(writeSamples(buildRecess(bay.spec), bay, step));
      } else if (options.json) printJson(exercise.spec);
      else printLines(saySpec(exercise));
    });
}
