/**
 * M32: a box that a back is cut for was measured from another box: what is off in the one, and a tape that was not held
 * level, are in the other.
 */
import { sayLength } from '../../recess/lengths.ts';
import type { Trim } from '../../recess/recess-spec.ts';
import type { ActOf, PlaceSaid } from '../../survey/act.ts';
import { cutOutTrims, edgeBookings, setOutDatum } from '../../survey/cut-out.ts';
import type { CutOutMark } from '../cut-outs.ts';
import { byEdge } from './catching.ts';
import type { Evidence } from './evidence.ts';
import { type Caught, type Mistake, nothingMm } from './mistake.ts';

/** How far from a box, as it is seen, a tape's end may be said to be and still be on it, mm. */
const nearMm = 40;
/** What was sent agrees with the tape when it is this near to it: half a millimetre at each of three numbers, mm. */
const agreesMm = 2.5;

export const fromAnotherBox: Mistake = {
  id: 'M32',
  name: 'measured from another box',
  find: (from) => {
    const marks = from.marks.cutOuts ?? [];
    const costs = cutOutTrims(from.survey).flatMap((trim, i) => {
      const mark = marks.find((m) => m.name === trim.name);
      const tape = mark?.fromS && !wasBooked(from, trim) ? tapeTo(from, trim, mark) : null;
      const mm = mark?.fromS ? Math.abs(mark.fromS.saidMm - mark.fromS.keyMm) : 0;
      return tape && mark?.fromS && mm > nothingMm ? [{ trim, tape, i, mm, place: mark.fromS }] : [];
    });
    const [worst] = [...costs].sort((a, b) => b.mm - a.mm || a.i - b.i);
    if (!worst) return null;
    const { trim, tape, mm, place } = worst;
    return {
      costMm: mm,
      sizes: [],
      acts: costs.map((c) => c.tape.n),
      caught: byEdge(from, trim) ?? bySetOut(trim, place.keyMm),
      happened: [
        `The cut for the ${trim.name} comes ${sayLength(mm)} too far to the ${place.saidMm > place.keyMm ? 'right' : 'left'}. A tape from box to box that is not level reads long, and what is off in the first box is in the next.`,
      ],
      did: [
        `You taped from the ${tape.other} to the ${trim.name}, `,
        { his: sayLength(tape.tapeMm) },
        ', and read no edge of it from S.',
      ],
      next: ['Give every box its own two distances, from S and up from L. No box is a datum.'],
    };
  },
};

/** Where no line that is thrown now reaches the box: how far from S its left edge lies. */
function bySetOut(trim: Trim, keyMm: number): Caught {
  const seenMm = Math.abs(keyMm - (trim.uMm[1] - trim.uMm[0]) / 2);
  const where = `the left edge of the ${trim.name}`;
  return {
    act: null,
    where,
    seenMm,
    says: `From S, ${where} lies ${sayLength(seenMm)} away: read it from a set-up near it and carry the step.`,
  };
}

interface Tape {
  readonly n: number;
  readonly other: string;
  readonly tapeMm: number;
}

/** Whether an upright edge of a box stands on the sheet, from a square line. */
function wasBooked(from: Evidence, trim: Trim): boolean {
  return (['left', 'right'] as const).some((edge) => edgeBookings(from.survey, trim, edge).length > 0);
}

/** The tape from another box that gives the place that was sent: that box's own place, half of each, and the tape between. */
function tapeTo(from: Evidence, trim: Trim, mark: CutOutMark): Tape | null {
  const { survey } = from;
  if (setOutDatum(survey, 'S') === null) return null;
  const said = (name: string) => survey.proposal?.cutOutsMm?.find((c) => c.name === name)?.fromS;
  for (const { n, act, outcome } of survey.entries) {
    if (act.act !== 'diagonal' || !outcome.ok || outcome.tapeMm === undefined) continue;
    const ends = [act.from, act.to];
    if (!ends.some((end) => isOn(trim, end))) continue;
    const other = cutOutTrims(survey).find((t) => t !== trim && ends.some((end) => isOn(t, end)));
    const its = other && said(other.name);
    if (!other || its === undefined || !mark.fromS) continue;
    const apart = Math.abs(mark.fromS.saidMm - its);
    if (Math.abs(apart - outcome.tapeMm - between(act, trim, other)) <= agreesMm)
      return { n, other: other.name, tapeMm: outcome.tapeMm };
  }
  return null;
}

/** What lies between the middles of two boxes beside the tape from an edge of one to an edge of the other, mm. */
function between(act: ActOf<'diagonal'>, a: Trim, b: Trim): number {
  const middle = (t: Trim) => (t.uMm[0] + t.uMm[1]) / 2;
  const ends = [act.from, act.to].map((end) => ('surface' in end ? (end.xMm ?? 0) : 0)) as [number, number];
  return Math.abs(middle(a) - middle(b)) - Math.abs(ends[0] - ends[1]);
}

function isOn(trim: Trim, place: PlaceSaid): boolean {
  if (!('surface' in place) || place.surface !== trim.surface) return false;
  const off = (at: number, [low, high]: readonly [number, number]) => Math.max(low - at, at - high, 0);
  return off(place.xMm ?? 0, trim.uMm) <= nearMm && off(place.zMm ?? 0, trim.vMm) <= nearMm;
}
