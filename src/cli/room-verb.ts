/** `offtrue room`: the hidden room, in words, as its spec, or sampled. */
import type { Command } from 'commander';
import { writeSamples } from '../exchange/samples-file.ts';
import { buildRecess } from '../recess/recess.ts';
import { sayRecess } from '../recess/trade-words.ts';
import { openForShowing, tutorOption } from './opening.ts';
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
    .option(...tutorOption)
    .action(async (code: string, options: { json?: boolean; samples?: string; tutor?: boolean }) => {
      const exercise = openForShowing(code, options);
      if (options.samples !== undefined) {
        const step = Number(options.samples);
        if (!/^\d+$/.test(options.samples) || step < 1 || step > 128)
          throw new Refused(`--samples: expected a whole number of millimetres from 1 to 128, got ${options.samples}`);
        await printPieces(writeSamples(buildRecess(exercise.spec), exercise, step));
      } else if (options.json) printJson(exercise.spec);
      else printLines(sayRecess(exercise.spec));
    });
}
