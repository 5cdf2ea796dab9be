/**
 * M08, M09, M13, M14: the face line runs off what the brief has it follow. What it follows instead, or how it was lined
 * up, is told from the log; where the log does not tell, it is off the reference and no more is said.
 */

import { signedDistance } from '../../geometry/plane.ts';
import { sayLength } from '../../recess/lengths.ts';
import { sideName } from '../../recess/side-words.ts';
import { datumParts } from '../../survey/act.ts';
import { targetPoint } from '../../survey/set-up-acts.ts';
import type { Entry, Reading } from '../../survey/survey.ts';
import { type FaceLineOff, faceLineOff } from '../face-line.ts';
import { lineOf } from '../ledger.ts';
import { byLooking } from './catching.ts';
import type { Evidence } from './evidence.ts';
import { type Found, type Mistake, nothingMm } from './mistake.ts';

/** A line runs along a surface when two places of it lie as far from the line within this, mm. */
const alongMm = 1.5;
/** Two places tell a direction when they lie this far apart, mm. */
const fewestApartMm = 100;

export const wallAsSquare: Mistake = {
  id: 'M08',
  name: 'wall taken as square',
  find: (from) => {
    const off = offReference(from);
    const pair = off && followed(from, 'S');
    if (!off || !pair) return null;
    return found(from, off, {
      happened:
        'The square line was turned until it ran along a side wall, and that wall is not square to the reference.',
      did: `You read the ${sideName(from.survey.world.exercise.spec, pair.side ?? 'left')} from ${pair.datum} in two places and turned the level until they agreed.`,
      next: 'Line up the face line first. The square line is made from it; no wall is a square.',
      acts: [pair.n],
    });
  },
};

export const wrongReference: Mistake = {
  id: 'M09',
  name: 'face line off the reference',
  find: (from) => {
    const off = offReference(from);
    if (!off) return null;
    const pair = followed(from, 'F');
    return found(from, off, {
      happened: 'The face line does not run along what the eye will lay the work against.',
      did: pair
        ? `You turned ${pair.datum} until it ran along the ${sideName(from.survey.world.exercise.spec, pair.side ?? 'back')}.`
        : `You read from ${off.datum} as it stood.`,
      next: 'Ask what the eye will lay it against. Turn the level until the line runs along that from end to end.',
      acts: pair ? [pair.n] : [],
    });
  },
};

export const shortBaseline: Mistake = {
  id: 'M13',
  name: 'baseline too short',
  find: (from) => {
    const { survey } = from;
    const off = offReference(from);
    const last = survey.entries.filter((e) => e.outcome.ok && directs(e)).at(-1);
    if (!off || !survey.standing || last?.act.act !== 'aim') return null;
    const target = targetPoint(survey, last.act.at);
    if (!target) return null;
    const baseMm = inPlan(survey.standing.at, target);
    const farMm = Math.max(0, ...survey.readings.map((r) => inPlan(survey.standing?.at ?? r.point, r.point)));
    if (baseMm >= farMm / 2) return null;
    return found(from, off, {
      happened: `The level was turned by a target ${sayLength(Math.round(baseMm))} away, and read from as far as ${sayLength(Math.round(farMm))}. What is off at the target grows with the distance.`,
      did: `You aimed at one place ${sayLength(Math.round(baseMm))} from the level and turned no more.`,
      next: 'Put the two places that you line up on further apart than what you are going to measure.',
      acts: [last.n],
    });
  },
};

export const marksLost: Mistake = {
  id: 'M14',
  name: 'marks on something that comes off',
  find: (from) => {
    const { entries } = from.survey;
    const lost = entries.find((e) => e.outcome.ok && e.act.act === 'clear' && (e.outcome.marksLost?.length ?? 0) > 0);
    const off = offReference(from);
    if (!lost || !off || lost.act.act !== 'clear') return null;
    const after = entries.find((e) => e.n > lost.n && e.outcome.ok && e.act.act === 'stand');
    if (!after) return null;
    return found(from, off, {
      happened: `The marks went away with the ${lost.act.trim}, and the line could not be found again by them.`,
      did: `You put your marks on the ${lost.act.trim}, took it off, and stood the level again without them.`,
      next: 'Take off first what comes off. Mark on the wall, or on what stays.',
      acts: [lost.n, after.n],
    });
  },
};

/** How the face line runs off, where that is more than is seen or marked, and than the reference wavers by; else null. */
function offReference(from: Evidence): (FaceLineOff & { readonly mm: number }) | null {
  const off = faceLineOff(from.survey);
  if (!off || from.survey.readings.length === 0) return null;
  const { limits, setUp } = from.survey.world.exercise.headings;
  const runs = Math.abs(off.rightMm - off.leftMm);
  const most = Math.max(Math.abs(off.leftMm), Math.abs(off.rightMm));
  // A line laid along what wavers is off its ends by some of that, whoever lays it.
  const slackMm = from.brief.referenceWaverMm / 2;
  if (runs <= limits.visibleMm + slackMm && most <= setUp.referenceWithinMm + slackMm) return null;
  return { ...off, mm: Math.max(runs, most) };
}

/**
 * Finds the reading that shows what a line was turned along: two of one surface were taken just before the level was last
 * turned, to look and not to book, and now lie as far from the line as each other.
 */
function followed(from: Evidence, kind: 'F' | 'S'): Reading | null {
  const { survey } = from;
  const turn = survey.entries.filter((e) => e.outcome.ok && directs(e)).at(-1);
  const now = turn && survey.readings.find((r) => r.n > turn.n && datumParts(r.datum).kind === kind);
  if (turn?.act.act !== 'turn' || !now) return null;
  const isLook = (r: Reading) => !survey.bookings.some((b) => b.said.reading === r.n);
  const before = survey.readings.filter((r) => r.n < turn.n && datumParts(r.datum).kind === kind);
  const [a, b] = before.slice(-2);
  if (!a || !b || !isLook(a) || !isLook(b) || a.side === null) return null;
  if (a.side !== b.side || a.datum !== now.datum || inPlan(a.point, b.point) < fewestApartMm) return null;
  const apart = Math.abs(signedDistance(now.plane, a.point) - signedDistance(now.plane, b.point));
  return apart <= alongMm ? b : null;
}

function directs(e: Entry): boolean {
  return e.act.act === 'turn' || e.act.act === 'aim';
}

function inPlan(a: { x: number; y: number }, b: { x: number; y: number }): number {
  return Math.sqrt((a.x - b.x) * (a.x - b.x) + (a.y - b.y) * (a.y - b.y));
}

interface Said {
  readonly happened: string;
  readonly did: string;
  readonly next: string;
  readonly acts: readonly number[];
}

function found(from: Evidence, off: FaceLineOff & { readonly mm: number }, said: Said): Found | null {
  const costMm = Math.max(off.mm, ...from.sizes.map((size) => Math.abs(lineOf(from.ledger(size), 'set-up'))));
  if (costMm <= nothingMm) return null;
  const end = (mm: number) => `${sayLength(Math.abs(mm))} ${mm < 0 ? 'in front of' : 'behind'} it`;
  return {
    costMm,
    sizes: [],
    acts: said.acts,
    caught: byLooking(from),
    happened: [`${said.happened} At the left it stood ${end(off.leftMm)}, at the right ${end(off.rightMm)}.`],
    did: [said.did],
    next: [said.next],
  };
}
