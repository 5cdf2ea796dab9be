/**
 * The spec of a recess: plain data from which the hidden surfaces are built, and which can be said in trade words.
 *
 * Frame: x right along the face line, y into the recess, z up, mm; x = 0 the middle of the nominal opening, z = 0 the
 * nominal floor, y = 0 the face line. Every size of a defect is in mm, its sign as in the table of `defect-shapes.ts`.
 */
import * as v from 'valibot';

/**
 * The sides of free space. The slope is a second ceiling: a stair's soffit or a roof's underside. In this order they are
 * numbered; only ever add at the end.
 */
export const sides = ['left', 'right', 'back', 'floor', 'ceiling', 'slope'] as const;
export type Side = (typeof sides)[number];

/** What a band does to the new work: it blocks, it is taken away before fitting, or it may be cut. */
export const fates = ['stays', 'off', 'cut'] as const;
export type Fate = (typeof fates)[number];

/** Kinds of recess, in the order of the exercise code: only ever add at the end. */
export const familyNames = [
  'alcove',
  'run',
  'reveal',
  'doorway',
  'under-stair',
  'roof-slope',
  'plain-wall',
  'alcove-pair',
  'own',
] as const;
export type FamilyName = (typeof familyNames)[number];

/** What a face line may follow. */
export const referenceKinds = [
  'cornice-return',
  'breast-face',
  'floor-joint',
  'tile-joint',
  'opposite-wall',
  'existing-front',
  'square-to-wall',
  'best-fit',
  'wall-face',
] as const;
export type ReferenceKind = (typeof referenceKinds)[number];

/** Trims and fixtures that ride on a surface. */
export const trimKinds = [
  'skirting',
  'cornice',
  'coving',
  'architrave',
  'picture-rail',
  'dado-rail',
  'pipe-boxing',
  'socket-box',
  'beam',
  'radiator',
  'newel',
  'window-board',
] as const;
export type TrimKind = (typeof trimKinds)[number];

const mm = v.pipe(v.number(), v.finite());
const length = v.pipe(mm, v.minValue(0));
const word = v.pipe(v.number(), v.integer());
const name = v.pipe(v.string(), v.minLength(1), v.maxLength(40));

const defect = v.variant('kind', [
  v.strictObject({ kind: v.literal('lean'), mm }),
  v.strictObject({ kind: v.literal('taper'), mm }),
  v.strictObject({ kind: v.literal('skew'), mm }),
  v.strictObject({ kind: v.literal('fall'), mm, towards: v.picklist(['left', 'right', 'front', 'back']) }),
  v.strictObject({ kind: v.literal('wind'), mm }),
  v.strictObject({ kind: v.literal('bow'), mm, crownU: v.optional(mm), crownV: v.optional(mm) }),
  v.strictObject({ kind: v.literal('hump'), mm, u: mm, v: mm, width: v.pipe(mm, v.minValue(256)) }),
  v.strictObject({
    kind: v.literal('step'),
    mm,
    along: v.picklist(['u', 'v']),
    at: mm,
    width: v.pipe(mm, v.minValue(256)),
  }),
]);

const places = v.pipe(v.array(mm), v.minLength(2), v.maxLength(24));

/** How far a surface stands off its plane at a net of places, mm, + into the free space: a row a place of v. */
const measured = v.strictObject({
  uMm: places,
  vMm: places,
  mm: v.pipe(v.array(places), v.minLength(2), v.maxLength(24)),
});

const surface = v.strictObject({
  offsetMm: mm,
  wobbleMm: v.pipe(length, v.maxValue(10)),
  defects: v.pipe(v.array(defect), v.maxLength(24)),
  /** What was measured, besides the defects: the surface runs smoothly through it. */
  measured: v.optional(measured),
});

const trim = v.strictObject({
  name,
  kind: v.picklist(trimKinds),
  surface: v.picklist(sides),
  uMm: v.tuple([mm, mm]),
  vMm: v.tuple([mm, mm]),
  profile: v.strictObject({
    along: v.picklist(['u', 'v']),
    mm: v.pipe(v.array(v.tuple([mm, length])), v.minLength(2), v.maxLength(24)),
  }),
});

const openingMm = v.strictObject({
  width: v.pipe(mm, v.minValue(400), v.maxValue(5000)),
  height: v.pipe(mm, v.minValue(400), v.maxValue(3200)),
  depth: v.pipe(mm, v.minValue(80), v.maxValue(1200)),
});
const mouthMm = v.pipe(mm, v.minValue(-300), v.maxValue(0));
/** Where a chimney breast is: that side's wall begins at the mouth. Null: both side walls run on into the room. */
const breastSide = v.nullable(v.picklist(['left', 'right']));
const key = v.tuple([word, word, word, word]);
/** A side without a surface is open. */
const surfaces = v.strictObject({
  left: v.optional(surface),
  right: v.optional(surface),
  back: v.optional(surface),
  floor: surface,
  ceiling: v.optional(surface),
  slope: v.optional(surface),
});
const trims = v.pipe(v.array(trim), v.maxLength(16));

export const recessSpecSchema = v.strictObject({
  format: v.literal('offtrue-spec'),
  version: v.literal(1),
  family: v.picklist(familyNames),
  structure: name,
  severity: name,
  openingMm,
  mouthMm,
  breastSide,
  key,
  surfaces,
  /** The slope's plane before its defects: its height at the low edge of the opening, and its rise from there. */
  slope: v.optional(
    v.strictObject({
      low: v.picklist(['left', 'right']),
      lowMm: v.pipe(mm, v.minValue(100), v.maxValue(3000)),
      riseMmPerM: v.pipe(mm, v.minValue(100), v.maxValue(1500)),
    }),
  ),
  trims,
  reference: v.strictObject({
    kind: v.picklist(referenceKinds),
    heightMm: mm,
    wavesMm: v.pipe(v.array(mm), v.minLength(2), v.maxLength(33)),
    /** From where to where along x the waves run; left out, over the opening. */
    overMm: v.optional(v.tuple([mm, mm])),
  }),
  /** The right-hand recess of a pair, in a frame of its own: x = 0 the middle of its own opening, `atXMm` right of the first's. */
  second: v.optional(
    v.strictObject({
      atXMm: v.pipe(mm, v.minValue(500), v.maxValue(6000)),
      openingMm,
      mouthMm,
      breastSide,
      key,
      surfaces,
      trims,
    }),
  ),
});

export type RecessSpec = Readonly<v.InferOutput<typeof recessSpecSchema>>;
export type Defect = Readonly<v.InferOutput<typeof defect>>;
export type SurfaceSpec = Readonly<v.InferOutput<typeof surface>>;
export type Measured = Readonly<v.InferOutput<typeof measured>>;
export type Trim = Readonly<v.InferOutput<typeof trim>>;
/** A line of the room that the face line is to follow; `wavesMm` are its y at even steps of x. */
export type Reference = RecessSpec['reference'];
export type BreastSide = NonNullable<RecessSpec['breastSide']>;
export type SlopeSpec = NonNullable<RecessSpec['slope']>;

/** Says whether a side of a spec is open: it has no surface. */
export function isOpen(spec: Pick<RecessSpec, 'surfaces'>, side: Side): boolean {
  return spec.surfaces[side] === undefined;
}

/**
 * Says whether a side has nothing before the mouth: a breast's wall begins at its arris, and so do the jambs and head of
 * a reveal and a doorway, and a reveal's sill; the floor of a doorway runs on.
 */
export function beginsAtMouth(spec: Pick<RecessSpec, 'family' | 'breastSide'>, side: Side): boolean {
  if (side === spec.breastSide) return true;
  if (spec.family === 'reveal') return side !== 'back';
  return spec.family === 'doorway' && side !== 'back' && side !== 'floor';
}

/** How far in from a doorway's jambs and head its far face can be touched, mm: past that there is only air. */
export const farFaceReachMm = 90;

/** Gives the sides of a spec that have a surface, in the order of sides. */
export function builtSides(spec: Pick<RecessSpec, 'surfaces'>): readonly Side[] {
  return sides.filter((side) => !isOpen(spec, side));
}

/** How far a surface reaches past the outline and the mouth, mm. Beyond it nothing is read, keyed or proposed. */
export const reachMm = 256;

/** The stretch of room coordinates that each axis of a recess spans, reach included, mm, closed. */
export interface Extents {
  readonly x: readonly [number, number];
  readonly y: readonly [number, number];
  readonly z: readonly [number, number];
}

/** Gives the extents of a spec's surfaces, reach included. */
export function extentsOf(spec: Pick<RecessSpec, 'openingMm' | 'mouthMm'>): Extents {
  const { width, height, depth } = spec.openingMm;
  return {
    x: [-width / 2 - reachMm, width / 2 + reachMm],
    y: [spec.mouthMm - reachMm, depth + reachMm],
    z: [-reachMm, height + reachMm],
  };
}

/** Which room axes run along u and v of a side: (y, z) for side walls, (x, z) for the back, (x, y) for floor, ceiling, slope. */
export function axesOf(side: Side): { readonly u: 'x' | 'y'; readonly v: 'y' | 'z'; readonly across: 'x' | 'y' | 'z' } {
  if (side === 'left' || side === 'right') return { u: 'y', v: 'z', across: 'x' };
  if (side === 'back') return { u: 'x', v: 'z', across: 'y' };
  return { u: 'x', v: 'y', across: 'z' };
}

/** Turns an obstruction of a side into the room coordinate across it, and back: left and floor keep it, others negate. */
export function trueOf(side: Side, obstruction: number): number {
  return side === 'left' || side === 'floor' ? obstruction : 0 - obstruction;
}
