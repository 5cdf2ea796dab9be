/** `offtrue code`: makes exercise codes. */
import { randomInt } from 'node:crypto';
import type { Command } from 'commander';
import { drawKey, pick, purpose } from '../chance/keyed-draws.ts';
import { seedCount, writeCode } from '../exercise/exercise-code.ts';
import { presets } from '../exercise/kit.ts';
import { families, familyOf } from '../recess/families/families.ts';
import { severities } from '../recess/severity.ts';
import { printJson, printLines } from './print.ts';
import { Refused, tell } from './refused.ts';
import { sayThrown, teachingCodes } from './teaching-codes.ts';

interface CodeOptions {
  readonly family: string;
  readonly severity: string;
  readonly structure?: string;
  readonly kit: string;
  readonly seed?: number;
  readonly count: number;
  readonly teaching?: string;
  readonly list?: boolean;
  readonly json?: boolean;
}

interface Named {
  readonly name: string;
  readonly says: string;
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
    .option('--seed <n>', `0 to ${seedCount - 1}; left out, one is drawn`, (text) =>
      whole('--seed', text, { from: 0, to: seedCount - 1 }),
    )
    .option(
      '--count <n>',
      'how many codes, with seeds one after the other',
      (text) => whole('--count', text, { from: 1, to: 10_000 }),
      1,
    )
    .option(
      '--teaching <mistake>',
      'rooms in which a mistake costs 3 mm or more and a careful survey by the least readings succeeds',
    )
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
  const { structures } = familyOf(options.family);
  if (options.structure !== undefined) check('structure', options.structure, structures);
  const first = options.seed ?? randomInt(seedCount);
  if (options.teaching !== undefined) {
    teach(options, options.teaching, first);
    return;
  }
  const parts = Array.from({ length: options.count }, (_, i) => {
    const seed = (first + i) % seedCount;
    const structure = options.structure ?? drawnStructure(structures, seed);
    return { family: options.family, severity: options.severity, structure, kit: options.kit, seed };
  });
  const codes = parts.map((p) => ({ code: writeCode(p), ...p }));
  if (options.json) printJson(codes);
  else printLines(codes.map((c) => c.code));
}

/** Codes on standard output, one a line; what was thrown away on standard error, so that a script reads codes alone. */
function teach(options: CodeOptions, mistake: string, first: number): void {
  const { family, severity, kit, structure, count } = options;
  const wanted = { family, severity, kit, ...(structure === undefined ? {} : { structure }) };
  const made = teachingCodes(wanted, mistake, { first, count });
  if (options.json) {
    const codes = made.found.map(({ code, parts, tested, thrown }) => {
      const { costMm, size, careful } = tested;
      return { code, ...parts, mistake: made.mistake.mistake, costMm, size, careful, thrownAway: thrown };
    });
    printJson(codes);
  } else printLines(made.found.map((f) => f.code));
  tell(sayThrown(made), 0);
}

function list(json: boolean): void {
  const named = (items: readonly Named[]) => items.map(({ name, says }) => ({ name, says }));
  const structures = families.flatMap((f) => named(f.structures).map((s) => ({ ...s, family: f.name })));
  if (json) {
    printJson({ families: named(families), severities: named(severities), structures, kits: named(presets) });
    return;
  }
  const wide = Math.max(...[...families, ...severities, ...structures, ...presets].map((i) => i.name.length)) + 2;
  const lines = (items: readonly Named[]) => items.map((i) => `  ${i.name.padEnd(wide)}${i.says}`);
  printLines([
    'families',
    ...lines(families),
    'severities',
    ...lines(severities),
    ...families.flatMap((f) => [`structures of ${f.name}`, ...lines(f.structures)]),
    'kits',
    ...lines(presets),
  ]);
}

function check(what: string, name: string, of: readonly { readonly name: string }[]): void {
  if (!of.some((item) => item.name === name))
    throw new Refused(`--${what}: expected one of ${of.map((i) => i.name).join(', ')}, got ${JSON.stringify(name)}`);
}

const whyStructure = purpose('cli/structure');

/** A structure for a seed, such that neither the seed nor its neighbours tell which. */
function drawnStructure(of: readonly { readonly name: string }[], seed: number): string {
  const at = pick(drawKey(`offtrue/structure/${seed}`), whyStructure, { index: 0, count: of.length });
  return of[at]?.name as string;
}

function whole(flag: string, text: string, { from, to }: { from: number; to: number }): number {
  const n = /^\d{1,9}$/.test(text) ? Number(text) : Number.NaN;
  if (n >= from && n <= to) return n;
  throw new Refused(`${flag}: expected a whole number from ${from} to ${to}, got ${JSON.stringify(text)}`);
}
