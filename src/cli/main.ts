/**
 * The command `offtrue`: parse, call a room below, print. Exit codes: 0 done, 1 refused with one line, 2 a fault.
 */
import { Command, CommanderError } from 'commander';
import { addCode } from './code-verb.ts';
import { addCompare } from './compare-verb.ts';
import { addDemo } from './demo-verb.ts';
import { reasonOf } from './disk.ts';
import { addField } from './field-verb.ts';
import { addKey } from './key-verb.ts';
import { addLearner } from './learner-verb.ts';
import { addMarkAndVerify } from './mark-verb.ts';
import { addOwn } from './own-verb.ts';
import { Refused, tell } from './refused.ts';
import { addRoom } from './room-verb.ts';
import { addSchema } from './schema-verb.ts';
import { addSure } from './sure-verb.ts';

declare const __VERSION__: string;

process.stdout.on('error', (error: Error & { code?: string }) => {
  // The reader went away, as `head` does: nothing is wrong.
  if (error.code === 'EPIPE') process.exit(0);
  process.exit(tell(`standard output: expected a place that can be written, got ${reasonOf(error)}`, 1));
});

process.exitCode = await run(process.argv);

async function run(argv: readonly string[]): Promise<number> {
  const program = new Command('offtrue')
    .description('Survey recesses that are out of true by datums, and see where every millimetre went.')
    .version(typeof __VERSION__ === 'string' ? __VERSION__ : 'unbuilt')
    .showSuggestionAfterError(false)
    .configureOutput({ writeErr: () => undefined })
    .exitOverride();
  for (const add of [
    addDemo,
    addCode,
    addRoom,
    addKey,
    addField,
    addLearner,
    addMarkAndVerify,
    addCompare,
    addSure,
    addOwn,
    addSchema,
  ])
    add(program);
  for (const command of program.commands) command.exitOverride().configureOutput({ writeErr: () => undefined });
  try {
    await program.parseAsync([...argv]);
    return 0;
  } catch (error) {
    return ended(error, program);
  }
}

function ended(error: unknown, program: Command): number {
  if (error instanceof Refused) return tell(error.message, 1);
  if (error instanceof CommanderError) {
    if (error.exitCode === 0) return 0;
    if (error.code === 'commander.help') {
      process.stdout.write(program.helpInformation());
      return tell('expected a verb, got none', 1);
    }
    return tell(error.message.replace(/^error: /, ''), 1);
  }
  return tell(`fault: ${error instanceof Error ? error.message : String(error)}`, 2);
}
