/** `offtrue sure`: how sure a learner was, and over several logs whether that is borne out. */
import type { Command } from 'commander';
import { borneOut } from '../marking/how-sure.ts';
import { sayBorne, saySure } from '../marking/how-sure-words.ts';
import { handedInLog } from './marked-log.ts';
import { printJson, printLines } from './print.ts';

/** Adds the verb. */
export function addSure(program: Command): void {
  program
    .command('sure')
    .description('how sure a learner was of each size, and over several logs how often that was borne out')
    .argument('<log...>', 'field logs that are handed in')
    .option('--json', 'print data')
    .action((paths: string[], options: { json?: boolean }) => {
      const logs = paths.map(handedInLog);
      const all = logs.flatMap(({ report }) => report.howSure ?? []);
      const borne = borneOut(all);
      if (options.json)
        return printJson({
          logs: logs.map(({ path, report }) => ({ log: path, howSure: report.howSure ?? [] })),
          borne,
        });
      printLines([
        ...logs.flatMap(({ path, report }) => [
          path,
          ...(report.howSure?.map((s) => `  ${saySure(s)}`) ?? ['  nothing was said of how sure']),
        ]),
        '',
        `over ${all.length} ${all.length === 1 ? 'size' : 'sizes'}`,
        ...borne.map((b) => `  ${sayBorne(b)}`),
      ]);
    });
}
