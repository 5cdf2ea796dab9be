/**
 * Acts of a log in words, a line each: what was done and what it showed. For looking back on what was handed in.
 */
import { sayLength, sayWritten } from '../recess/lengths.ts';
import type { SidesOf } from '../recess/side-words.ts';
import { type Act, type ActOf, datumParts } from '../survey/act.ts';
import { type Done, refusalCodes } from '../survey/outcome.ts';
import type { Entry } from '../survey/survey.ts';
import { sayBookedPlace } from './place-words.ts';

/** Says an act and what came of it: `read from S, left wall, 2400 up, 388 in: line from 596.1 to 597.8`. */
export function sayEntry({ act, outcome }: Entry, room: SidesOf): string {
  const done = sayAct(act, room);
  if (!outcome.ok) return `${done}: refused, ${refusalCodes[outcome.error.code]}`;
  const seen = saySeen(outcome);
  return seen === '' ? done : `${done}: ${seen}`;
}

function sayAct(act: Act, room: SidesOf): string {
  const at = (place: ActOf<'read'>['place']) => sayBookedPlace(place, room);
  switch (act.act) {
    case 'stand':
      return `stand the level, ${sayWritten(act.xMm)} right and ${sayWritten(act.yMm)} in, ${sayWritten(act.heightMm)} up`;
    case 'move':
      return `move it ${sayLength(act.byXMm)} right, ${sayLength(act.byYMm)} in`;
    case 'turn':
      return `turn it${act.quarters ? ` ${act.quarters} quarters and` : ''} ${tenth(act.byMmPerM)} mm a metre to the left`;
    case 'raise':
      return `raise it ${sayLength(act.byMm)}`;
    case 'aim':
      return `aim ${act.plane} at ${'mark' in act.at ? `mark ${act.at.mark}` : `the reference, ${sayWritten(act.at.referenceXMm)}`}`;
    case 'check':
      return `check ${act.check}${act.verdict ? `, verdict ${act.verdict}` : ''}${act.allow ? ', allowed for' : ''}`;
    case 'mark':
    case 'edge':
    case 'plumb':
      return `${actNames[act.act]}, ${at(act.place)}`;
    case 'rub-out':
      return `rub out mark ${act.mark}`;
    case 'clear':
      return `take off the ${act.trim}`;
    case 'read':
      return `read from ${act.datum}, ${at(act.place)}`;
    case 'span':
      return `tape from ${at(act.place)} to the ${act.to}`;
    case 'diagonal':
      return `tape from ${at(act.from)} to ${at(act.to)}`;
    case 'book':
      return `book ${sayWritten(act.valueMm)}${act.datum ? ` from ${act.datum}` : ''}, ${at(act.place)}${act.check ? ', a check' : ''}`;
    case 'strike':
      return `strike through act ${act.booking}`;
    case 'carry':
      return `carry ${act.from} to ${act.to}, ${sayWritten(act.stepMm)}`;
    case 'note':
      return `note: ${act.text}`;
    case 'say':
      return `say ${act.question}: ${act.answer}`;
    case 'propose':
      return `send sizes: ${saySizes(act)}`;
    default:
      return actNames[act.act];
  }
}

const actNames = {
  settle: 'let it settle',
  mark: 'mark',
  edge: 'straight-edge',
  plumb: 'spirit level',
  'three-four-five': 'lay out 3-4-5',
  'hand-in': 'hand in',
} as const;

function saySizes({ carcassMm, liningMm, frameMm, shelfMm }: ActOf<'propose'>): string {
  const box = (name: string, b: typeof liningMm) =>
    b ? [`${name} ${[b.width, b.height, b.depth].map((mm) => sayWritten(mm)).join(' x ')}`] : [];
  return [
    ...box('carcass', carcassMm),
    ...box('lining', liningMm),
    ...(frameMm ? [`frame ${sayWritten(frameMm.width)} x ${sayWritten(frameMm.height)}`] : []),
    ...(shelfMm ? [`shelves ${sayWritten(shelfMm.depth)} deep`] : []),
  ].join(', ');
}

function saySeen({ edgesMm, tapeMm, mark, setUp, seen, toolMm }: Done): string {
  if (edgesMm) return `line from ${sayLength(edgesMm[0])} to ${sayLength(edgesMm[1])}`;
  if (tapeMm !== undefined) return sayLength(tapeMm);
  if (toolMm) return toolMm.map((mm) => sayLength(mm)).join(', ');
  if (mark !== undefined) return `mark ${mark}`;
  if (setUp !== undefined) return `set-up ${setUp}`;
  const lines = [...new Set((seen ?? []).map((s) => datumParts(s.datum).kind))];
  return lines.length > 0 ? `seen ${lines.join(', ')}` : '';
}

function tenth(mm: number): string {
  return String(0 + Math.round(mm * 10) / 10);
}
