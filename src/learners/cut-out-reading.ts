/**
 * Reading the boxes that a carcass's back is cut for: each edge from a datum, never one box from another.
 */
import { readTo } from '../recess/lengths.ts';
import type { Trim } from '../recess/recess-spec.ts';
import type { ActOf, BandEdge } from '../survey/act.ts';
import { workOutCutOuts } from '../survey/cut-out.ts';
import { type Hand, readAndBook, unitsInHand } from './hand.ts';

/** An edge of a box that is still to be read. */
export interface EdgeWanted {
  readonly trim: Trim;
  readonly edge: BandEdge;
}

/** Gives every edge of every cut-out that the brief asks for. */
export function edgesWanted(hand: Hand): readonly EdgeWanted[] {
  const { spec, brief } = hand.now().world.exercise;
  const trims = spec.trims.filter((t) => brief.cutOuts?.includes(t.name));
  return trims.flatMap((trim) => (['left', 'right', 'bottom', 'top'] as const).map((edge) => ({ trim, edge })));
}

/** Reads an edge from a set-up's datum, at its middle or else nearer to one end; says whether it was booked. */
export function readEdge(hand: Hand, { trim, edge }: EdgeWanted, datum: string): boolean {
  const [u0, u1] = trim.uMm;
  const [v0, v1] = trim.vMm;
  const upright = edge === 'left' || edge === 'right';
  return [0.5, 0.25, 0.75].some((share) => {
    const xMm = upright ? (edge === 'left' ? u0 : u1) : u0 + share * (u1 - u0);
    const zMm = upright ? v0 + share * (v1 - v0) : edge === 'bottom' ? v0 : v1;
    return readAndBook(hand, { datum, place: { surface: 'back', xMm, zMm, edge } }) !== null;
  });
}

/** What is proposed for the cut-outs by what stands on the sheet, to half a graduation; those not read are left out. */
export function cutOutsFound(hand: Hand): Pick<ActOf<'propose'>, 'cutOutsMm'> {
  const half = (mm: number) => 0 + readTo(unitsInHand(hand), mm);
  const cutOutsMm = workOutCutOuts(hand.now()).flatMap(({ name, fromS, fromL, width, height }) =>
    fromS === null || fromL === null || width === null || height === null
      ? []
      : [{ name, fromS: half(fromS), fromL: half(fromL), width: half(width), height: half(height) }],
  );
  return cutOutsMm.length > 0 ? { cutOutsMm } : {};
}
