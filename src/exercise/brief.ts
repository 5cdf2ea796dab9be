/**
 * The brief: what is to be made, and the shop's rules for it. Plain data; all of it is in every key that is printed.
 */
import * as v from 'valibot';
import { fates, referenceKinds } from '../recess/recess-spec.ts';

const mm = v.pipe(v.number(), v.finite());
const length = v.pipe(mm, v.minValue(0), v.maxValue(4000));
const size = v.strictObject({ nominalMm: v.pipe(length, v.minValue(50)), find: v.boolean() });

export const briefSchema = v.strictObject({
  /** What the eye sees, to the nearest 10, and where the mouth is: what the views draw. */
  openingMm: v.strictObject({ width: length, height: length, depth: length }),
  mouthMm: v.pipe(mm, v.maxValue(0)),
  /** What the face line follows. */
  reference: v.picklist(referenceKinds),
  /** How far the reference is seen to waver either way of straight. */
  referenceWaverMm: length,
  /** How far behind the face line the carcass begins. */
  carcassFrontMm: length,
  /** Sizes of the carcass; one that is not to be found is made as it stands. */
  carcassMm: v.strictObject({ width: size, height: size, depth: size }),
  /** The clearance asked on each side of the carcass. */
  askMm: v.strictObject({ left: length, right: length, top: length, back: length }),
  /** Lowest plinth: the carcass stands on it over the floor's high point. */
  plinthMm: length,
  /** The face frame: its thickness, and the least and most stock that can be scribed off an edge. */
  frame: v.nullable(v.strictObject({ thicknessMm: length, leastStockMm: length, mostStockMm: length })),
  /** Floor or wall finish to come. No brief of this version has any. */
  finishMm: v.pipe(v.array(v.never()), v.maxLength(0)),
  /** What stays, comes off or may be cut, by the trim's name. */
  fates: v.record(v.string(), v.picklist(fates)),
  /** Clear height where the carcass is stood up, and whether its plinth comes separately; null: nothing to bring in. */
  access: v.nullable(v.strictObject({ clearHeightMm: length, plinthSeparate: v.boolean() })),
});

export type Brief = Readonly<v.InferOutput<typeof briefSchema>>;

/** The sizes that a carcass can be asked about by. */
export interface CarcassSizes {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly depthMm: number;
}

/** Gives the sizes of the brief's nominal carcass. */
export function nominalCarcass(brief: Brief): CarcassSizes {
  const { width, height, depth } = brief.carcassMm;
  return { widthMm: width.nominalMm, heightMm: height.nominalMm, depthMm: depth.nominalMm };
}
