/**
 * Learners who set out at a run from what is not a datum: each carcass from the last, each box from another.
 */
import { graduationMm, readTo } from '../../recess/lengths.ts';
import type { Trim } from '../../recess/recess-spec.ts';
import type { PlaceSaid } from '../../survey/act.ts';
import { workOutCutOuts } from '../../survey/cut-out.ts';
import type { RunSlip } from '../careful-run.ts';
import { cutOutsFound } from '../cut-out-reading.ts';
import { type Hand, unitsInHand } from '../hand.ts';

/** Makes every carcass of the same whole millimetres, or graduations, and lays them end to end from the left. */
export const chained: RunSlip = {
  setsOut: ({ fromMm, wideMm, count, units }) => {
    const whole = graduationMm(units);
    const step = Math.round(wideMm / count / whole) * whole;
    const from = 0 + readTo(units, fromMm);
    return Array.from({ length: count + 1 }, (_, i) => from + i * step);
  },
};

/** Reads the first box from the lines, and tapes from it to the others; how high they are it reads from the level line. */
export const boxFromBox: RunSlip = {
  edges: (wanted) => {
    const first = wanted[0]?.trim;
    const isTaped = (trim: Trim) => first !== undefined && trim !== first && isBeside(trim, first);
    return wanted.filter(({ trim, edge }) => !isTaped(trim) || edge === 'bottom' || edge === 'top');
  },
  cutOuts: (hand) => {
    const { spec, brief } = hand.now().world.exercise;
    const [first, ...others] = spec.trims.filter((t) => brief.cutOuts?.includes(t.name));
    const found = cutOutsFound(hand).cutOutsMm ?? [];
    const base = found.find((c) => c.name === first?.name);
    if (!first || !base) return cutOutsFound(hand);
    const sent = others.flatMap((trim) => {
      const read = found.find((c) => c.name === trim.name);
      return read ?? (isBeside(trim, first) ? cutOutFrom(hand, { first, trim, fromS: base.fromS }) : null) ?? [];
    });
    return { cutOutsMm: [base, ...sent] };
  },
};

/** Nobody tapes to a box that stands over or under another: it has to be clear of it to one side by so much, mm. */
const clearMm = 150;

function isBeside(trim: Trim, first: Trim): boolean {
  return trim.uMm[0] - first.uMm[1] >= clearMm || first.uMm[0] - trim.uMm[1] >= clearMm;
}

function cutOutFrom(hand: Hand, of: { first: Trim; trim: Trim; fromS: number }) {
  const { first, trim, fromS } = of;
  const up = workOutCutOuts(hand.now()).find((c) => c.name === trim.name);
  const right = trim.uMm[0] > first.uMm[0];
  const apart = taped(hand, edgeOf(first, right ? 'right' : 'left'), edgeOf(trim, right ? 'left' : 'right'));
  const [own, its] = [first, trim].map((t) => taped(hand, edgeOf(t, 'left'), edgeOf(t, 'right')));
  if (!up || up.fromL === null || up.height === null || apart === null || own == null || its == null) return null;
  const half = (mm: number) => 0 + readTo(unitsInHand(hand), mm);
  const spare = hand.now().world.exercise.brief.cutOutSpareMm?.least ?? 0;
  return {
    name: trim.name,
    fromS: half(fromS + (right ? 1 : -1) * (own / 2 + apart + its / 2)),
    fromL: half(up.fromL),
    width: half(its + 2 * spare),
    height: half(up.height),
  };
}

function taped(hand: Hand, from: PlaceSaid, to: PlaceSaid): number | null {
  const seen = hand.act({ act: 'diagonal', from, to });
  return seen.ok && seen.tapeMm !== undefined ? readTo(unitsInHand(hand), seen.tapeMm) : null;
}

/** An upright edge of a box, half-way up it. */
function edgeOf(trim: Trim, edge: 'left' | 'right'): PlaceSaid {
  const zMm = Math.round((trim.vMm[0] + trim.vMm[1]) / 2);
  return { surface: 'back', xMm: trim.uMm[edge === 'left' ? 0 : 1], zMm, edge };
}
