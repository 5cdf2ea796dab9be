/** `offtrue code`: makes exercise codes. */
import { randomInt } from 'node:crypto';
import { type Command, InvalidArgumentError } from 'commander';
import { families, seedCount, writeCode } from '../exercise/exercise-code.ts';
import { presets } from '../exercise/kit.ts';
import { alcoveStructures } from '../recess/alcove-structures.ts';
import { severities } from '../recess/severity.ts';
import { printJson, printLines } from './print.ts';
import { Refused } from './refused.ts';

interface CodeOptions {
  readonly family: string;
  readonly severity: string;
  readonly structure?: string;
  readonly kit: string;
  readonly seed?: number;
  readonly count: number;
  readonly list?: boolean;
  readonly json?: boolean;
}

/** Adds the verb. */
export function addCode(program: Command): void {
  program
    .command('code')
    .description('make exercise codes')
    .option('--family <name>', 'kind of recess', 'alcove')
    .option('--severity <name>', 'how far out of true', 'settled')
    .option('--structure <name>', 'which surface is bad; left out, one is drawn by the seed')
    .option('--kit <name>', 'kit and aids', 'guided')
    .option('--seed <n>', `0 to ${seedCount - 1}; left out, one is drawn`, whole)
    .option('--count <n>', 'how many codes, with seeds one after the other', whole, 1)
    .option('--list', 'name what there is')
    .option('--json', 'print data')
    .action(run);
}

function run(options: CodeOptions): void {
  if (options.list) {
    list(options.json ?? false);
    return;
  }
  check('family', options.family, families);
  check('severity', options.severity, severities);
  check('kit', options.kit, presets);
  if (options.structure !== undefined) check('structure', options.structure, alcoveStructures);
  if (options.count < 1 || options.count > 10_000)
    throw new Refused(`--count: expected a whole number from 1 to 10000, got ${options.count}`);
  const first = options.seed ?? randomInt(seedCount);
  if (first >= seedCount) throw new Refused(`--seed: expected a whole number from 0 to ${seedCount - 1}, got ${first}`);
  const parts = Array.from({ length: options.count }, (_, i) => {
    const seed = (first + i) % seedCount;
    const structure = options.structure ?? (alcoveStructures[seed % alcoveStructures.length]?.name as string);
    return { family: options.family, severity: options.severity, structure, kit: options.kit, seed };
  });
  const codes = parts.map((p) => ({ code: writeCode(p), ...p }));
  if (options.json) printJson(codes);
  else printLines(codes.map((c) => c.code));
}

function list(json: boolean): void {
  const all = { families, severities, structures: alcoveStructures, kits: presets };
  const named = Object.fromEntries(
    Object.entries(all).map(([what, items]) => [what, items.map(({ name, says }) => ({ name, says }))]),
  );
  if (json) {
    printJson(named);
    return;
  }
  printLines(
    Object.entries(named).flatMap(([what, items]) => [what, ...items.map((i) => `  ${i.name.padEnd(14)}${i.says}`)]),
  );
}

function check(what: string, name: string, of: readonly { readonly name: string }[]): void {
  if (!of.some((item) => item.name === name))
    throw new Refused(`--${what}: expected one of ${of.map((i) => i.name).join(', ')}, got ${JSON.stringify(name)}`);
}

function whole(text: string): number {
  if (!/^\d{1,9}$/.test(text)) throw new InvalidArgumentError('expected a whole number');
  return Number(text);
}
