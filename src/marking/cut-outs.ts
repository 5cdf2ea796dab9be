/**
 * Cut-outs: what was proposed for each box against where it truly is, and where each millimetre of its place came from.
 *
 * A place is a middle, so a line of its ledger is the mean of what happened at the two edges: + is to the right, or up.
 */
import { type Plane, signedDistance } from '../geometry/plane.ts';
import type { Trim } from '../recess/recess-spec.ts';
import type { BandEdge } from '../survey/act.ts';
import { cutOutTrims, edgeBookings, setOutDatum } from '../survey/cut-out.ts';
import { carriedStep, mean } from '../survey/offsets.ts';
import type { Survey } from '../survey/survey.ts';
import { type LedgerLine, toGrain } from './ledger.ts';
import { middleSeen, readingBehind } from './offset-chain.ts';

/** One coordinate of a cut-out's middle. */
export interface CutOutPlace {
  readonly keyMm: number;
  readonly saidMm: number;
  readonly lines: readonly LedgerLine[];
}

export interface CutOutMark {
  readonly name: string;
  /** Null where it was not proposed. */
  readonly fromS: CutOutPlace | null;
  readonly fromL: CutOutPlace | null;
  /** What is clear round the box when the back is cut as proposed; < 0 where the cut-out does not clear it. */
  readonly spareMm: Readonly<Record<'left' | 'right' | 'top' | 'bottom', number>> | null;
}

/** Marks the cut-outs that the brief asks for, in the order of the room's trims. */
export function markCutOuts(survey: Survey): readonly CutOutMark[] {
  const square = datumAt(survey, 'S');
  const level = datumAt(survey, 'L');
  return cutOutTrims(survey).map((trim) => {
    const said = survey.proposal?.cutOutsMm?.find((c) => c.name === trim.name);
    if (!said || !square || !level) return { name: trim.name, fromS: null, fromL: null, spareMm: null };
    const [u0, u1] = trim.uMm;
    const [v0, v1] = trim.vMm;
    const x = square.mm + said.fromS;
    const z = level.mm + said.fromL;
    return {
      name: trim.name,
      fromS: placeLedger(survey, trim, { edges: ['left', 'right'], datum: square, said: said.fromS }),
      fromL: placeLedger(survey, trim, { edges: ['bottom', 'top'], datum: level, said: said.fromL }),
      spareMm: {
        left: u0 - (x - said.width / 2),
        right: x + said.width / 2 - u1,
        bottom: v0 - (z - said.height / 2),
        top: z + said.height / 2 - v1,
      },
    };
  });
}

/** A datum that work is set out from, and where it truly crosses: S the face line, L the height. */
interface SetOut {
  readonly name: string;
  readonly plane: Plane;
  readonly mm: number;
}

/** Gives where the square line that work is set out from crosses the face line; null when none was thrown. */
export function squareAt(survey: Survey): number | null {
  return datumAt(survey, 'S')?.mm ?? null;
}

function datumAt(survey: Survey, kind: 'S' | 'L'): SetOut | null {
  const name = setOutDatum(survey, kind);
  const plane = name === null ? undefined : survey.planes[name];
  if (name === null || !plane) return null;
  return { name, plane, mm: kind === 'L' ? plane.c : plane.c / plane.nx };
}

/** An edge from its datum, brought to the one that is set out from: as that stood, as seen, as written. */
interface EdgeSteps {
  readonly setUp: number;
  readonly seen: number;
  readonly written: number;
}

function placeLedger(
  survey: Survey,
  trim: Trim,
  of: { edges: readonly [BandEdge, BandEdge]; datum: SetOut; said: number },
): CutOutPlace {
  const [from, to] = of.edges[0] === 'left' ? trim.uMm : trim.vMm;
  const keyMm = toGrain((from + to) / 2 - of.datum.mm);
  const said = toGrain(of.said);
  const [one, two] = of.edges.map((edge) => edgeSteps(survey, edgeBookings(survey, trim, edge), of.datum));
  if (!one || !two) return { keyMm, saidMm: of.said, lines: [{ name: 'not-surveyed', mm: said - keyMm }] };
  const middle = (which: keyof EdgeSteps) => toGrain((one[which] + two[which]) / 2);
  return {
    keyMm,
    saidMm: of.said,
    lines: [
      { name: 'set-up', mm: middle('setUp') - keyMm },
      { name: 'rule', mm: middle('seen') - middle('setUp') },
      { name: 'booking', mm: middle('written') - middle('seen') },
      { name: 'working-out', mm: said - middle('written') },
    ],
  };
}

function edgeSteps(survey: Survey, bookings: ReturnType<typeof edgeBookings>, datum: SetOut): EdgeSteps | null {
  const read = bookings.flatMap((b) => {
    const reading = readingBehind(survey, b);
    if (!reading) return [];
    const off = signedDistance(reading.plane, reading.point);
    const sign = off < 0 ? -1 : 1;
    const step = signedDistance(datum.plane, reading.point) - off;
    const carried = carriedStep(survey, b.datum, datum.name);
    const allowed = sign * b.allowedMm + (carried?.allowedMm ?? 0);
    return [
      {
        setUp: off + step + allowed,
        seen: sign * middleSeen(reading, survey.world.exercise.kit.rule) + step + allowed,
        written: sign * b.valueMm + (carried ? carried.stepMm : 0),
      },
    ];
  });
  if (read.length === 0) return null;
  return {
    setUp: mean(read.map((r) => r.setUp)),
    seen: mean(read.map((r) => r.seen)),
    written: mean(read.map((r) => r.written)),
  };
}
