/**
 * Learners who leave places out: one width, the front alone, one height, the floor at the back alone, the ceiling in the
 * middle alone, above the skirting, in front of the cornice, the two ends of a slope, the near face of a jamb.
 */
import type { Trim } from '../../recess/recess-spec.ts';
import type { Hand } from '../hand.ts';
import type { PlannedReading } from '../reading-plan.ts';
import { middleHeight, nearestTo, onSideWall, type Slip } from './method.ts';

/** Reads each side wall in one place, half-way up at the front. */
export const oneWidth: Slip = { plans: (readings, hand) => oneHeight(atFront(readings), hand) };

/** Reads the side walls at the front alone. */
export const frontOnly: Slip = { plans: atFront };

/** Takes the walls as plumb: reads them at one height, front to back. */
export const wallAsPlumb: Slip = { plans: oneHeight };

/** Reads the floor under the carcass along the back alone. */
export const floorAtBack: Slip = {
  plans: (readings) => {
    const isUnder = (r: PlannedReading) => r.place.surface === 'floor' && r.place.yMm !== undefined;
    const back = Math.max(...readings.filter(isUnder).map((r) => r.place.yMm ?? 0));
    return readings.filter((r) => !isUnder(r) || r.place.yMm === back);
  },
};

/** Takes one margin: reads the ceiling in the middle of the width alone. */
export const oneMargin: Slip = {
  plans: (readings) => readings.filter((r) => r.place.surface !== 'ceiling' || Math.abs(r.place.xMm ?? 0) < 20),
};

/** Reads the side walls above the skirting alone. */
export const aboveSkirting: Slip = {
  plans: (readings, hand) => readings.filter((r) => !onSideWall(r) || !isAt(r, trimsOf(hand, 'skirting'))),
};

/** Reads the ceiling in front of the cornice alone. */
export const besideCornice: Slip = {
  plans: (readings, hand) =>
    readings.filter((r) => r.place.surface !== 'ceiling' || !isAt(r, trimsOf(hand, 'cornice'))),
};

/** Reads a slope at its two ends alone, and draws a straight line. */
export const twoChainages: Slip = {
  plans: (readings) => {
    const at = readings.filter((r) => r.place.surface === 'slope').map((r) => r.place.xMm ?? 0);
    const ends = [Math.min(...at), Math.max(...at)];
    return readings.filter((r) => r.place.surface !== 'slope' || ends.includes(r.place.xMm ?? 0));
  },
};

/** Reads up the near face of each jamb, and further in half-way up alone. */
export const nearFace: Slip = {
  plans: (readings, hand) => {
    const walls = readings.filter(onSideWall);
    const near = Math.min(...walls.map((r) => r.place.yMm ?? 0));
    const half = nearestTo(
      walls.map((r) => r.place.zMm ?? 0),
      middleHeight(hand.now().world.exercise.brief),
    );
    return readings.filter((r) => !onSideWall(r) || r.place.yMm === near || r.place.zMm === half);
  },
};

/** How near to a trim's edge a place may be said and still be beside it: the hand is no surer, mm. */
const clearOfMm = 24;

function atFront(readings: readonly PlannedReading[]): readonly PlannedReading[] {
  const depths = readings.filter((r) => onSideWall(r) && !atFaceLine(r)).map((r) => r.place.yMm ?? 0);
  const front = Math.min(...depths);
  return readings.filter((r) => !onSideWall(r) || atFaceLine(r) || r.place.yMm === front);
}

function oneHeight(readings: readonly PlannedReading[], hand: Hand): readonly PlannedReading[] {
  const middle = middleHeight(hand.now().world.exercise.brief);
  const kept = (along: boolean) => {
    const walls = readings.filter((r) => onSideWall(r) && atFaceLine(r) === along);
    return nearestTo(
      walls.map((r) => r.place.zMm ?? 0),
      middle,
    );
  };
  const [free, onFace] = [kept(false), kept(true)];
  return readings.filter((r) => !onSideWall(r) || r.place.zMm === (atFaceLine(r) ? onFace : free));
}

/** Read for a frame, at the face line. */
function atFaceLine(reading: PlannedReading): boolean {
  return reading.for?.includes('frame-width') ?? false;
}

function trimsOf(hand: Hand, kind: Trim['kind']): readonly Trim[] {
  const { spec, brief } = hand.now().world.exercise;
  return spec.trims.filter((t) => t.kind === kind && brief.fates[t.name] === 'stays');
}

/** Whether a place is said to lie on a trim, or so near to it that the hand may land there. */
function isAt(reading: PlannedReading, trims: readonly Trim[]): boolean {
  const { surface, xMm = 0, yMm = 0, zMm = 0 } = reading.place;
  const [u, v] = surface === 'left' || surface === 'right' ? [yMm, zMm] : [xMm, yMm];
  const within = (at: number, [from, to]: readonly [number, number]) => at > from - clearOfMm && at < to + clearOfMm;
  return trims.some((t) => t.surface === surface && within(u, t.uMm) && within(v, t.vMm));
}
