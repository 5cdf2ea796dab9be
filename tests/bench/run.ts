/**
 * `npm run bench`: a table of figures with their targets; `npm run bench -- --json FILE` writes them as well, as
 * `[{"name","value","unit","target","met","peer"}]`, null where there is none.
 *
 * What is measured is built first, as the command and the page are: code that is compiled as it is loaded keeps a name for every function that is
 * made, which costs a room some 5 us. Times depend on the machine and on what else it does, so no test looks at them. Exit 0
 * whether targets are met or not; 2: the question is not understood, or a peer's answers differ from ours.
 */
import { writeFileSync } from 'node:fs';
import { cpus } from 'node:os';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { parseArgs } from 'node:util';
import { build } from 'vite';
import type { Figure } from './geometry.ts';
import { pageFigures } from './page.ts';
import type { subjects as measure } from './subjects.ts';

const at = (path: string) => fileURLToPath(new URL(`../../${path}`, import.meta.url));

process.exitCode = await main(process.argv.slice(2));

async function main(args: readonly string[]): Promise<number> {
  const file = jsonFileOf(args);
  if (file === null) return 2;
  console.log(`Node ${process.version}, ${cpus().length} x ${cpus()[0]?.model ?? 'unknown'}`);
  const all: Figure[] = [];
  try {
    const subjects = await built();
    const tell = (name: string, figures: readonly Figure[]) => {
      console.log(`\n${name}`);
      for (const figure of figures) console.log(line(figure));
      all.push(...figures);
    };
    for await (const { name, figures } of subjects(at('src/cli/offtrue.mjs'))) tell(name, figures);
    tell('the page', await pageFigures());
  } catch (error) {
    console.error(error instanceof Error ? error.message : String(error));
    return 2;
  }
  const missed = all.filter((figure) => figure.met === false);
  console.log(missed.length === 0 ? '\nevery target is met' : `\ntargets missed: ${missed.length}`);
  for (const { name, value, target, peer } of missed)
    console.log(`  ${name.trim()}${peer ? ` (${peer})` : ''}: ${shown(value)} against ${target}`);
  if (file !== undefined) writeFileSync(file, `${JSON.stringify(all.map(written), null, 1)}\n`);
  return 0;
}

/** The file to write; undefined where none is asked for, null where the question is not understood. */
function jsonFileOf(args: readonly string[]): string | null | undefined {
  try {
    return parseArgs({ args: [...args], options: { json: { type: 'string' } } }).values.json;
  } catch (error) {
    console.error(`bench: expected no arguments or --json FILE: ${error instanceof Error ? error.message : error}`);
    return null;
  }
}

async function built(): Promise<typeof measure> {
  const outDir = at('test-results/bench');
  await build({
    configFile: false,
    logLevel: 'error',
    root: at('tests/bench'),
    build: {
      ssr: at('tests/bench/subjects.ts'),
      outDir,
      emptyOutDir: true,
      target: 'node20',
      minify: false,
      rolldownOptions: { output: { entryFileNames: 'subjects.js' } },
    },
  });
  const { subjects } = await import(pathToFileURL(`${outDir}/subjects.js`).href);
  return subjects;
}

function line({ name, value, unit, target, met }: Figure): string {
  const verdict = met === undefined ? '' : met ? 'met' : 'MISSED';
  const wanted = target === undefined ? '' : `target ${target}`;
  return `  ${name.padEnd(62)}${shown(value).padStart(10)} ${unit.padEnd(6)}${wanted.padEnd(14)}${verdict}`.trimEnd();
}

function shown(value: number): string {
  return value >= 1000 ? String(Math.round(value)) : String(Number(value.toPrecision(3)));
}

function written({ name, value, unit, target, met, peer }: Figure): Record<string, unknown> {
  return { name: name.trim(), value, unit, target: target ?? null, met: met ?? null, peer: peer ?? null };
}
