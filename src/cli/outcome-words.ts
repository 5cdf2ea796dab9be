/**
 * An act's outcome in words, for a person at the keyboard. A reading leaves the judgement to the learner.
 */

import { referenceNames } from '../exercise/reference-words.ts';
import type { ReferenceKind } from '../recess/recess-spec.ts';
import { refusalCodes, type Seen } from '../survey/outcome.ts';
import { sayEdges, sayOnRule } from '../survey/reading-words.ts';
import type { Entry } from '../survey/survey.ts';

/** Says what came of an act. */
export function sayOutcome({ n, act, outcome }: Entry, reference: ReferenceKind): string[] {
  if (!outcome.ok) {
    const { code, by } = outcome.error;
    return [`not done: ${refusalCodes[code]}${by ? ` (${by})` : ''}`];
  }
  const seen = (outcome.seen ?? []).map((s) => saySeen(s, reference));
  switch (act.act) {
    case 'read': {
      const edges = outcome.edgesMm ?? [0, 0];
      const aid = outcome.readOutMm === undefined ? '' : `; it reads ${outcome.readOutMm}`;
      const on = outcome.on === undefined || outcome.on === act.datum ? '' : `, its end on the ${outcome.on}`;
      return [`act ${n}: the line is ${sayOnRule(edges)}${on}; ${sayEdges(edges)}${aid}`];
    }
    case 'span':
    case 'diagonal':
      return [`act ${n}: the tape shows ${outcome.tapeMm}`];
    case 'mark':
      return [`mark ${outcome.mark}, on the ${outcome.on}`];
    case 'book':
      return [`booked as act ${n}: ${act.valueMm}`];
    case 'strike':
      return ['struck through; it stays on the sheet'];
    case 'clear':
      return [
        `the ${act.trim} is off${outcome.marksLost ? `; lost with it: mark ${outcome.marksLost.join(', ')}` : ''}`,
      ];
    case 'stand':
      return [`set-up ${outcome.setUp}: let it settle`];
    case 'move':
    case 'raise':
      return ['done; let it settle'];
    case 'settle':
    case 'turn':
    case 'aim':
      return seen.length > 0 ? seen : ['done'];
    case 'hand-in':
      return ['handed in'];
    default:
      return ['done'];
  }
}

function saySeen(s: Seen, reference: ReferenceKind): string {
  const where = 'mark' in s.at ? `mark ${s.at.mark}` : `${referenceNames[reference]} at ${s.at.referenceXMm}`;
  const ways = { F: ['in front of', 'behind'], S: ['left of', 'right of'], L: ['below', 'above'] }[s.datum[0] as 'F'];
  const size = Math.abs(s.offWidths);
  if (size < 0.05) return `${s.datum} runs through ${where}`;
  const mm = s.offMm === undefined ? '' : ` (${Math.abs(s.offMm)} mm)`;
  return `${s.datum} falls ${size} of its width${mm} ${ways[s.offWidths < 0 ? 0 : 1]} ${where}`;
}
