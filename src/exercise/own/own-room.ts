/**
 * A room of one's own: what a tutor writes by hand. It is short; what is left out gets the family's usual values.
 *
 * Sizes are mm. A size of a surface is measured off the straight outline, + into the recess. Places: `inMm` from the face
 * line, `upMm` from the floor, `rightMm` right of the middle of the opening (left of it is -).
 */
import * as v from 'valibot';
import { familyNames, fates, referenceKinds } from '../../recess/recess-spec.ts';
import { findSchema } from '../exercise.ts';
import { presets } from '../kit.ts';

const mm = v.pipe(v.number(), v.finite());
/** A length of the room: one that is less than any room has was told in metres. */
const length = v.pipe(
  mm,
  v.check(
    (n) => n <= 0 || n > 10,
    (issue) => sayMetres(Number(issue.input), 1),
  ),
);
/** How far out of true: what is finer than any rule reads was told in metres. */
const out = v.pipe(
  mm,
  v.minValue(-3000),
  v.maxValue(3000),
  v.check(
    (n) => n === 0 || Math.abs(n) >= 0.05,
    (issue) => sayMetres(Number(issue.input), 1000),
  ),
);
const amount = v.pipe(out, v.minValue(0));
const thickness = v.pipe(mm, v.minValue(1), v.maxValue(400));
/** A place: a part of a few millimetres is no place that anyone tells. */
const place = v.optional(
  v.pipe(
    mm,
    v.check(
      (n) => Number.isInteger(n) || Math.abs(n) > 10,
      (issue) => sayMetres(Number(issue.input), 1),
    ),
  ),
);
const fate = v.optional(v.picklist(fates));
const wide = v.pipe(length, v.minValue(256), v.maxValue(5000));
const crown = { upMm: place, inMm: place, rightMm: place };

/** What can be bad about a surface, each by the trade's word. */
const badSchema = v.variant('is', [
  v.strictObject({ is: v.literal('lean'), mm: out }),
  v.strictObject({ is: v.literal('taper'), mm: out }),
  v.strictObject({ is: v.literal('skew'), mm: out }),
  v.strictObject({ is: v.literal('fall'), mm: amount, towards: v.picklist(['left', 'right', 'front', 'back']) }),
  v.strictObject({ is: v.literal('wind'), mm: out }),
  v.strictObject({ is: v.literal('belly'), mm: amount, ...crown }),
  v.strictObject({ is: v.literal('hollow'), mm: amount, ...crown }),
  v.strictObject({ is: v.literal('hump'), mm: amount, wideMm: wide, ...crown }),
  v.strictObject({ is: v.literal('dip'), mm: amount, wideMm: wide, ...crown }),
  v.strictObject({
    is: v.literal('step'),
    mm: out,
    beyond: v.picklist(['up', 'in', 'right']),
    atMm: mm,
    wideMm: v.optional(wide),
  }),
]);

const corner = v.optional(out);
const places = v.pipe(v.array(mm), v.minLength(2), v.maxLength(24));

const rows = v.pipe(v.array(v.pipe(mm, v.minValue(-3000), v.maxValue(3000))), v.minLength(2), v.maxLength(24));

const surfaceSchema = v.strictObject({
  /** How far the four corners of the straight outline lie off, all told; those left out, 0. */
  cornersMm: v.optional(
    v.strictObject({
      bottomFront: corner,
      bottomBack: corner,
      topFront: corner,
      topBack: corner,
      bottomLeft: corner,
      bottomRight: corner,
      topLeft: corner,
      topRight: corner,
      frontLeft: corner,
      frontRight: corner,
      backLeft: corner,
      backRight: corner,
    }),
  ),
  bad: v.optional(v.pipe(v.array(badSchema), v.maxLength(20))),
  /** Bound of the unevenness of the plaster. */
  unevenMm: v.optional(v.pipe(mm, v.minValue(0), v.maxValue(10))),
  /** As measured: a row for each place of `vMm`; u and v are in and up, right and up, or right and in. */
  measured: v.optional(
    v.strictObject({ uMm: places, vMm: places, mm: v.pipe(v.array(rows), v.minLength(2), v.maxLength(24)) }),
  ),
});

const walls = v.optional(v.pipe(v.array(v.picklist(['left', 'right', 'back'])), v.minLength(1), v.maxLength(3)));
const stretch = v.tuple([mm, mm]);

const trimSchema = v.variant('kind', [
  v.strictObject({ kind: v.literal('skirting'), on: walls, tallMm: thickness, thickMm: thickness, fate }),
  v.strictObject({ kind: v.picklist(['cornice', 'coving']), on: walls, dropMm: thickness, outMm: thickness, fate }),
  v.strictObject({
    kind: v.picklist(['picture-rail', 'dado-rail']),
    on: walls,
    upMm: length,
    tallMm: thickness,
    thickMm: thickness,
    fate,
  }),
  v.strictObject({
    kind: v.picklist(['architrave', 'pipe-boxing', 'socket-box', 'radiator', 'newel', 'window-board']),
    on: v.picklist(['left', 'right', 'back']),
    /** From and to along the wall: in for a side wall, right of the middle for the back. */
    alongMm: stretch,
    upMm: stretch,
    outMm: thickness,
    fate,
  }),
  v.strictObject({
    kind: v.literal('beam'),
    /** A beam from side to side lies between two places in; one that runs in, between two places right of the middle. */
    runs: v.picklist(['side-to-side', 'in']),
    fromMm: mm,
    toMm: mm,
    dropMm: thickness,
    fate,
  }),
]);

const size = v.optional(length);
const ask = v.optional(v.pipe(mm, v.minValue(0), v.maxValue(200)));

export const ownRoomSchema = v.strictObject({
  format: v.literal('offtrue-room'),
  version: v.literal(1),
  family: v.picklist(familyNames),
  openingMm: v.optional(v.strictObject({ width: length, height: length, depth: length })),
  /** How far the breast's face stands in front of the face line, and on which side the breast is. */
  breast: v.optional(v.strictObject({ side: v.picklist(['left', 'right']), inFrontMm: v.pipe(mm, v.minValue(0)) })),
  /** The slope overhead: its low side, its height there and how much it rises in a metre. */
  slope: v.optional(
    v.strictObject({ low: v.picklist(['left', 'right']), lowMm: length, riseMmPerM: v.pipe(mm, v.minValue(0)) }),
  ),
  /** Sides that have no surface. */
  open: v.optional(v.array(v.picklist(['left', 'right', 'back', 'ceiling']))),
  surfaces: v.optional(
    v.strictObject({
      left: v.optional(surfaceSchema),
      right: v.optional(surfaceSchema),
      back: v.optional(surfaceSchema),
      floor: v.optional(surfaceSchema),
      ceiling: v.optional(surfaceSchema),
      slope: v.optional(surfaceSchema),
    }),
  ),
  trims: v.optional(v.pipe(v.array(trimSchema), v.maxLength(8))),
  /** What the face line follows, and how far that wavers either way of straight. */
  reference: v.optional(
    v.strictObject({
      kind: v.picklist(referenceKinds),
      waverMm: v.optional(v.pipe(mm, v.minValue(0), v.maxValue(20))),
    }),
  ),
  brief: v.optional(
    v.strictObject({
      find: v.optional(findSchema),
      carcassMm: v.optional(v.strictObject({ width: size, height: size, depth: size })),
      clearanceMm: v.optional(v.strictObject({ left: ask, right: ask, top: ask, back: ask })),
      plinthMm: v.optional(v.pipe(mm, v.minValue(0))),
      frame: v.optional(v.boolean()),
      /** Thickness of the frame: the carcass begins as far behind the face line. */
      thickMm: v.optional(thickness),
      /** Least and most stock that can be scribed off an edge. */
      stockMm: v.optional(v.tuple([v.pipe(mm, v.minValue(0)), v.pipe(mm, v.minValue(0))])),
      /** Clear height where the carcass is stood up. */
      standUpMm: v.optional(length),
    }),
  ),
  /** Kit and aids, by name. */
  kit: v.optional(v.picklist(presets.map((p) => p.name))),
  /** Draws the unevenness, and the errors of rule and hand: another number, another draw. */
  seed: v.optional(v.pipe(v.number(), v.integer(), v.minValue(0), v.maxValue(999_999_999))),
});

export type OwnRoom = Readonly<v.InferOutput<typeof ownRoomSchema>>;
export type OwnSurface = Readonly<v.InferOutput<typeof surfaceSchema>>;
export type OwnBad = Readonly<v.InferOutput<typeof badSchema>>;
export type OwnTrim = Readonly<v.InferOutput<typeof trimSchema>>;
export type CornerName = keyof NonNullable<OwnSurface['cornersMm']>;

/** Why a room of one's own is no room, or no exercise. */
export interface OwnError {
  readonly code: 'own/surface' | 'own/corner' | 'own/bad' | 'own/space' | 'own/trim' | 'own/brief' | 'own/family';
  /** The field, from the file's root. */
  readonly field: string;
  /** What is wrong with it, without a full stop. */
  readonly says: string;
}

export type OwnResult<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly error: OwnError };

/** Refuses a room of one's own. */
export function refuseOwn(code: OwnError['code'], field: string, says: string): { ok: false; error: OwnError } {
  return { ok: false, error: { code, field, says } };
}

/** Says why a figure is no mm: it was told in metres (`parts`: how finely it is said in mm), or is next to nothing. */
function sayMetres(told: number, parts: number): string {
  const inMm = Math.round(told * 1000 * parts) / parts;
  return inMm === 0
    ? `millimetres (${told} is smaller than anything on site)`
    : `millimetres (${told} looks like metres: write ${inMm})`;
}
