/**
 * Acting: the one door to a survey.
 *
 * `perform` acts: it finds the outcome in the hidden world, drawing what chance has in it, and folds it in. `fold`
 * takes an act with its logged outcome and draws nothing. Both go the same way from there, so a log that was acted and
 * a log that is replayed give the same survey.
 */
import type { Plane } from '../geometry/plane.ts';
import { type Act, type DatumKind, datumName, datumParts, type PlaceSaid } from './act.ts';
import { directionToRoom } from './hand-frame.ts';
import { checkOutcome } from './instrument-check.ts';
import { knocked } from './knock.ts';
import { aimLevel, planeOf, type Standing, turnLevel } from './level.ts';
import { acrossFrom, diagonalOutcome, readOutcome, spanOutcome } from './measuring-acts.ts';
import { type Done, type Outcome, refused } from './outcome.ts';
import { pencilLine } from './pencil-line.ts';
import { type Found, type FoundPlace, findPlace } from './place.ts';
import { aimOutcome, levelOutcome, markedAt, markOutcome, standOutcome, stoodAt, targetPoint } from './set-up-acts.ts';
import { bookOutcome, carryOutcome, handInOutcome, strikeOutcome } from './sheet-acts.ts';
import { finderOf, levelInHand, type Reading, type Survey, thrownPlane } from './survey.ts';
import { edgeOutcome, plumbOutcome, threeFourFiveOutcome } from './tool-acts.ts';

/** Acts: finds the outcome and folds it in. */
export function perform(survey: Survey, act: Act): { readonly survey: Survey; readonly outcome: Outcome } {
  const outcome = outcomeOf(survey, act);
  return { survey: fold(survey, act, outcome), outcome };
}

/**
 * Folds an act and its outcome in, drawing nothing.
 *
 * @throws {RangeError} if an outcome does not belong to its act (a forged log), naming the act's number
 */
export function fold(survey: Survey, act: Act, outcome: Outcome): Survey {
  const n = survey.entries.length + 1;
  const entries = [...survey.entries, { n, act, outcome }];
  if (!outcome.ok) return { ...survey, entries };
  return folded({ ...survey, entries }, { act, outcome, n });
}

function outcomeOf(survey: Survey, act: Act): Outcome {
  if (survey.handedIn) return refused('log/handed-in');
  switch (act.act) {
    case 'stand':
      return standOutcome(survey, act);
    case 'move':
    case 'turn':
    case 'raise':
    case 'settle':
      return levelOutcome(survey, act);
    case 'aim':
      return aimOutcome(survey, act);
    case 'mark':
      return markOutcome(survey, act);
    case 'rub-out':
      return survey.marks.some((m) => m.mark === act.mark) ? { ok: true } : refused('place/no-such-mark');
    case 'clear':
      return clearOutcome(survey, act.trim);
    case 'read':
      return readOutcome(survey, act);
    case 'span':
      return spanOutcome(survey, act);
    case 'diagonal':
      return diagonalOutcome(survey, act);
    case 'check':
      return checkOutcome(survey, act);
    case 'edge':
      return edgeOutcome(survey, act);
    case 'plumb':
      return plumbOutcome(survey, act);
    case 'three-four-five':
      return threeFourFiveOutcome(survey, act);
    case 'book':
      return bookOutcome(survey, act);
    case 'strike':
      return strikeOutcome(survey, act.booking);
    case 'carry':
      return carryOutcome(act);
    case 'hand-in':
      return handInOutcome(survey);
    default:
      return { ok: true };
  }
}

function clearOutcome(survey: Survey, name: string): Outcome {
  const bay = survey.world.bays.find((b) => b.exercise.spec.trims.some((t) => t.name === name));
  if (!bay) return refused('trim/none');
  if (survey.cleared.includes(name)) return refused('trim/off-already');
  if (bay.exercise.brief.fates[name] !== 'off') return refused('trim/stays');
  const marksLost = survey.marks.filter((m) => m.on?.name === name).map((m) => m.mark);
  return marksLost.length > 0 ? { ok: true, marksLost } : { ok: true };
}

interface DoneAct {
  readonly act: Act;
  readonly outcome: Done;
  readonly n: number;
}

function folded(survey: Survey, done: DoneAct): Survey {
  const { act, n } = done;
  switch (act.act) {
    case 'stand': {
      const setUp = survey.setUps + 1;
      const stood = stoodAt(survey, act, { setUp, handUm: done.outcome.handUm ?? [0, 0] });
      return { ...withLevel(survey, stood), setUps: setUp };
    }
    case 'move':
    case 'turn':
    case 'raise':
    case 'settle':
    case 'aim':
      return withLevel(survey, touched(survey, done));
    case 'mark':
      return withMark(survey, done);
    case 'rub-out':
      return { ...survey, marks: survey.marks.filter((m) => m.mark !== act.mark) };
    case 'clear':
      return {
        ...survey,
        cleared: [...survey.cleared, act.trim],
        marks: survey.marks.filter((m) => m.on?.name !== act.trim),
      };
    case 'check':
      return done.outcome.swapped ? swapped(survey, act.level ?? 1) : survey;
    case 'read':
      return struck(withReading(survey, readingOf(survey, done)));
    case 'span': {
      const seenMm = done.outcome.tapeMm;
      const from = surfacePlace(survey, act.place);
      const end = from.ok ? acrossFrom(survey, from.value, act.to) : null;
      if (seenMm === undefined || !from.ok || !end) throw forged(n, 'span');
      return { ...survey, spans: [...survey.spans, { n, from: from.value, end, seenMm }] };
    }
    case 'book':
      return { ...survey, bookings: [...survey.bookings, { n, said: act, struck: false }] };
    case 'strike':
      return {
        ...survey,
        bookings: survey.bookings.map((b) => (b.n === act.booking ? { ...b, struck: true } : b)),
      };
    case 'carry':
      return { ...survey, carries: [...survey.carries, { n, said: act }] };
    case 'note':
      return { ...survey, notes: [...survey.notes, act.text] };
    case 'say':
      return { ...survey, answers: [...survey.answers, act] };
    case 'propose':
      return { ...survey, proposal: act };
    case 'hand-in':
      return { ...survey, handedIn: true };
    default:
      return survey;
  }
}

/** Puts a level where it now stands, in hand. */
function withLevel(survey: Survey, standing: Standing): Survey {
  const thrown = (['F', 'S', 'L'] as const).map((kind: DatumKind): [string, Plane] => [
    datumName(kind, standing.setUp),
    planeOf(standing, kind),
  ]);
  const levels = [...survey.levels.filter((l) => l.level !== standing.level), standing];
  return { ...survey, standing, levels, planes: { ...survey.planes, ...Object.fromEntries(thrown) } };
}

/** A level is put in the van: the other comes out when it is stood next. */
function swapped(survey: Survey, level: number): Survey {
  const levels = survey.levels.filter((l) => l.level !== level);
  const standing = survey.standing?.level === level ? (levels.at(-1) ?? null) : survey.standing;
  return { ...survey, levels, standing, swapped: [...survey.swapped, level] };
}

/** A pencil line's plane is kept when it is first read from. */
function withReading(survey: Survey, reading: Reading): Survey {
  const readings = [...survey.readings, reading];
  if (datumParts(reading.datum).drawn === null) return { ...survey, readings };
  return { ...survey, readings, planes: { ...survey.planes, [reading.datum]: reading.plane } };
}

/** A door slams when so many readings have been taken; nobody is told. */
function struck(survey: Survey): Survey {
  const { knock } = survey.world;
  if (!knock || survey.readings.length !== knock.afterReadings) return survey;
  const moved = (l: Standing) => (l.level === knock.level ? knocked(survey.world, l, knock) : l);
  return { ...survey, levels: survey.levels.map(moved), standing: survey.standing && moved(survey.standing) };
}

/** The level after it was moved, turned, raised, settled or aimed. */
function touched(survey: Survey, done: DoneAct): Standing {
  const { act, outcome, n } = done;
  const standing = levelInHand(survey, 'level' in act ? act.level : undefined);
  if (!standing) throw forged(n, act.act);
  switch (act.act) {
    case 'move': {
      const d = directionToRoom(survey.world.hand, { x: act.byXMm, y: act.byYMm });
      return { ...standing, at: { x: standing.at.x + d.x, y: standing.at.y + d.y, z: standing.at.z }, settled: false };
    }
    case 'turn':
      return turnLevel(standing, { slope: act.byMmPerM / 1000, quarters: act.quarters ?? 0 });
    case 'raise':
      return { ...standing, at: { ...standing.at, z: standing.at.z + act.byMm }, settled: false };
    case 'aim': {
      const at = targetPoint(survey, act.at);
      const aimed = at && aimLevel(standing, act.plane, { at, missMm: (outcome.handUm?.[0] ?? 0) / 1000 });
      if (!aimed) throw forged(n, 'aim');
      return aimed;
    }
    default:
      return { ...standing, settled: true };
  }
}

function withMark(survey: Survey, done: DoneAct): Survey {
  const { act, outcome, n } = done;
  if (act.act !== 'mark' || outcome.mark === undefined) throw forged(n, 'mark');
  const made = markedAt(survey, act, outcome.handUm ?? [0, 0]);
  if (!made.ok) throw forged(n, 'mark');
  return { ...survey, marks: [...survey.marks, { ...made.value, mark: outcome.mark }], marksMade: outcome.mark };
}

function readingOf(survey: Survey, done: DoneAct): Reading {
  const { act, outcome, n } = done;
  if (act.act !== 'read' || !outcome.edgesMm) throw forged(n, 'read');
  const drawn = pencilLine(survey, act.datum);
  const plane = drawn.ok ? drawn.value.plane : thrownPlane(survey, act.datum);
  const place = 'surface' in act.place ? findPlace(finderOf(survey), act.place) : null;
  const mark = 'mark' in act.place ? survey.marks.find((m) => m.mark === markNumber(act.place)) : undefined;
  const point = place?.ok ? place.value.point : mark?.point;
  if (!plane || !point) throw forged(n, 'read');
  const found = place?.ok ? place.value : null;
  return {
    n,
    datum: act.datum,
    said: act.place,
    side: found ? found.side : null,
    place: found,
    point,
    plane,
    edgesMm: outcome.edgesMm,
    fromFarEnd: act.end === 'far',
  };
}

function surfacePlace(survey: Survey, said: PlaceSaid): Found<FoundPlace> {
  return 'surface' in said ? findPlace(finderOf(survey), said) : { ok: false, code: 'place/needs-surface' };
}

function markNumber(place: PlaceSaid): number | null {
  return 'mark' in place ? place.mark : null;
}

function forged(n: number, act: string): RangeError {
  return new RangeError(`log: act ${n} (${act}) cannot have had that outcome`);
}
