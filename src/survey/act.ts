/**
 * The acts of a field log: the one door through which people, pages and scripts survey.
 *
 * Coordinates are the hand's: the outline's frame (x right, y into the recess, z up, mm), which lies against the room's
 * by a hidden shift and turn. A place on a surface is two of its own coordinates, or one and a seen line that it lies on.
 */
import * as v from 'valibot';
import { sides } from '../recess/recess-spec.ts';
import { sureLevels } from './how-sure.ts';
import { sizeNames } from './size.ts';

const mm = v.pipe(v.number(), v.finite(), v.minValue(-20_000), v.maxValue(20_000));
const length = v.pipe(v.number(), v.finite(), v.minValue(0), v.maxValue(20_000));
const count = v.pipe(v.number(), v.integer(), v.minValue(1));
const text = v.pipe(v.string(), v.minLength(1), v.maxLength(500));

/** F, S, L of the first set-up; F2, S2, L2 of the second, and so on; F:1-3 is the pencil line from mark 1 to mark 3. */
export const datumSchema = v.pipe(
  v.string(),
  v.regex(
    /^[FSL]([2-9]|[1-9][0-9])?$|^[FSL]:[1-9][0-9]{0,3}-[1-9][0-9]{0,3}$/,
    'a datum: F, S or L, or F2, S2, L2, ..., or a pencil line between two marks, F:1-3',
  ),
);

/** Edges of a band on a wall; on a side wall `front` is nearer to the room. */
export const bandEdges = ['left', 'right', 'front', 'back', 'top', 'bottom'] as const;
export type BandEdge = (typeof bandEdges)[number];

const onSurface = v.strictObject({
  surface: v.picklist(sides),
  xMm: v.optional(mm),
  yMm: v.optional(mm),
  zMm: v.optional(mm),
  along: v.optional(datumSchema),
  /** The rule is held against that edge of the band that is there; the two coordinates say which band. */
  edge: v.optional(v.picklist(bandEdges)),
  /** The right-hand recess of a pair, its coordinates from the middle of its own opening; left out, the left. */
  bay: v.optional(v.literal(2)),
});
const onMark = v.strictObject({ mark: count });
export const placeSchema = v.union(
  [onSurface, onMark],
  'a place: a surface with two of xMm, yMm, zMm (or one and along), or a mark',
);

/** Which of the kit's levels; left out: the one touched last, or the first. */
const whichLevel = v.optional(v.picklist([1, 2]));
const planeKind = v.picklist(['F', 'S']);
const target = v.union([onMark, v.strictObject({ referenceXMm: mm })], 'a mark, or referenceXMm');

/** One of a kind for each size that has one. */
const bySize = <S extends v.GenericSchema>(one: S) =>
  v.partial(
    v.strictObject({
      'carcass-width': one,
      'carcass-height': one,
      'carcass-depth': one,
      'frame-width': one,
      'frame-height': one,
      'run-left': one,
      'run-right': one,
      'shelf-depth': one,
      'lining-width': one,
      'lining-height': one,
      'lining-depth': one,
      'slope-low': one,
      'slope-high': one,
    }),
  );

const allowance = bySize(length);
const sure = bySize(v.picklist(sureLevels));

export const actSchema = v.variant('act', [
  v.strictObject({
    act: v.literal('stand'),
    xMm: mm,
    yMm: mm,
    heightMm: length,
    facing: v.optional(v.picklist(['recess', 'room', 'left', 'right'])),
    level: whichLevel,
    /** A mark on the floor that its plumb dot is put on; x and y say roughly where that is. */
    over: v.optional(count),
    /** The low feet of its stand are packed. */
    packed: v.optional(v.boolean()),
  }),
  v.strictObject({ act: v.literal('move'), byXMm: mm, byYMm: mm, level: whichLevel }),
  v.strictObject({
    act: v.literal('turn'),
    /** Anticlockwise seen from above. */
    byMmPerM: v.pipe(v.number(), v.finite(), v.minValue(-1000), v.maxValue(1000)),
    quarters: v.optional(v.pipe(v.number(), v.integer(), v.minValue(-2), v.maxValue(2))),
    level: whichLevel,
  }),
  v.strictObject({ act: v.literal('raise'), byMm: mm, level: whichLevel }),
  v.strictObject({ act: v.literal('settle'), level: whichLevel }),
  v.strictObject({ act: v.literal('aim'), plane: planeKind, at: target, level: whichLevel }),
  v.strictObject({
    act: v.literal('check'),
    check: v.picklist(['level', 'plumb', 'square']),
    /** Left out, the routine is gone through on a practice wall; with one, what it showed is judged. */
    verdict: v.optional(v.picklist(['use', 'do-not-use'])),
    /** The error as estimated, its sign as the level's faults have it. */
    errorMmPerM: v.optional(mm),
    level: whichLevel,
    /** It is used though it is out: its error is taken out of every offset from its lines. */
    allow: v.optional(v.literal(true)),
    /** Which of two ways: the level line fore-and-aft or side-to-side, the upright plane F or S. */
    of: v.optional(v.picklist(['fore', 'side', 'F', 'S'])),
  }),
  v.strictObject({ act: v.literal('mark'), place: placeSchema }),
  v.strictObject({ act: v.literal('rub-out'), mark: count }),
  v.strictObject({ act: v.literal('clear'), trim: text }),
  v.strictObject({
    act: v.literal('read'),
    datum: datumSchema,
    place: placeSchema,
    /** A hold that is not square to the datum, by its slope along the surface's two axes. */
    skewMmPerM: v.optional(
      v.tuple([
        v.pipe(v.number(), v.finite(), v.minValue(-300), v.maxValue(300)),
        v.pipe(v.number(), v.finite(), v.minValue(-300), v.maxValue(300)),
      ]),
    ),
    /** The rule's other end is put on the place: its numbers run down towards the line. */
    end: v.optional(v.literal('far')),
  }),
  v.strictObject({ act: v.literal('span'), place: placeSchema, to: v.picklist(sides) }),
  v.strictObject({ act: v.literal('diagonal'), from: placeSchema, to: placeSchema }),
  v.strictObject({ act: v.literal('edge'), place: placeSchema, lengthMm: length, along: v.picklist(['u', 'v']) }),
  v.strictObject({
    act: v.literal('plumb'),
    place: placeSchema,
    lengthMm: length,
    /** Held the other way round: what is wrong with its vial shows the other way. */
    turnedRound: v.optional(v.boolean()),
  }),
  v.strictObject({ act: v.literal('three-four-five'), at: placeSchema, unitMm: length }),
  v.strictObject({
    act: v.literal('book'),
    what: v.picklist(['offset', 'span', 'diagonal']),
    valueMm: mm,
    /** From which datum; an offset has one, a span and a diagonal have none. */
    datum: v.optional(datumSchema),
    place: placeSchema,
    /** The other end of a span or a diagonal. */
    to: v.optional(v.union([v.picklist(sides), placeSchema])),
    /** The act that it was read in. */
    reading: v.optional(count),
    /** Which sizes it is put to; where it is left out, those whose places it lies in. */
    for: v.optional(v.array(v.picklist(sizeNames))),
    /** A closing check: it enters no size. */
    check: v.optional(v.boolean()),
  }),
  v.strictObject({ act: v.literal('strike'), booking: count }),
  v.strictObject({
    act: v.literal('carry'),
    from: datumSchema,
    to: datumSchema,
    /** + when `from` lies to the right of, behind or above `to`. */
    stepMm: mm,
    reading: v.optional(count),
  }),
  v.strictObject({ act: v.literal('note'), text }),
  v.strictObject({ act: v.literal('say'), question: text, answer: text, of: v.optional(text) }),
  v.strictObject({
    act: v.literal('propose'),
    /** What is proposed for the right-hand recess of a pair. */
    second: v.optional(
      v.strictObject({
        carcassMm: v.optional(v.strictObject({ width: length, height: length, depth: length })),
        frameMm: v.optional(v.strictObject({ width: length, height: length })),
        allowanceMm: v.optional(allowance),
        sure: v.optional(sure),
      }),
    ),
    carcassMm: v.optional(
      v.strictObject({
        width: length,
        height: length,
        depth: length,
        /** A sloped edge: its line's heights over the bottom, at the carcass's low and high edge. */
        slope: v.optional(v.strictObject({ low: length, high: length })),
      }),
    ),
    frameMm: v.optional(v.strictObject({ width: length, height: length })),
    /** The outside of a lining, and its depth through the wall. */
    liningMm: v.optional(v.strictObject({ width: length, height: length, depth: length })),
    /** Where the frame's blank goes; left out, it is centred on the opening. */
    frameAtMm: v.optional(v.strictObject({ leftOfS: mm, belowL: mm })),
    /** What was taken off (carcass) or added (frame) for what was not read. */
    allowanceMm: v.optional(allowance),
    /** How sure the learner is of each size. */
    sure: v.optional(sure),
    /** Where carcasses side by side go: the left edge of each and the right edge of the last, from S, + to the right. */
    runMm: v.optional(v.pipe(v.array(mm), v.minLength(2), v.maxLength(13))),
    /** What is cut out of the back: each one's middle from S (+ right) and from L (+ up), and the size of the cut. */
    cutOutsMm: v.optional(
      v.pipe(
        v.array(v.strictObject({ name: text, fromS: mm, fromL: mm, width: length, height: length })),
        v.maxLength(16),
      ),
    ),
    /** The depth that all shelf blanks are cut to. */
    shelfMm: v.optional(v.strictObject({ depth: length })),
  }),
  v.strictObject({ act: v.literal('hand-in') }),
]);

export type Act = Readonly<v.InferOutput<typeof actSchema>>;
export type ActName = Act['act'];
export type ActOf<N extends ActName> = Extract<Act, { act: N }>;
export type PlaceSaid = Readonly<v.InferOutput<typeof placeSchema>>;
export type SurfacePlace = Readonly<v.InferOutput<typeof onSurface>>;
export type Target = Readonly<v.InferOutput<typeof target>>;

/** Which of the three datums a name is of. */
export type DatumKind = 'F' | 'S' | 'L';

/** What a pencil line counts as among set-ups: after all that are thrown. */
const drawnSetUp = 1000;

/** Splits a datum's name into its kind and the set-up that threw it, counted from 1; a pencil line comes after all. */
export function datumParts(name: string): {
  readonly kind: DatumKind;
  readonly setUp: number;
  /** The two marks of a pencil line. */
  readonly drawn: readonly [number, number] | null;
} {
  const kind = name[0] as DatumKind;
  if (name[1] !== ':') return { kind, setUp: name.length > 1 ? Number(name.slice(1)) : 1, drawn: null };
  const [from, to] = name.slice(2).split('-').map(Number);
  return { kind, setUp: drawnSetUp, drawn: [from ?? 0, to ?? 0] };
}

/** Names a datum: the first set-up's have no number. */
export function datumName(kind: DatumKind, setUp: number): string {
  return setUp === 1 ? kind : `${kind}${setUp}`;
}

/** Gives a key for a place as it was said: two places that are said alike have one key, whatever the order of fields. */
export function saidKey(place: PlaceSaid): string {
  if ('mark' in place) return `mark ${place.mark}`;
  const { surface, xMm, yMm, zMm, along, edge, bay } = place;
  return [surface, xMm ?? '', yMm ?? '', zMm ?? '', along ?? '', ...(edge ? [edge] : []), ...(bay ? [bay] : [])].join(
    '/',
  );
}
