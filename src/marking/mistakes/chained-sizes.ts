/**
 * M24: carcasses set out each from the last, so that what is rounded off one is in all that follow.
 *
 * The wrong rule is run on what was booked: the width that the sheet gives, shared, rounded, and laid end to end.
 */
import { sayLength } from '../../recess/lengths.ts';
import { workOutSize } from '../../survey/working-out.ts';
import type { Word } from '../ledger-story.ts';
import { type Mistake, nothingMm } from './mistake.ts';

/** Joints that were reckoned alike have the same width to this, mm. */
const alikeMm = 0.01;
/** A width was rounded by no more than this, to the half or the whole millimetre, mm. */
const roundedMm = 1;
/** What was sent agrees with a rule within this, mm. */
const agreesMm = 0.55;

export const chainedSizes: Mistake = {
  id: 'M24',
  name: 'part-sizes chained',
  find: (from) => {
    const { survey, brief } = from;
    const runMm = survey.proposal?.runMm;
    const count = brief.modules?.count ?? 0;
    const wide = workOutSize(survey, 'carcass-width').workshopMm;
    const right = workOutSize(survey, 'run-right').workshopMm;
    if (!runMm || count < 2 || runMm.length !== count + 1 || wide === null || right === null) return null;
    const steps = runMm.slice(1).map((at, i) => at - (runMm[i] as number));
    const [step = 0] = steps;
    const each = wide / count;
    if (steps.some((s) => Math.abs(s - step) > alikeMm) || !isRounded(step) || Math.abs(step - each) > roundedMm)
      return null;
    const last = runMm[count] as number;
    const driftMm = count * (step - each);
    if (Math.abs(last - right - driftMm) > agreesMm || Math.abs(driftMm) <= nothingMm) return null;
    return {
      costMm: Math.abs(driftMm),
      sizes: ['run-right'],
      acts: survey.entries.filter((e) => e.act === survey.proposal).map((e) => e.n),
      caught: {
        act: null,
        where: 'the last joint, from S',
        seenMm: right,
        says: `From S the right-hand end comes out at ${sayLength(right)}; ${count} times ${sayLength(step)} from the left-hand end comes out at ${sayLength(last)}.`,
      },
      happened: [
        `What was rounded off one carcass is in every joint after it. By the right-hand end it has grown to ${sayLength(Math.abs(driftMm))}.`,
      ],
      did: [
        'You made each carcass ',
        his(step),
        ` wide and set each one out from the last; ${sayLength(wide)} shared by ${count} is ${hundredth(each)}.`,
      ],
      next: [
        'Give every joint from the one line, S. Round each one by itself: then none carries what was off in another.',
      ],
    };
  },
};

function isRounded(mm: number): boolean {
  return Math.abs(2 * mm - Math.round(2 * mm)) < alikeMm;
}

function his(mm: number): Word {
  return { his: sayLength(mm) };
}

function hundredth(mm: number): string {
  return String(Math.round(mm * 100) / 100);
}
