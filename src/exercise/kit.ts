/**
 * The kit that a learner is handed, what is stated of it, and the aids that may help.
 *
 * @source rule classes: UK SI 2016/1153 Schedule 1I (material measures of length), limits a + b L with L in whole metres
 *   rounded up, c for an end face, and the joint of a folding rule. Line widths are typical, from memory.
 */
import * as v from 'valibot';

const mm = v.pipe(v.number(), v.finite(), v.minValue(0));

export const kitSchema = v.strictObject({
  level: v.strictObject({
    /** How many levels are handed out: one in this version. */
    count: v.literal(1),
    /** Width of a thrown line at the instrument, and its growth over a metre. */
    lineWidthMm: v.pipe(mm, v.minValue(0.5), v.maxValue(10)),
    lineGrowthMmPerM: v.pipe(mm, v.maxValue(5)),
  }),
  rule: v.strictObject({
    accuracyClass: v.picklist(['I', 'II', 'III']),
    lengthMm: v.literal(2000),
    legMm: v.literal(200),
    /** Off for tests and demonstrations: then the rule, the hand and the pencil are without error. */
    errors: v.boolean(),
  }),
});

export const aidsSchema = v.strictObject({
  /** The middle of the line is read out, to the half millimetre. */
  readsRule: v.boolean(),
  /** How far a line is off a mark is told in mm, and not in widths of the line alone. */
  seenInMm: v.boolean(),
});

export type Kit = Readonly<v.InferOutput<typeof kitSchema>>;
export type Aids = Readonly<v.InferOutput<typeof aidsSchema>>;
export type RuleClass = Kit['rule']['accuracyClass'];

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
];
