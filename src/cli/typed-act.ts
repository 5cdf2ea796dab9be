/**
 * Short typed acts, for a person at the keyboard: words and lengths, in the order in which one would say them. Lengths are
 * mm, or inches and fractions where the kit's rule is marked so: `18-15/16`.
 *
 * A line is taken whole or not at all: a word too many or too few, or a number that is none, is said, never guessed.
 */
import type { BayNumber } from '../exercise/bays.ts';
import { type Kit, levelLimits } from '../exercise/kit.ts';
import { spokenUnits, typedLength } from '../recess/lengths.ts';
import { axesOf, type Side, sides } from '../recess/recess-spec.ts';
import type { Survey } from '../survey/survey.ts';
import type { World } from '../survey/world.ts';

export type Typed =
  | { readonly act: unknown }
  | { readonly ask: 'help' | 'sheet' | 'brief' | 'quit' }
  | { readonly bay: BayNumber }
  | { readonly complaint: string };

/** How each act is typed: shown by `help`, and the one that is meant when a line is not understood. */
export const typedForms: readonly (readonly [form: string, says: string])[] = [
  [
    'stand X Y HEIGHT [room|left|right] [over N] [packed] [level 2]',
    'stand the level; it faces the recess unless you say otherwise; over: its dot on mark N; packed: its low feet packed',
  ],
  ['settle', 'let it settle: its lines are thrown'],
  ['move X Y', 'move it so far right, so far in'],
  ['turn MM', 'turn the dial so many mm a metre to the left (- to the right)'],
  ['quarter left|right', 'turn it by 90°'],
  ['raise MM', 'raise it; after settle, move, turn, quarter, raise and aim, level 1|2 says which'],
  ['check level|plumb|square [fore|side|F|S]', 'try the level on a practice wall: what its lines do there'],
  [
    'verdict level|plumb|square use|do-not-use [MM] [fore|side|F|S] [allow]',
    'judge what a check showed, with its error in mm a metre; allow: that error is taken out of every offset',
  ],
  ['aim F|S ref X  or  aim F|S mark N', 'turn until that line runs through the reference at X, or a mark'],
  ['mark SURFACE LINE AT', 'pencil cross where the line falls: mark left F 600'],
  ['rub N', 'rub out mark N'],
  ['clear TRIM', 'take off a trim that comes off: clear skirting left'],
  [
    'read LINE SURFACE A B',
    'hold the rule: read S left 0 1200 (in, up); back: along, up; floor, ceiling: along, in; F for A or B: on the face line',
  ],
  [
    'read LINE SURFACE A B edge left|right|top|bottom',
    'hold the rule against that edge of the box there: read S back 420 340 edge left',
  ],
  [
    'read LINE SURFACE A B far',
    'hold the rule with its other end on the wall; LINE may be a pencil line between two marks: F:1-3',
  ],
  ['edge SURFACE A B LENGTH u|v', 'hold the straight-edge there, along (u) or up (v): the gap under it'],
  ['plumb SURFACE A B LENGTH [round]', 'hold the spirit level there, and turned round: how far it is out'],
  ['345 X Y UNIT', 'lay out 3-4-5 along F and S where they cross on the floor'],
  ['tape SURFACE A B', 'tape from there to the wall opposite, or between floor and ceiling'],
  [
    'book VALUE [from N] [check]',
    'write down what you judged of the last reading, or of act N; check: a closing check',
  ],
  ['strike N', 'strike through the booking of act N'],
  ['carry FROM TO STEP [from N]', 'carry over a step between two lines: carry S2 S 412'],
  ['say stand-up|door|turn yes|no', 'whether it can be stood up; comes through the door; round the turn of the stair'],
  ['note TEXT', 'write on the sheet'],
  ['propose carcass W H D, lining W H D  or  frame W H', 'sizes for the workshop'],
  ['propose run A B ...', 'from S, + right: the left edge of each carcass, then the right edge of the last'],
  ['propose cut NAME X Z W H', 'a cut-out: its middle from S (+ right) and from L (+ up), its width and height'],
  ['propose shelf D', 'the depth of the shelf blanks'],
  ['sure SIZE sure|fairly|guess', 'how sure you are of a size: sure carcass-width fairly'],
  ['hand in', 'the end'],
  [
    'bay left|right',
    'of a pair: turn to that recess; places and sizes typed from here on are of it, from its own middle',
  ],
  ['undo', 'take back the last booking or mark'],
  ['sheet', 'the field sheet so far'],
  ['brief', 'the brief again'],
  ['help', 'this'],
  ['quit', 'stop for now; with --log, go on later'],
];

/** Gives the forms that can be typed in an exercise: those of tools that its kit has, of a pair's recesses where there are two. */
export function formsFor({ exercise, bays }: Pick<World, 'exercise' | 'bays'>): typeof typedForms {
  const { kit } = exercise;
  return typedForms.filter(([form]) => {
    const verb = form.split(' ')[0] ?? '';
    return verb === 'bay' ? bays.length > 1 : (inBag[verb]?.(kit) ?? true);
  });
}

/** What an act asks for in the bag; what is not named needs nothing. */
const inBag: Readonly<Record<string, (kit: Kit) => boolean>> = {
  check: (kit) => levelLimits(kit) !== null,
  verdict: (kit) => levelLimits(kit) !== null,
  edge: (kit) => kit.tools?.straightEdgeMm !== undefined,
  plumb: (kit) => kit.tools?.spiritLevel !== undefined,
  '345': (kit) => kit.tools !== undefined,
};

/** Reads a typed line; words may be large or small, but for trims and notes. */
export function readTyped(line: string, survey: Survey): Typed {
  // What is booked is one length: its fraction may stand apart from its inches.
  const one = spokenUnits() !== 'mm' && /^\s*book\s/i.test(line);
  const joined = one ? line.replace(/(\d) +(\d+\/\d)/, '$1-$2') : line;
  const [word = '', ...rest] = joined.trim().split(/\s+/);
  const verb = word.toLowerCase();
  const known = Object.hasOwn(readers, verb) ? readers[verb] : undefined;
  if (!known) return { complaint: `${JSON.stringify(word)} is not an act; type help` };
  const typed = known(rest, survey);
  if (typed !== null) return typed;
  const form = typedForms.find(([f]) => f.split(' ')[0] === (aliases[verb] ?? verb))?.[0];
  return { complaint: `expected ${form}, got ${JSON.stringify(line.trim())}` };
}

/** Takes a line's words after its verb; null when they are not as its form has them. */
type Reader = (words: readonly string[], survey: Survey) => Typed | null;

const aliases: Readonly<Record<string, string>> = { span: 'tape' };

const readers: Readonly<Record<string, Reader>> = {
  help: (words) => asked('help', words),
  sheet: (words) => asked('sheet', words),
  brief: (words) => asked('brief', words),
  quit: (words) => asked('quit', words),
  stand: onLevel(typedStand),
  settle: onLevel((words) => (words.length === 0 ? act({ act: 'settle' }) : null)),
  move: onLevel((words) => withLengths(words, 2, ([byXMm, byYMm]) => ({ act: 'move', byXMm, byYMm }))),
  turn: onLevel((words) => withNumbers(words, 1, ([byMmPerM]) => ({ act: 'turn', byMmPerM }))),
  quarter: onLevel(typedQuarter),
  raise: onLevel((words) => withLengths(words, 1, ([byMm]) => ({ act: 'raise', byMm }))),
  aim: onLevel(typedAim),
  check: onLevel(typedCheck),
  verdict: onLevel(typedVerdict),
  edge: typedEdge,
  plumb: typedPlumb,
  '345': (words) =>
    withLengths(words, 3, ([xMm, yMm, unitMm]) => ({
      act: 'three-four-five',
      at: { surface: 'floor', xMm, yMm },
      unitMm,
    })),
  mark: typedMark,
  rub: (words) => withNumbers(words, 1, ([mark]) => ({ act: 'rub-out', mark })),
  clear: (words) => (words.length > 0 ? act({ act: 'clear', trim: words.join(' ') }) : null),
  read: typedRead,
  tape: typedTape,
  span: typedTape,
  book: typedBooking,
  strike: (words) => withNumbers(words, 1, ([booking]) => ({ act: 'strike', booking })),
  carry: typedCarry,
  say: ([question, ...answer]) =>
    question !== undefined && answer.length > 0 ? act({ act: 'say', question, answer: answer.join(' ') }) : null,
  note: (words) => (words.length > 0 ? act({ act: 'note', text: words.join(' ') }) : null),
  propose: typedProposal,
  sure: typedSure,
  hand: (words) => (words.length === 1 && words[0]?.toLowerCase() === 'in' ? act({ act: 'hand-in' }) : null),
  'hand-in': (words) => (words.length === 0 ? act({ act: 'hand-in' }) : null),
  bay: typedBay,
  undo: (words, survey) => (words.length === 0 ? undone(survey) : null),
};

function act(data: unknown): Typed {
  return { act: data };
}

function asked(ask: 'help' | 'sheet' | 'brief' | 'quit', words: readonly string[]): Typed | null {
  return words.length === 0 ? { ask } : null;
}

/** Which recess of a pair is worked in from here on. */
function typedBay([word, ...more]: readonly string[]): Typed | null {
  const at = ['left', 'right'].indexOf(word?.toLowerCase() ?? '');
  return at < 0 || more.length > 0 ? null : { bay: at === 0 ? 1 : 2 };
}

function withNumbers(words: readonly string[], count: number, data: (n: readonly number[]) => unknown): Typed | null {
  const n = numbers(words, count);
  return n && act(data(n));
}

/** Gives so many numbers, when the words are just that. */
function numbers(words: readonly string[], count: number): readonly number[] | null {
  const all = words.map(numberOf);
  return words.length === count && all.every((n) => n !== null) ? all : null;
}

/** Gives so many lengths, mm, in the unit that the exercise is in. */
function lengths(words: readonly string[], count: number): readonly number[] | null {
  const all = words.map((word) => typedLength(word));
  return words.length === count && all.every((n) => n !== null) ? all : null;
}

function withLengths(words: readonly string[], count: number, data: (n: readonly number[]) => unknown): Typed | null {
  const n = lengths(words, count);
  return n && act(data(n));
}

function numberOf(word: string | undefined): number | null {
  return word !== undefined && /^[+-]?\d+(\.\d+)?$/.test(word) ? Number(word) : null;
}

function isSide(word: string | undefined): word is Side {
  return sides.includes(word as Side);
}

/** Gives a line's name in capitals, when the word is one. */
function lineOf(word: string | undefined): string | null {
  return word !== undefined && /^[fsl](\d*|:\d+-\d+)$/i.test(word) ? word.toUpperCase() : null;
}

/** Takes `level 1` or `level 2` off the end of a line and puts it into the act. */
function onLevel(read: Reader): Reader {
  return (words, survey) => {
    const named = words.at(-2)?.toLowerCase() === 'level' && /^[12]$/.test(words.at(-1) ?? '');
    const typed = read(named ? words.slice(0, -2) : words, survey);
    if (!named || !typed || !('act' in typed)) return typed;
    return act({ ...(typed.act as object), level: Number(words.at(-1)) });
  };
}

function typedStand(words: readonly string[]): Typed | null {
  const n = lengths(words.slice(0, 3), 3);
  const rest = words.slice(3).map((w) => w.toLowerCase());
  const packed = rest.at(-1) === 'packed';
  if (packed) rest.pop();
  const over = rest.at(-2) === 'over' ? numberOf(rest.at(-1)) : undefined;
  if (over !== undefined) rest.splice(-2);
  const [facing, ...more] = rest;
  if (!n || over === null || more.length > 0) return null;
  return act({
    act: 'stand',
    xMm: n[0],
    yMm: n[1],
    heightMm: n[2],
    ...(facing === undefined ? {} : { facing }),
    ...(over === undefined ? {} : { over }),
    ...(packed ? { packed } : {}),
  });
}

function typedCheck([check, way, ...more]: readonly string[]): Typed | null {
  const of = way === undefined ? undefined : (lineOf(way) ?? way.toLowerCase());
  if (!isCheck(check) || more.length > 0) return null;
  return act({ act: 'check', check: check.toLowerCase(), ...(of === undefined ? {} : { of }) });
}

function typedVerdict([check, verdict, ...more]: readonly string[]): Typed | null {
  const allow = more.at(-1)?.toLowerCase() === 'allow';
  const [much, way, ...rest] = allow ? more.slice(0, -1) : more;
  const error = much === undefined ? undefined : numbers([much], 1)?.[0];
  if (!isCheck(check) || verdict === undefined || rest.length > 0 || (much !== undefined && error === undefined))
    return null;
  return act({
    act: 'check',
    check: check.toLowerCase(),
    verdict: verdict.toLowerCase(),
    ...(error === undefined ? {} : { errorMmPerM: error }),
    ...(way === undefined ? {} : { of: lineOf(way) ?? way.toLowerCase() }),
    ...(allow ? { allow } : {}),
  });
}

function isCheck(word: string | undefined): word is string {
  return ['level', 'plumb', 'square'].includes(word?.toLowerCase() ?? '');
}

function typedEdge(words: readonly string[]): Typed | null {
  const along = words.at(-1)?.toLowerCase();
  const lengthMm = typedLength(words.at(-2));
  const place = typedPlace(words.slice(0, -2));
  if (!place || lengthMm === null || (along !== 'u' && along !== 'v')) return null;
  return act({ act: 'edge', place, lengthMm, along });
}

function typedPlumb(words: readonly string[]): Typed | null {
  const turnedRound = words.at(-1)?.toLowerCase() === 'round';
  const said = turnedRound ? words.slice(0, -1) : words;
  const lengthMm = typedLength(said.at(-1));
  const place = typedPlace(said.slice(0, -1));
  if (!place || lengthMm === null) return null;
  return act({ act: 'plumb', place, lengthMm, ...(turnedRound ? { turnedRound } : {}) });
}

function typedQuarter([way, ...more]: readonly string[]): Typed | null {
  const quarters = { left: 1, right: -1 }[way?.toLowerCase() ?? ''];
  return quarters !== undefined && more.length === 0 ? act({ act: 'turn', byMmPerM: 0, quarters }) : null;
}

function typedAim([line, kind, ...at]: readonly string[]): Typed | null {
  const plane = lineOf(line);
  const n = (kind === 'ref' ? lengths : numbers)(at, 1)?.[0];
  if (!plane || n === undefined) return null;
  if (kind === 'mark') return act({ act: 'aim', plane, at: { mark: n } });
  return kind === 'ref' ? act({ act: 'aim', plane, at: { referenceXMm: n } }) : null;
}

/** The free coordinate of a mark is the one that the line leaves open. */
function typedMark([word, line, at, ...more]: readonly string[]): Typed | null {
  const surface = word?.toLowerCase();
  const along = lineOf(line);
  const free = typedLength(at);
  if (!isSide(surface) || !along || free === null || more.length > 0) return null;
  const { u, v } = axesOf(surface);
  const crossed = { F: 'y', S: 'x', L: 'z' }[along[0] as 'F' | 'S' | 'L'];
  return act({ act: 'mark', place: { surface, along, [`${crossed === v ? u : v}Mm`]: free } });
}

function typedRead([line, ...words]: readonly string[]): Typed | null {
  const datum = lineOf(line);
  const far = words.at(-1)?.toLowerCase() === 'far';
  const place = far ? words.slice(0, -1) : words;
  const edge = place.length === 5 && place[3]?.toLowerCase() === 'edge' ? place[4]?.toLowerCase() : undefined;
  const at = typedPlace(edge === undefined ? place : place.slice(0, 3));
  if (!datum || !at) return null;
  return act({ act: 'read', datum, place: edge === undefined ? at : { ...at, edge }, ...(far ? { end: 'far' } : {}) });
}

const opposite: Readonly<Partial<Record<Side, Side>>> = {
  left: 'right',
  right: 'left',
  floor: 'ceiling',
  ceiling: 'floor',
};

function typedTape(words: readonly string[]): Typed | null {
  const place = typedPlace(words);
  const to = place && opposite[place.surface];
  return place && to ? act({ act: 'span', place, to }) : null;
}

/** A surface and two of its own coordinates, one of which may be a line that the place lies along. */
function typedPlace([word, ...at]: readonly string[]): { readonly surface: Side } | null {
  const surface = word?.toLowerCase();
  if (!isSide(surface) || at.length !== 2) return null;
  const axes = axesOf(surface);
  const lines = at.map(lineOf);
  const given = at.map((word) => typedLength(word));
  const along = lines[0] ?? lines[1];
  const fit = along ? lines.filter((l) => l === null).length === 1 : true;
  if (!fit || at.some((_, i) => lines[i] === null && given[i] === null)) return null;
  return {
    surface,
    ...(given[0] === null ? {} : { [`${axes.u}Mm`]: given[0] }),
    ...(given[1] === null ? {} : { [`${axes.v}Mm`]: given[1] }),
    ...(along ? { along } : {}),
  };
}

function typedBooking([value, ...rest]: readonly string[], survey: Survey): Typed | null {
  const check = rest.at(-1) === 'check';
  const from = check ? rest.slice(0, -1) : rest;
  const valueMm = typedLength(value);
  const named = from[0] === 'from' ? numbers(from.slice(1), 1)?.[0] : undefined;
  if (valueMm === null || (from.length > 0 && named === undefined)) return null;
  const reading = named ?? lastSeen(survey);
  const said = reading === null ? undefined : survey.entries[reading - 1]?.act;
  const common = { valueMm, reading, ...(check ? { check } : {}) };
  if (said?.act === 'read')
    return act({ act: 'book', what: 'offset', datum: said.datum, place: said.place, ...common });
  if (said?.act === 'span') return act({ act: 'book', what: 'span', place: said.place, to: said.to, ...common });
  return { complaint: 'there is no reading to book: read first, or say from which act' };
}

function lastSeen(survey: Survey): number | null {
  const found = survey.entries.filter((e) => e.outcome.ok && (e.act.act === 'read' || e.act.act === 'span')).at(-1);
  return found ? found.n : null;
}

function typedCarry([from, to, step, ...rest]: readonly string[]): Typed | null {
  const lines = { from: lineOf(from), to: lineOf(to) };
  const stepMm = typedLength(step);
  const reading = rest[0] === 'from' ? numbers(rest.slice(1), 1)?.[0] : undefined;
  if (!lines.from || !lines.to || stepMm === null || (rest.length > 0 && reading === undefined)) return null;
  return act({ act: 'carry', ...lines, stepMm, ...(reading === undefined ? {} : { reading }) });
}

/** Puts a part of a proposal beside what was proposed before. */
function typedProposal(words: readonly string[], survey: Survey): Typed | null {
  const said = proposed(words, survey);
  return said && act({ ...survey.proposal, act: 'propose', ...said });
}

/** How sure, beside what was proposed so far. */
function typedSure(words: readonly string[], { proposal }: Survey): Typed | null {
  const [size, level] = words;
  if (words.length !== 2 || size === undefined || level === undefined) return null;
  return act({ ...proposal, act: 'propose', sure: { ...proposal?.sure, [size]: level } });
}

function proposed([part, ...sizes]: readonly string[], survey: Survey): object | null {
  // A carcass may have a sloped edge: its heights at the low and the high edge.
  if (part === 'carcass' && sizes.length === 5)
    return sized(sizes, 5, ([width, height, depth, low, high]) => ({
      carcassMm: { width, height, depth, slope: { low, high } },
    }));
  if (part === 'carcass') return sized(sizes, 3, ([width, height, depth]) => ({ carcassMm: { width, height, depth } }));
  if (part === 'lining') return sized(sizes, 3, ([width, height, depth]) => ({ liningMm: { width, height, depth } }));
  if (part === 'frame') return sized(sizes, 2, ([width, height]) => ({ frameMm: { width, height } }));
  if (part === 'shelf') return sized(sizes, 1, ([depth]) => ({ shelfMm: { depth } }));
  if (part === 'run') return sizes.length < 2 ? null : sized(sizes, sizes.length, (runMm) => ({ runMm }));
  return part === 'cut' ? typedCutOut(sizes, survey) : null;
}

function sized(words: readonly string[], count: number, data: (n: readonly number[]) => object): object | null {
  const n = lengths(words, count);
  return n && data(n);
}

/** A cut-out takes the place of the one of its name. */
function typedCutOut(words: readonly string[], survey: Survey): object | null {
  const name = words.slice(0, -4).join(' ');
  const others = (survey.proposal?.cutOutsMm ?? []).filter((c) => c.name !== name);
  if (name === '') return null;
  return sized(words.slice(-4), 4, ([fromS, fromL, width, height]) => ({
    cutOutsMm: [...others, { name, fromS, fromL, width, height }],
  }));
}

/** The last booking or mark, whichever is the later, is taken back by an act of its own. */
function undone(survey: Survey): Typed {
  const booking = survey.bookings.filter((b) => !b.struck).at(-1);
  const mark = survey.marks.at(-1);
  const marked = survey.entries.find((e) => e.outcome.ok && e.act.act === 'mark' && e.outcome.mark === mark?.mark);
  if (booking && booking.n > (marked?.n ?? 0)) return act({ act: 'strike', booking: booking.n });
  if (mark) return act({ act: 'rub-out', mark: mark.mark });
  return { complaint: 'there is no booking and no mark to take back' };
}
