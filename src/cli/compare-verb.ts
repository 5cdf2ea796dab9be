/** `offtrue compare`: two logs of one room side by side. */
import { basename } from 'node:path';
import type { Command } from 'commander';
import { compareSurveys } from '../marking/compare.ts';
import { sayComparison, sayParting } from '../marking/compare-words.ts';
import { handedInLog } from './marked-log.ts';
import { printJson, printLines } from './print.ts';
import { Refused } from './refused.ts';

/** Adds the verb. */
export function addCompare(program: Command): void {
  program
    .command('compare')
    .description('two logs of one room side by side: where the readings were taken, ledger against ledger')
    .argument('<log>', 'a field log that is handed in')
    .argument('<other>', 'another of the same exercise')
    .option('--json', 'print data')
    .action((path: string, otherPath: string, options: { json?: boolean }) => {
      const [one, other] = [handedInLog(path), handedInLog(otherPath)];
      const [mine, its] = [one.survey.world.exercise, other.survey.world.exercise];
      if (JSON.stringify(mine) !== JSON.stringify(its))
        throw new Refused(
          `${otherPath}: expected a log of ${mine.code ?? 'the same exercise'}, got one of ${its.code ?? 'another'}`,
        );
      const comparison = compareSurveys(one, other);
      if (options.json) return printJson({ logs: [path, otherPath], comparison });
      const names = namesOf(path, otherPath);
      const parting = comparison.sizes.map((s) => sayParting(s, names)).filter((words) => words !== '');
      printLines([...sayComparison(comparison, names, mine.spec), ...(parting.length > 0 ? ['', ...parting] : [])]);
    });
}

/** What the two are called: their files' names, or `one` and `other` where these are alike. */
function namesOf(a: string, b: string): readonly [string, string] {
  const [one, other] = [a, b].map((path) => basename(path).replace(/\.[^.]+$/, '')) as [string, string];
  return one === other ? ['one', 'other'] : [one, other];
}
