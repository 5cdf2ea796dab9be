/**
 * The brief: what is to be made, and the shop's rules for it. Plain data; all of it is in every key that is printed.
 */
import * as v from 'valibot';
import { fates, referenceKinds, type Side, sides } from '../recess/recess-spec.ts';

const mm = v.pipe(v.number(), v.finite());
const length = v.pipe(mm, v.minValue(0), v.maxValue(5000));
const size = v.strictObject({ nominalMm: v.pipe(length, v.minValue(50)), find: v.boolean() });

const entries = {
  /** What the eye sees, to the nearest 10, and where the mouth is: what the views draw. */
  openingMm: v.strictObject({ width: length, height: length, depth: length }),
  mouthMm: v.pipe(mm, v.maxValue(0)),
  /** What the face line follows. */
  reference: v.picklist(referenceKinds),
  /** How far in front of the face line the reference lies: a line past the breast of a pair. Left out: in it. */
  setBackMm: v.optional(length),
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
  /** Finish to come after the survey and before the fitting: the whole surface comes forward by so much. */
  finishMm: v.pipe(v.array(v.strictObject({ surface: v.picklist(sides), mm: length })), v.maxLength(6)),
  /** What stays, comes off or may be cut, by the trim's name. */
  fates: v.record(v.string(), v.picklist(fates)),
  /**
   * Clear height where the carcass is stood up, and whether its plinth comes separately; null: nothing to bring in. The
   * narrowest door on the way, and the turn of a stair: the clear widths before and after it, and the height over it.
   */
  access: v.nullable(
    v.strictObject({
      clearHeightMm: length,
      plinthSeparate: v.boolean(),
      door: v.optional(v.strictObject({ widthMm: length, heightMm: length })),
      turn: v.optional(v.strictObject({ beforeMm: length, afterMm: length, heightMm: length })),
    }),
  ),
  /**
   * Several carcasses side by side, of equal widths: together they are the carcass. What is asked left and right are
   * the least infills at the walls; an infill at the face line may not be wider than `mostInfillMm`.
   */
  modules: v.optional(
    v.strictObject({ count: v.pipe(v.number(), v.integer(), v.minValue(2), v.maxValue(12)), mostInfillMm: length }),
  ),
  /** Bands on the back that the carcass's back is cut for, by the trim's name: each is booked from the datums. */
  cutOuts: v.optional(v.pipe(v.array(v.string()), v.minLength(1), v.maxLength(16))),
  /** How much larger a cut-out is than its band, on each side: at least and at most. */
  cutOutSpareMm: v.optional(v.strictObject({ least: length, most: length })),
  /**
   * Shelves on the back wall, in place of a carcass: their fronts on the face line, their backs scribed. All blanks are
   * cut to one depth.
   */
  shelves: v.optional(
    v.strictObject({
      /** Heights of their undersides over the nominal floor. */
      heightsMm: v.pipe(v.array(length), v.minLength(1), v.maxLength(12)),
      thicknessMm: v.pipe(length, v.minValue(5), v.maxValue(100)),
      /** Shared by both sides of the middle. */
      lengthMm: v.pipe(length, v.minValue(100)),
      leastStockMm: length,
      mostStockMm: length,
    }),
  ),
  /** The sloped edge of the carcass's top: its line's heights over the carcass's bottom, at its low and its high edge. */
  slope: v.optional(
    v.strictObject({ low: v.picklist(['left', 'right']), lowMm: length, highMm: length, find: v.boolean() }),
  ),
  /** What is cut out of an upper corner of the carcass, for a beam or a boxing to pass. */
  notch: v.optional(v.strictObject({ side: v.picklist(['left', 'right']), widthMm: length, heightMm: length })),
  /**
   * A lining in place of a carcass: an open box of boards round an opening, `carcassMm` its outside sizes, `askMm` the
   * packing. Its depth is the thickness of the wall, and its far edge is planed to the far face: least and most to come off.
   */
  lining: v.optional(v.strictObject({ thicknessMm: length, leastStockMm: length, mostStockMm: length })),
};

export const briefSchema = v.strictObject({
  ...entries,
  /** What is to be made in the right-hand recess of a pair. */
  second: v.optional(v.strictObject(entries)),
});

export type Brief = Readonly<v.InferOutput<typeof briefSchema>>;
export type Notch = NonNullable<Brief['notch']>;

/** The sizes that a carcass can be asked about by. */
export interface CarcassSizes {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly depthMm: number;
  /** The line of a sloped edge: its heights over the bottom at the left and the right edge. The flat top is `heightMm`. */
  readonly slope?: { readonly leftMm: number; readonly rightMm: number };
  /** What is cut out of an upper corner. */
  readonly notch?: Notch;
}

/** Gives by how much a surface will come forward by the finish to come, mm. */
export function finishOn(brief: Pick<Brief, 'finishMm'>, side: Side): number {
  return brief.finishMm.reduce((sum, f) => (f.surface === side ? sum + f.mm : sum), 0);
}

/** Gives the sizes of the brief's nominal carcass. */
export function nominalCarcass(brief: Brief): CarcassSizes {
  const { width, height, depth } = brief.carcassMm;
  const { slope, notch } = brief;
  return {
    widthMm: width.nominalMm,
    heightMm: height.nominalMm,
    depthMm: depth.nominalMm,
    ...(slope ? { slope: slopeLine(slope.low, slope) } : {}),
    ...(notch ? { notch } : {}),
  };
}

/** Gives the line of a sloped edge from its heights at the low and the high edge. */
export function slopeLine(
  low: 'left' | 'right',
  of: { lowMm: number; highMm: number },
): NonNullable<CarcassSizes['slope']> {
  return low === 'left' ? { leftMm: of.lowMm, rightMm: of.highMm } : { leftMm: of.highMm, rightMm: of.lowMm };
}
