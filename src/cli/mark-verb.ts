/** `offtrue mark` and `offtrue verify`: what became of a survey, and whether its log is a true one. */
import type { Command } from 'commander';
import { reportDigest } from '../exchange/digest.ts';
import { readLog, verifyLog } from '../exchange/log-file.ts';
import { sayReport } from '../marking/report-words.ts';
import { readText } from './disk.ts';
import { markedLog } from './marked-log.ts';
import { printJson, printLines } from './print.ts';
import { Refused, taken, tell } from './refused.ts';

/** Adds both verbs. */
export function addMarkAndVerify(program: Command): void {
  program
    .command('mark')
    .description('mark field logs: where each millimetre went, and the score')
    .argument('<log...>', 'field logs')
    .option('--json', 'print the reports as data')
    .option('--evidence', 'under each heading what it was marked by, and the acts that show it')
    .action((paths: string[], options: { json?: boolean; evidence?: boolean }) => {
      eachLog(paths, (path) => {
        const { log, report } = markedLog(path);
        const digest = reportDigest(report);
        const { learner, scripted = null } = log.header;
        if (options.json) return printJson({ log: path, learner, scripted, digest, cutOff: log.cutOff, report });
        printLines([
          ...(paths.length > 1 ? [`${path}`] : []),
          ...(scripted === null ? [] : [`surveyed by a script: ${scripted}`]),
          ...(log.cutOff ? [`cut off after act ${log.entries.length}: marked as far as it goes`] : []),
          ...sayReport(report, options.evidence ? { evidence: true } : {}),
          `digest ${digest}`,
          ...(paths.length > 1 ? [''] : []),
        ]);
      });
    });
  program
    .command('verify')
    .description('act field logs again from the seed and compare every outcome')
    .argument('<log...>', 'field logs')
    .option('--json', 'print data')
    .action((paths: string[], options: { json?: boolean }) => {
      eachLog(paths, (path) => {
        const log = taken(readLog(readText(path)), path);
        const differs = verifyLog(log);
        if (options.json) printJson({ log: path, holds: differs === null, cutOff: log.cutOff, differs });
        else if (!differs)
          printLines([
            `${path}: holds, ${log.entries.length} ${log.entries.length === 1 ? 'act' : 'acts'}${log.cutOff ? ', cut off after the last' : ''}`,
          ]);
        if (differs)
          throw new Refused(
            `${path}: line ${differs.line}, act ${differs.n}, ${differs.field}: expected ${JSON.stringify(differs.acted)}, got ${JSON.stringify(differs.logged)}`,
          );
      });
    });
}

/** Goes through all, the refused ones told at the end. */
function eachLog(paths: readonly string[], take: (path: string) => void): void {
  const refusals: string[] = [];
  for (const path of paths) {
    try {
      take(path);
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      refusals.push(error.message);
    }
  }
  const [first, ...rest] = refusals;
  for (const line of rest) tell(line, 1);
  if (first !== undefined) throw new Refused(first);
}
