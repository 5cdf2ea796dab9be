/**
 * The kit that a learner is handed, what is stated of it, and the aids that may help.
 *
 * @source rule classes: UK SI 2016/1153 Schedule 1I (material measures of length), limits a + b L with L in whole metres
 *   rounded up, c for an end face, and the joint of a folding rule. Line widths are typical, from memory.
 */

import * as v from 'valibot';
import type { Units } from '../recess/lengths.ts';

const mm = v.pipe(v.number(), v.finite(), v.minValue(0));
const signed = (most: number) => v.pipe(v.number(), v.finite(), v.minValue(-most), v.maxValue(most));

/** What is wrong with one level; what is left out is true. Signs are those of a level seen from behind. */
const faultsSchema = v.partial(
  v.strictObject({
    /** The level line: + when it rises away in front of the level, and to its right. */
    levelForeMmPerM: signed(50),
    levelSideMmPerM: signed(50),
    /** The upright planes: + when the top of F leans away in front, that of S to the right. */
    plumbFMmPerM: signed(50),
    plumbSMmPerM: signed(50),
    /** + when S stands more than 90° anticlockwise from F, seen from above. */
    squareMmPerM: signed(50),
  }),
);

/** A knock: what a door that slams does to a level, in the room's frame. */
const knockSchema = v.strictObject({
  /** It comes when so many readings have been taken. */
  afterReadings: v.pipe(v.number(), v.integer(), v.minValue(1)),
  level: v.optional(v.picklist([1, 2])),
  byXMm: signed(50),
  byYMm: signed(50),
  byZMm: signed(50),
  /** Anticlockwise seen from above. */
  turnMmPerM: signed(100),
  /** How far its stand leans afterwards, beside what the floor does. */
  leanMmPerM: v.pipe(mm, v.maxValue(300)),
});

export const kitSchema = v.strictObject({
  level: v.strictObject({
    /** How many levels are handed out. */
    count: v.picklist([1, 2]),
    /** Width of a thrown line at the instrument, and its growth over a metre. */
    lineWidthMm: v.pipe(mm, v.minValue(0.5), v.maxValue(10)),
    lineGrowthMmPerM: v.pipe(mm, v.maxValue(5)),
    /** How far beside its crossing point the axis stands that it turns about; left out, it turns about that point. */
    pivotMm: v.optional(v.pipe(mm, v.maxValue(60))),
    /** What is stated of it: each error is at most so much, either way. */
    limitsMmPerM: v.optional(v.strictObject({ level: mm, plumb: mm, square: mm })),
    /** Set, one a level; `within` the stated limits; or `drawn`: one in four within them, the others out in one thing. */
    faults: v.optional(v.union([v.picklist(['within', 'drawn']), v.pipe(v.array(faultsSchema), v.maxLength(2))])),
    /** How far its stand may lean and it still levels itself; left out, any floor will do. */
    rangeMmPerM: v.optional(mm),
    /** A level within its limits lies in the van, to swap one for that is found out of true. */
    spare: v.optional(v.boolean()),
    knock: v.optional(v.union([v.literal('drawn'), knockSchema])),
  }),
  rule: v.strictObject({
    accuracyClass: v.picklist(['I', 'II', 'III']),
    lengthMm: v.literal(2000),
    legMm: v.literal(200),
    /** Off for tests and demonstrations: then the rule, the hand and the pencil are without error. */
    errors: v.boolean(),
    /** Marked in inches, by sixteenths or thirty-seconds; left out, in mm. */
    units: v.optional(v.picklist(['in-16', 'in-32'])),
    /** How much of its zero end is worn away. */
    wornMm: v.optional(v.pipe(mm, v.maxValue(20))),
  }),
  /** What else is in the bag. */
  tools: v.optional(
    v.strictObject({
      /** A straight-edge: the longest there is. */
      straightEdgeMm: v.optional(v.pipe(mm, v.maxValue(3000))),
      /** A spirit level: how long it is, and what its vial may be off by. */
      spiritLevel: v.optional(v.strictObject({ lengthMm: v.pipe(mm, v.maxValue(3000)), limitMmPerM: mm })),
    }),
  ),
});

export const aidsSchema = v.strictObject({
  /** The middle of the line is read out, to the half millimetre. */
  readsRule: v.boolean(),
  /** How far a line is off a mark is told in mm, or inches, and not in widths of the line alone. */
  seenInMm: v.boolean(),
});

export type Kit = Readonly<v.InferOutput<typeof kitSchema>>;
export type Aids = Readonly<v.InferOutput<typeof aidsSchema>>;
export type RuleClass = Kit['rule']['accuracyClass'];
export type SetFaults = v.InferOutput<typeof faultsSchema>;
export type SetKnock = v.InferOutput<typeof knockSchema>;

/** What is stated of a level where its kit says nothing else. Typical, from memory. */
const usualLimits = { level: 0.3, plumb: 0.3, square: 0.3 } as const;

/** Gives what is stated of a kit's levels, mm a metre either way; null where they are without faults. */
export function levelLimits(kit: Kit): NonNullable<Kit['level']['limitsMmPerM']> | null {
  return kit.level.faults === undefined ? null : (kit.level.limitsMmPerM ?? usualLimits);
}

/** Says whether a kit's levels are more than lines without faults that turn about where they cross. */
export function isPhysical(kit: Kit): boolean {
  const { faults, pivotMm, knock, count } = kit.level;
  return faults !== undefined || pivotMm !== undefined || knock !== undefined || count > 1;
}

/** Gives the unit that a kit's rule is marked in. */
export function unitsOf(kit: Pick<Kit, 'rule'>): Units {
  return kit.rule.units ?? 'mm';
}

/** Gives a kit as it is handed out: what is wrong with it is not said. */
export function statedKit(kit: Kit): Kit {
  const { faults, knock: _knock, ...level } = kit.level;
  const { wornMm: _worn, ...rule } = kit.rule;
  return { ...kit, level: { ...level, ...(faults === undefined ? {} : { faults: 'drawn' }) }, rule };
}

/** Limits of error of a class, mm: a, b a metre, c for an end face, and for a folding rule's joint. */
export const ruleLimits: Readonly<Record<RuleClass, { a: number; b: number; c: number; joint: number }>> = {
  I: { a: 0.1, b: 0.1, c: 0.1, joint: 0 },
  II: { a: 0.3, b: 0.2, c: 0.2, joint: 0.3 },
  III: { a: 0.6, b: 0.4, c: 0.3, joint: 0.5 },
};

/**
 * Gives the greatest permitted error of a rule read from its end face.
 *
 * @param lengthMm - >= 0; counted in whole metres, rounded up
 * @returns mm, a half-width
 * @source UK SI 2016/1153 Schedule 1I: a + b L + c, plus the joint for a folding rule that is opened past a joint
 */
export function permittedError(rule: Kit['rule'], lengthMm: number): number {
  const limits = ruleLimits[rule.accuracyClass];
  const metres = Math.ceil(lengthMm / 1000);
  return limits.a + limits.b * metres + limits.c + (lengthMm > rule.legMm ? limits.joint : 0);
}

/** A kit and aids that a code can name. */
export interface Preset {
  readonly name: string;
  readonly says: string;
  readonly kit: Kit;
  readonly aids: Aids;
  /** The hidden room and the key of an assessed exercise are shown to tutors only. */
  readonly assessed: boolean;
}

const siteKit: Kit = {
  level: { count: 1, lineWidthMm: 1.6, lineGrowthMmPerM: 0.2 },
  rule: { accuracyClass: 'II', lengthMm: 2000, legMm: 200, errors: true },
};

const inchKit: Kit = { ...siteKit, rule: { ...siteKit.rule, units: 'in-16' } };

/** Vial and length are typical, from memory. */
const workshopTools: NonNullable<Kit['tools']> = {
  straightEdgeMm: 1800,
  spiritLevel: { lengthMm: 1200, limitMmPerM: 0.5 },
};

/** In the order of the exercise code: only ever add at the end. */
export const presets: readonly Preset[] = [
  {
    name: 'guided',
    says: 'one level without faults, a class II folding rule; the rule is read out, lines are told in mm',
    kit: siteKit,
    aids: { readsRule: true, seenInMm: true },
    assessed: false,
  },
  {
    name: 'site',
    says: 'one level without faults, a class II folding rule; you judge the middle of the line yourself',
    kit: siteKit,
    aids: { readsRule: false, seenInMm: false },
    assessed: false,
  },
  {
    name: 'test',
    says: 'as site, and assessed: the room and its key are for the tutor',
    kit: siteKit,
    aids: { readsRule: false, seenInMm: false },
    assessed: true,
  },
  {
    name: 'faulty',
    says: 'as site, but the level may be out of true: check it first; another lies in the van',
    kit: {
      ...siteKit,
      level: {
        ...siteKit.level,
        limitsMmPerM: { level: 0.3, plumb: 0.3, square: 0.3 },
        faults: 'drawn',
        rangeMmPerM: 70,
        spare: true,
      },
      tools: workshopTools,
    },
    aids: { readsRule: false, seenInMm: false },
    assessed: false,
  },
  {
    name: 'two-levels',
    says: 'two levels within their limits that turn beside their lines; a door may slam',
    kit: {
      ...siteKit,
      level: {
        ...siteKit.level,
        count: 2,
        pivotMm: 35,
        limitsMmPerM: { level: 0.3, plumb: 0.3, square: 0.3 },
        faults: 'within',
        rangeMmPerM: 70,
        knock: 'drawn',
      },
      tools: workshopTools,
    },
    aids: { readsRule: false, seenInMm: false },
    assessed: false,
  },
  {
    name: 'inches-guided',
    says: 'as guided, with a rule in sixteenths of an inch',
    kit: inchKit,
    aids: { readsRule: true, seenInMm: true },
    assessed: false,
  },
  {
    name: 'inches',
    says: 'as site, with a rule in sixteenths of an inch',
    kit: inchKit,
    aids: { readsRule: false, seenInMm: false },
    assessed: false,
  },
];
