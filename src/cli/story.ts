/**
 * A survey told step by step, from the brief to the true room, for someone who has never done one.
 */
import { sayBriefs } from '../exercise/brief-words.ts';
import { referenceNames } from '../exercise/reference-words.ts';
import { saySpec } from '../exercise/spec-words.ts';
import { answerKey } from '../marking/answer-key.ts';
import { reportOf } from '../marking/report.ts';
import { sayKey, sayReport } from '../marking/report-words.ts';
import { sizeWords } from '../marking/size-words.ts';
import { sayLength, sayRead, sayWritten } from '../recess/lengths.ts';
import { sayPlace, saySheet } from '../survey/field-sheet-words.ts';
import type { Seen } from '../survey/outcome.ts';
import { offsetsOverMade, sizeRules } from '../survey/size.ts';
import type { Entry, Survey } from '../survey/survey.ts';
import { drawnWords, uncertaintyWords } from '../survey/uncertainty-words.ts';
import { type WorkedSize, workOut } from '../survey/working-out.ts';

/** Tells a survey in chapters, a line an element. */
export function tellStory(survey: Survey): string[] {
  const { exercise, recess } = survey.world;
  const key = answerKey(recess, exercise);
  return [
    ...chapter('The brief', [`exercise ${exercise.code ?? 'of its own'}`, ...sayBriefs(exercise)]),
    ...chapter('Setting up', tellSetUp(survey)),
    ...chapter('Marking', tellMarks(survey)),
    ...chapter('Reading and booking', tellReadings(survey)),
    ...chapter('The field sheet', saySheet(survey)),
    ...chapter(
      'Working out',
      workOut(survey).flatMap((w) => tellWorked(survey, w)),
    ),
    ...chapter('Sent to the workshop', tellProposal(survey)),
    ...chapter('What the room allows', key.ok ? sayKey(key.key) : [key.error.says]),
    ...chapter('On fitting day', sayReport(reportOf(survey))),
    ...chapter('The true room, uncovered', saySpec(exercise)),
    'On site: class 2 laser, do not look into the beam; firm steps for the top readings; before drilling, think of cables,',
    'pipes, old boards and coatings. Follow the local rules and leave to licensed trades what is theirs.',
  ];
}

function chapter(title: string, lines: readonly string[]): string[] {
  return [title, '-'.repeat(title.length), ...lines, ''];
}

function tellSetUp(survey: Survey): string[] {
  return survey.entries.flatMap((e): string[] => {
    const { act, outcome } = e;
    if (!outcome.ok) return [];
    switch (act.act) {
      case 'clear':
        return [`The ${act.trim} comes off first: what is behind it is what the carcass will meet.`];
      case 'stand':
        return [
          `The level is stood in the mouth, ${sayWritten(act.heightMm)} up, facing the recess. It throws F across, S into the recess, L all round.`,
        ];
      case 'move':
        return [
          `It is moved ${sayLength(act.byYMm)} towards the back, so that F comes to ${referenceNames[survey.world.exercise.brief.reference]}.`,
        ];
      case 'turn':
        return [`Its dial is turned ${mm(act.byMmPerM)} mm a metre. ${sayWorstSeen(outcome.seen ?? [])}`];
      case 'settle':
        return [`It settles. ${sayWorstSeen(outcome.seen ?? [])}`];
      default:
        return [];
    }
  });
}

function sayWorstSeen(seen: readonly Seen[]): string {
  const looks = seen.filter((s) => 'referenceXMm' in s.at);
  const worst = Math.max(0, ...looks.map((s) => Math.abs(s.offWidths)));
  return `Looking along it at ${looks.length} places, F is off it by ${worst} of its own width at the most.`;
}

function tellMarks(survey: Survey): string[] {
  return survey.entries.flatMap(({ act, outcome }) =>
    act.act === 'mark' && outcome.ok ? [`mark ${outcome.mark}: ${sayPlace(act.place)}`] : [],
  );
}

function tellReadings(survey: Survey): string[] {
  const readings = survey.entries.filter(({ act }) => act.act === 'read');
  const refused = readings.filter((e) => !e.outcome.ok);
  const groups = new Map<string, Entry[]>();
  for (const e of readings) {
    if (e.act.act !== 'read' || !e.outcome.ok || !('surface' in e.act.place)) continue;
    const name = `${e.act.datum} to the ${e.act.place.surface}`;
    groups.set(name, [...(groups.get(name) ?? []), e]);
  }
  const first = readings.find((e) => e.outcome.ok);
  return [
    ...(first ? tellOne(first) : []),
    ...[...groups].map(([name, list]) => `${name}: ${list.length} readings`),
    ...refused.slice(0, 3).map((e) => tellRefused(e)),
    ...(refused.length > 3 ? [`and ${refused.length - 3} more that could not be held where they were planned`] : []),
    ...survey.entries.flatMap(({ act, outcome }) =>
      act.act === 'span' && outcome.ok
        ? [`tape from ${sayPlace(act.place)} to the ${act.to}: ${sayLength(outcome.tapeMm ?? 0)}`]
        : [],
    ),
  ];
}

function tellOne({ act, outcome }: Entry): string[] {
  if (act.act !== 'read' || !outcome.ok || !outcome.edgesMm) return [];
  const [a, b] = outcome.edgesMm;
  return [
    `The first: the rule is held at ${sayPlace(act.place)}, square to ${act.datum}. The line's edges fall at ${sayLength(a)} and ${sayLength(b)};`,
    `half-way between them, as finely as it is read, is ${sayRead((a + b) / 2)}, and that is written down, against ${act.datum}, at its place. So with all the others:`,
  ];
}

function tellRefused({ act, outcome }: Entry): string {
  const by = !outcome.ok && outcome.error.by ? ` (${outcome.error.by})` : '';
  return act.act === 'read' ? `could not be held at ${sayPlace(act.place)}${by}: taken a little beside it` : '';
}

function tellWorked(survey: Survey, w: WorkedSize): string[] {
  const name = sizeWords[w.size];
  const { brief } = survey.world.exercise;
  if (!w.find) return [`${name}: made as it stands`];
  if (w.offsetsMm === null || w.workshopMm === null) return [`${name}: a side has no offset`];
  const least = sizeRules[w.size].counts === 'least';
  const counting = w.terms.filter((t) => t.counts).map((t) => `${sayLength(t.valueMm)} (${t.side})`);
  const over = offsetsOverMade(w.size, brief);
  const taken =
    over >= 0 ? `less ${sayLength(over)} that the brief asks` : `and ${sayLength(-over)} of stock to scribe`;
  const drawn = drawnWords(survey.world.exercise, w);
  return [
    `${name}: the ${least ? 'smallest' : 'largest'} of ${w.terms.length}: ${counting.join(' + ')}, ${taken}, makes ${sayWritten(w.workshopMm)}. ${uncertaintyWords(w)}`,
    ...(drawn ? [drawn] : []),
  ];
}

function tellProposal(survey: Survey): string[] {
  const said = survey.proposal;
  if (!said) return ['nothing'];
  const { carcassMm: c, liningMm: l, frameMm: f } = said;
  const standUp = survey.answers.find((a) => a.question === 'stand-up');
  const wayIn = survey.answers.filter((a) => a.question === 'door' || a.question === 'turn');
  return [
    ...(c ? [`carcass ${by(c.width, c.height, c.depth)}`] : []),
    ...(c?.slope
      ? [`its sloped edge from ${sayWritten(c.slope.low)} to ${sayWritten(c.slope.high)} over its bottom`]
      : []),
    ...(l ? [`lining ${by(l.width, l.height, l.depth)}`] : []),
    ...(f ? [`frame blank ${by(f.width, f.height)}`] : []),
    ...(said.runMm ? [`set out from S at ${said.runMm.map((at) => sayWritten(at)).join(', ')}`] : []),
    ...(said.cutOutsMm ?? []).map(
      (o) =>
        `cut-out for ${o.name}: ${by(o.width, o.height)}, its middle ${sayWritten(o.fromS)} from S, ${sayWritten(o.fromL)} from L`,
    ),
    ...(said.shelfMm ? [`shelf blanks ${sayWritten(said.shelfMm.depth)} deep`] : []),
    ...(standUp ? [`can it be stood up, corner to corner? ${standUp.answer}`] : []),
    ...wayIn.map((a) => `does it come ${a.question === 'door' ? 'through the door' : 'round the turn'}? ${a.answer}`),
  ];
}

function by(...sizes: readonly number[]): string {
  return sizes.map((size) => sayWritten(size)).join(' x ');
}

function mm(value: number): string {
  return String(Math.round(value * 10) / 10);
}
