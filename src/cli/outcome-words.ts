/**
 * An act's outcome in words, for a person at the keyboard. A reading leaves the judgement to the learner.
 */

import { referenceNames } from '../exercise/reference-words.ts';
import { sayLength, sayWithUnit, sayWritten } from '../recess/lengths.ts';
import type { ReferenceKind } from '../recess/recess-spec.ts';
import type { ActOf } from '../survey/act.ts';
import { practiceMm } from '../survey/instrument-check.ts';
import { type Done, refusalCodes, type Seen } from '../survey/outcome.ts';
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
      const aid = outcome.readOutMm === undefined ? '' : `; it reads ${sayWritten(outcome.readOutMm)}`;
      const on = outcome.on === undefined || outcome.on === act.datum ? '' : `, its end on the ${outcome.on}`;
      const far = act.end === 'far' ? `; its numbers run down from ${sayWritten(2000)} at the wall` : '';
      return [`act ${n}: the line is ${sayOnRule(edges)}${on}; ${sayEdges(edges)}${aid}${far}`];
    }
    case 'span':
    case 'diagonal':
      return [`act ${n}: the tape shows ${sayLength(outcome.tapeMm ?? 0)}`];
    case 'mark':
      return [`mark ${outcome.mark}, on the ${outcome.on}`];
    case 'book':
      return [`booked as act ${n}: ${sayWritten(act.valueMm)}`];
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
    case 'check':
      return [`act ${n}: ${sayCheck(act, outcome)}`];
    case 'edge':
      return [
        `act ${n}: the widest gap under the straight-edge is ${sayLength(outcome.toolMm?.[0] ?? 0)}, ${sayLength(outcome.toolMm?.[1] ?? 0)} along it`,
      ];
    case 'plumb':
      return [
        `act ${n}: over its ${sayWritten(act.lengthMm)} the spirit level is out by ${sayLength(outcome.toolMm?.[0] ?? 0)}; + is into the recess at the far or upper end`,
      ];
    case 'three-four-five':
      return [
        `act ${n}: the tape shows ${sayLength(outcome.tapeMm ?? 0)} between the ends of ${sayWritten(3 * act.unitMm)} and ${sayWritten(4 * act.unitMm)}`,
      ];
    case 'hand-in':
      return ['handed in'];
    default:
      return ['done'];
  }
}

/** What the marks on the practice wall read; what the error is, is for the learner to work out. */
function sayCheck(act: ActOf<'check'>, outcome: Done): string {
  if (act.verdict !== undefined)
    return outcome.swapped
      ? 'written down; it goes in the van, the other level is out: stand it'
      : act.allow
        ? 'written down; its error is taken out of every offset from its lines'
        : 'written down';
  const at = (outcome.practiceMm ?? []).map((mm) => sayLength(mm));
  const [walls, height, arm] = [practiceMm.walls, practiceMm.height, practiceMm.arm].map((mm) => sayWritten(mm));
  if (act.check === 'level')
    return `two walls ${walls} apart; from beside wall A the line marks A at ${at[0]} and B at ${at[1]}; turned round beside B and on B's mark (${at[2]}), it strikes A at ${at[3]}`;
  if (act.check === 'plumb')
    return `through two floor marks, a lintel ${height} over them; from one side the line strikes it at ${at[0]}, from the other at ${at[1]}`;
  return `over a floor cross, a mark ${arm} away at ${at[0]}; the second line marked, the first turned on to that, the second falls at ${at[2]}`;
}

function saySeen(s: Seen, reference: ReferenceKind): string {
  const where =
    'mark' in s.at ? `mark ${s.at.mark}` : `${referenceNames[reference]} at ${sayWritten(s.at.referenceXMm)}`;
  const ways = { F: ['in front of', 'behind'], S: ['left of', 'right of'], L: ['below', 'above'] }[s.datum[0] as 'F'];
  const size = Math.abs(s.offWidths);
  if (size < 0.05) return `${s.datum} runs through ${where}`;
  const mm = s.offMm === undefined ? '' : ` (${sayWithUnit(Math.abs(s.offMm))})`;
  return `${s.datum} falls ${size} of its width${mm} ${ways[s.offWidths < 0 ? 0 : 1]} ${where}`;
}
