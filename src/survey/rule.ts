/**
 * The folding rule: its hidden scale, joint and zero errors, and how a line crosses it.
 *
 * A rule held square to a datum reads the offset d; held at a slope t to the square, the line crosses it at
 * d sqrt(1 + t²): always long, never short. What is seen are the line's two edges on the graduations.
 */
import { bell, bellToUnitDeviation, between, type DrawKey, purpose } from '../chance/keyed-draws.ts';
import { type Kit, ruleLimits } from '../exercise/kit.ts';

/** Errors of one rule, reading minus truth, mm. */
export interface RuleErrors {
  readonly zero: number;
  /** A ratio. */
  readonly scale: number;
  /** What each joint adds, from the zero end outwards. */
  readonly joints: readonly number[];
}

const whyRule = purpose('survey/rule');
const whyTilt = purpose('survey/tilt');
const whyEdge = purpose('survey/edge');

/** How unsteady the hand holds it and how unsure the eye sees an edge: standard deviations; typical, from memory. */
export const tiltDeviation = 0.006;
export const edgeDeviationMm = 0.15;

/** Draws the errors of the kit's rule: together they never pass the limits of its class. */
export function drawRuleErrors(key: DrawKey, rule: Kit['rule']): RuleErrors {
  const joints = Math.floor(rule.lengthMm / rule.legMm) - 1;
  if (!rule.errors) return { zero: 0, scale: 0, joints: new Array<number>(joints).fill(0) };
  const limits = ruleLimits[rule.accuracyClass];
  const draw = (index: number, most: number) => between(key, whyRule, { index, from: -most, to: most });
  return {
    zero: draw(0, limits.c),
    scale: draw(1, limits.b / 1000),
    joints: Array.from({ length: joints }, (_, i) => draw(2 + i, limits.joint / joints)),
  };
}

/** Gives a rule's error at a length along it, mm, reading minus truth. */
export function ruleError(errors: RuleErrors, legMm: number, lengthMm: number): number {
  let sum = errors.zero + errors.scale * lengthMm;
  for (let joint = 0; joint < errors.joints.length && (joint + 1) * legMm < lengthMm; joint++)
    sum += errors.joints[joint] as number;
  return sum;
}

/**
 * Gives where a line is seen on the rule, mm by its numbers.
 *
 * A worn zero end reads long by what is worn; from the far end the numbers run down, and that end is not worn.
 */
export function onRule(errors: RuleErrors, rule: Kit['rule'], at: { alongMm: number; end: 'far' | undefined }): number {
  if (at.end !== 'far') return at.alongMm + ruleError(errors, rule.legMm, at.alongMm) + (rule.wornMm ?? 0);
  const fromFar = { ...errors, joints: [...errors.joints].reverse() };
  return rule.lengthMm - (at.alongMm + ruleError(fromFar, rule.legMm, at.alongMm));
}

/** Draws the slopes at which the hand holds a rule out of square, along two axes. */
export function drawTilt(key: DrawKey, rule: Kit['rule'], index: number): readonly [number, number] {
  if (!rule.errors) return [0, 0];
  const slope = (i: number) => bell(key, whyTilt, i) * bellToUnitDeviation * tiltDeviation;
  return [slope(2 * index), slope(2 * index + 1)];
}

/** Gives where a line crosses a rule that starts an offset away and slopes by (a, b) from the square. */
export function alongRule(offsetMm: number, slopes: readonly [number, number]): number {
  return offsetMm * Math.sqrt(1 + slopes[0] * slopes[0] + slopes[1] * slopes[1]);
}

/**
 * Gives what is seen on the rule: the line's two edges.
 *
 * @param index - the draw's index
 * @returns mm, the smaller first; to 0.1 mm, or exact where the rule is without error
 */
export function seenEdges(
  key: DrawKey,
  rule: Kit['rule'],
  line: { middleMm: number; widthMm: number; index: number },
): readonly [number, number] {
  const edge = (i: number, at: number) =>
    rule.errors ? tenth(at + bell(key, whyEdge, 2 * line.index + i) * bellToUnitDeviation * edgeDeviationMm) : at;
  const low = edge(0, line.middleMm - line.widthMm / 2);
  return [low, Math.max(low, edge(1, line.middleMm + line.widthMm / 2))];
}

/** Gives the length of rule that is unfolded to reach past a line: whole legs. */
export function unfolded(rule: Kit['rule'], alongMm: number): number {
  return Math.ceil(alongMm / rule.legMm) * rule.legMm;
}

/** Rounds to a tenth, the way a decimal is written; never -0, which no file keeps. */
export function tenth(mm: number): number {
  return 0 + Math.round(mm * 10) / 10;
}
