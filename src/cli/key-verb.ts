/** `offtrue key`: the answer key, and how a given carcass and frame stand against it. */
import type { Command } from 'commander';
import { answerKey } from '../marking/answer-key.ts';
import { sayKey } from '../marking/report-words.ts';
import { buildRecess } from '../recess/recess.ts';
import { bayNamed, bayOption, openForShowing, tutorOption } from './opening.ts';
import { printJson, printLines } from './print.ts';
import { Refused } from './refused.ts';

/** Adds the verb. */
export function addKey(program: Command): void {
  program
    .command('key')
    .description('the answer key, and how a carcass and a frame stand against it')
    .argument('<code>', 'an exercise code, or the path of an exercise file')
    .option('--carcass <w,h,d>', 'a carcass in millimetres, as in 1150,2210,380')
    .option('--frame <w,h>', "a frame's blank in millimetres, as in 1186,2440")
    .option(...bayOption)
    .option('--json', 'print data')
    .option(...tutorOption)
    .action(
      (code: string, options: { carcass?: string; frame?: string; bay: string; json?: boolean; tutor?: boolean }) => {
        const exercise = bayNamed(openForShowing(code, options), options.bay);
        const carcass = options.carcass === undefined ? null : sizes('--carcass', options.carcass, 3);
        const frame = options.frame === undefined ? null : sizes('--frame', options.frame, 2);
        const result = answerKey(buildRecess(exercise.spec), exercise, {
          ...(carcass ? { carcass: { widthMm: carcass[0], heightMm: carcass[1], depthMm: carcass[2] as number } } : {}),
          ...(frame ? { frame: { widthMm: frame[0], heightMm: frame[1] } } : {}),
        });
        if (!result.ok)
          throw new Refused(
            `${options.carcass ? `--carcass ${options.carcass}` : code}: outside: ${result.error.says}`,
          );
        if (options.json) printJson(result.key);
        else printLines(sayKey(result.key));
      },
    );
}

function sizes(flag: string, text: string, count: 2 | 3): [number, number, ...number[]] {
  const words = text.split(',').map((s) => s.trim());
  const parts = words.map(Number);
  if (parts.length !== count || !words.every((s) => /^\d+(\.\d+)?$/.test(s)) || parts.some((n) => n <= 0 || n > 4000))
    throw new Refused(
      `${flag}: expected ${count} sizes in millimetres from 0 to 4000 with commas between, got ${JSON.stringify(text)}`,
    );
  return parts as [number, number, ...number[]];
}
