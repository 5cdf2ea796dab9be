/**
 * Short typed acts, for a person at the keyboard: words and millimetres, in the order in which one would say them.
 */
import { axesOf, type Side, sides } from '../recess/recess-spec.ts';
import type { Act, SurfacePlace } from '../survey/act.ts';
import type { Survey } from '../survey/survey.ts';

export type Typed =
  | { readonly act: unknown }
  | { readonly ask: 'help' | 'sheet' | 'brief' | 'quit' }
  | { readonly undo: true }
  | { readonly propose: { readonly part: 'carcassMm' | 'frameMm'; readonly sizes: readonly number[] } }
  | { readonly complaint: string };

/** How each act is typed: shown by `help` and when something is not understood. */
export const typedForms: readonly (readonly [form: string, says: string])[] = [
  ['stand X Y HEIGHT [room|left|right]', 'stand the level; it faces the recess unless you say otherwise'],
  ['settle', 'let it settle: its lines are thrown'],
  ['move X Y', 'move it so far right, so far in'],
  ['turn MM', 'turn the dial so many mm a metre to the left (- to the right)'],
  ['quarter left|right', 'turn it by 90°'],
  ['raise MM', 'raise it'],
  ['aim F|S ref X  or  aim F|S mark N', 'turn until that line runs through the cornice return at X, or a mark'],
  ['mark SURFACE LINE AT', 'pencil cross where the line falls: mark left F 600'],
  ['rub N', 'rub out mark N'],
  ['clear TRIM', 'take off a trim that comes off: clear skirting left'],
  [
    'read LINE SURFACE A B',
    'hold the rule: read S left 0 1200 (in, up); back: along, up; floor, ceiling: along, in; F for A or B: on the face line',
  ],
  ['tape SURFACE A B', 'tape from there to the wall opposite'],
  [
    'book VALUE [from N] [check]',
    'write down what you judged of the last reading, or of act N; check: a closing check',
  ],
  ['strike N', 'strike through the booking of act N'],
  ['carry FROM TO STEP [from N]', 'carry over a step between two lines: carry S2 S 412'],
  ['say stand-up yes|no', 'whether it can be stood up'],
  ['note TEXT', 'write on the sheet'],
  ['propose carcass W H D  and  propose frame W H', 'sizes for the workshop'],
  ['hand in', 'the end'],
  ['sheet, brief, undo, help, quit', ''],
];

/** Reads a typed line. */
export function readTyped(line: string, survey: Survey): Typed {
  const [verb = '', ...rest] = line.trim().split(/\s+/);
  const n = rest.map(Number);
  switch (verb.toLowerCase()) {
    case 'help':
    case 'sheet':
    case 'brief':
    case 'quit':
      return { ask: verb.toLowerCase() as 'help' };
    case 'undo':
      return { undo: true };
    case 'stand':
      return { act: { act: 'stand', xMm: n[0], yMm: n[1], heightMm: n[2], ...(rest[3] ? { facing: rest[3] } : {}) } };
    case 'settle':
      return { act: { act: 'settle' } };
    case 'move':
      return { act: { act: 'move', byXMm: n[0], byYMm: n[1] } };
    case 'turn':
      return { act: { act: 'turn', byMmPerM: n[0] } };
    case 'quarter':
      return { act: { act: 'turn', byMmPerM: 0, quarters: rest[0] === 'right' ? -1 : 1 } };
    case 'raise':
      return { act: { act: 'raise', byMm: n[0] } };
    case 'aim':
      return { act: { act: 'aim', plane: rest[0], at: rest[1] === 'mark' ? { mark: n[2] } : { referenceXMm: n[2] } } };
    case 'mark':
      return { act: { act: 'mark', place: markPlace(rest) } };
    case 'rub':
      return { act: { act: 'rub-out', mark: n[0] } };
    case 'clear':
      return { act: { act: 'clear', trim: rest.join(' ') } };
    case 'read':
      return { act: { act: 'read', datum: rest[0], place: typedPlace(rest.slice(1)) } };
    case 'tape':
      return { act: { act: 'span', place: typedPlace(rest), to: opposite[rest[0] ?? ''] } };
    case 'book':
      return typedBooking(rest, survey);
    case 'strike':
      return { act: { act: 'strike', booking: n[0] } };
    case 'carry':
      return {
        act: {
          act: 'carry',
          from: rest[0],
          to: rest[1],
          stepMm: n[2],
          ...(rest[3] === 'from' ? { reading: n[4] } : {}),
        },
      };
    case 'say':
      return { act: { act: 'say', question: rest[0], answer: rest.slice(1).join(' ') } };
    case 'note':
      return { act: { act: 'note', text: rest.join(' ') } };
    case 'propose':
      return typedProposal(rest);
    case 'hand':
      return { act: { act: 'hand-in' } };
    default:
      return { complaint: `${JSON.stringify(verb)} is not an act; type help` };
  }
}

/** Puts a part of a proposal beside what was proposed before. */
export function proposedSoFar(survey: Survey, part: 'carcassMm' | 'frameMm', sizes: readonly number[]): unknown {
  const [width, height, depth] = sizes;
  const { act: _act, ...before } = survey.proposal ?? { act: 'propose' };
  const said = part === 'carcassMm' ? { carcassMm: { width, height, depth } } : { frameMm: { width, height } };
  return { ...before, act: 'propose', ...said };
}

const opposite: Readonly<Record<string, Side>> = { left: 'right', right: 'left', floor: 'ceiling', ceiling: 'floor' };

function isSide(word: string | undefined): word is Side {
  return sides.includes(word as Side);
}

function typedPlace(words: readonly string[]): unknown {
  const [surface, a = '', b = ''] = words;
  if (!isSide(surface)) return { surface };
  const axes = axesOf(surface);
  const along = [a, b].find((w) => /^[FSL]\d*$/.test(w));
  const numbers = { [`${axes.u}Mm`]: a, [`${axes.v}Mm`]: b };
  const given = Object.entries(numbers).filter(([, w]) => w !== along);
  return {
    surface,
    ...Object.fromEntries(given.map(([name, w]) => [name, Number(w)])),
    ...(along ? { along } : {}),
  };
}

/** The free coordinate of a mark is the one that the line leaves open. */
function markPlace(words: readonly string[]): unknown {
  const [surface, along = '', at = ''] = words;
  if (!isSide(surface)) return { surface };
  const { u, v } = axesOf(surface);
  const crossed = { F: 'y', S: 'x', L: 'z' }[along[0] as 'F'] ?? v;
  const free = crossed === v ? u : v;
  const place: SurfacePlace = { surface, along, [`${free}Mm`]: Number(at) };
  return place;
}

function typedBooking(words: readonly string[], survey: Survey): Typed {
  const from = words.indexOf('from');
  const n = from >= 0 ? Number(words[from + 1]) : lastSeen(survey);
  const entry = n === null ? undefined : survey.entries[n - 1];
  const act: Act | undefined = entry?.act;
  const common = { valueMm: Number(words[0]), reading: n, ...(words.includes('check') ? { check: true } : {}) };
  if (act?.act === 'read')
    return { act: { act: 'book', what: 'offset', datum: act.datum, place: act.place, ...common } };
  if (act?.act === 'span') return { act: { act: 'book', what: 'span', place: act.place, to: act.to, ...common } };
  return { complaint: 'there is no reading to book: read first, or say from which act' };
}

function lastSeen(survey: Survey): number | null {
  const found = survey.entries.filter((e) => e.outcome.ok && (e.act.act === 'read' || e.act.act === 'span')).at(-1);
  return found ? found.n : null;
}

function typedProposal(words: readonly string[]): Typed {
  const [part, ...sizes] = words;
  const numbers = sizes.map(Number);
  const count = part === 'carcass' ? 3 : part === 'frame' ? 2 : 0;
  if (numbers.length !== count || count === 0 || numbers.some((s) => !Number.isFinite(s)))
    return { complaint: 'type propose carcass W H D, or propose frame W H' };
  return { propose: { part: part === 'carcass' ? 'carcassMm' : 'frameMm', sizes: numbers } };
}
