/**
 * An uncertainty budget: inputs, each with a value and a spread, and what is worked out from them; how sure that is by
 * first order, with the terms of second order, and by draws.
 *
 * @source JCGM 100:2008 (GUM) 5.1.2 first order and, in its note, second; 5.2.2 inputs that depend on each other; G.4.1
 *   degrees of freedom; JCGM 101:2008 7 by draws
 */
import { type DrawKey, type Purpose, purpose } from '../chance/keyed-draws.ts';
import { deviationOf, drawSpread, type Spread } from '../chance/spread.ts';

export interface Input {
  readonly name: string;
  readonly value: number;
  readonly spread: Spread;
  /** Degrees of freedom; left out, no end of them. */
  readonly freedom?: number;
}

/** What is worked out, from the inputs' values in their order. */
export type Model = (values: readonly number[]) => number;

export interface Budget {
  readonly inputs: readonly Input[];
  readonly model: Model;
  /** How far inputs depend on each other, -1 to 1, a row an input; left out, not at all. */
  readonly correlation?: readonly (readonly number[])[];
}

/** What a budget comes to by propagation. */
export interface Propagated {
  readonly value: number;
  readonly u: number;
  /** What each input brings, in terms of what is worked out, its sign as it acts. */
  readonly parts: readonly { readonly name: string; readonly u: number }[];
  /** Effective degrees of freedom; Infinity where no input has an end of them. */
  readonly freedom: number;
}

/** What a budget comes to by draws. */
export interface Drawn {
  readonly count: number;
  readonly mean: number;
  readonly u: number;
  /** Between these lie 95 in 100, as many below as above. */
  readonly low: number;
  readonly high: number;
}

/** Propagates a budget to first order. */
export function firstOrder(budget: Budget): Propagated {
  const { inputs, model, correlation } = budget;
  const us = inputs.map((i) => deviationOf(i.spread));
  const at = stepper(budget, us);
  const brings = us.map((_, i) => (at([i, 1]) - at([i, -1])) / (2 * step));
  const u = Math.sqrt(Math.max(0, covered(brings, brings, correlation)));
  const ends = inputs.reduce((sum, { freedom }, i) => {
    const fourth = (brings[i] ?? 0) * (brings[i] ?? 0);
    return freedom === undefined ? sum : sum + (fourth * fourth) / freedom;
  }, 0);
  return {
    value: model(inputs.map((i) => i.value)),
    u,
    parts: inputs.map(({ name }, i) => ({ name, u: brings[i] ?? 0 })),
    freedom: ends === 0 ? Infinity : (u * u * u * u) / ends,
  };
}

/** Gives how far two results of the same inputs depend on each other, -1 to 1, to first order. */
export function alike(budget: Budget, other: Model): number {
  const brings = (model: Model) => firstOrder({ ...budget, model }).parts.map((p) => p.u);
  const [a, b] = [brings(budget.model), brings(other)];
  const { correlation } = budget;
  return covered(a, b, correlation) / Math.sqrt(covered(a, a, correlation) * covered(b, b, correlation));
}

/**
 * Gives the standard uncertainty with the terms of second order.
 *
 * @throws {RangeError} where inputs depend on each other: those terms are for inputs that do not
 */
export function secondOrderU(budget: Budget): number {
  if (budget.correlation) throw new RangeError('budget: second order is for inputs that do not depend on each other');
  const us = budget.inputs.map((i) => deviationOf(i.spread));
  const at = stepper(budget, us);
  const first = firstOrder(budget);
  let square = first.u * first.u;
  us.forEach((_, i) => {
    us.forEach((__, j) => {
      const { mixed, third } = differences(at, i, j);
      square += (mixed * mixed) / 2 + (first.parts[i]?.u ?? 0) * third;
    });
  });
  return Math.sqrt(Math.max(0, square));
}

const whyDrawn = purpose('survey/budget');

/**
 * Goes through a budget by draws.
 *
 * @throws {RangeError} where inputs depend on each other
 */
export function byDraws(budget: Budget, from: { key: DrawKey; count: number; why?: Purpose }): Drawn {
  if (budget.correlation) throw new RangeError('budget: draws are for inputs that do not depend on each other');
  const { key, count, why = whyDrawn } = from;
  const { inputs, model } = budget;
  const came: number[] = [];
  for (let n = 0; n < count; n++)
    came.push(
      model(inputs.map((i, k) => i.value + drawSpread(key, why, { index: n * inputs.length + k, spread: i.spread }))),
    );
  return summedUp(came);
}

/** Sums up what draws came to. */
export function summedUp(came: readonly number[]): Drawn {
  const count = came.length;
  const mean = came.reduce((sum, y) => sum + y, 0) / count;
  const square = came.reduce((sum, y) => sum + (y - mean) * (y - mean), 0) / Math.max(1, count - 1);
  const sorted = [...came].sort((a, b) => a - b);
  const [low, high] = [sorted[Math.floor(0.025 * count)] ?? mean, sorted[Math.ceil(0.975 * count) - 1] ?? mean];
  return { count, mean, u: Math.sqrt(square), low, high };
}

/** A step of the differences, in deviations: so short that a bend does not count, so long that roundings do not. */
const step = 0.1;

type Step = readonly [input: number, steps: number];

/** Gives the model with some inputs so many steps off their values. */
function stepper({ inputs, model }: Budget, us: readonly number[]): (...steps: Step[]) => number {
  return (...steps) => {
    const values = inputs.map((i) => i.value);
    for (const [i, by] of steps) values[i] = (values[i] ?? 0) + by * step * (us[i] ?? 0);
    return model(values);
  };
}

/** The second differences f_ij u_i u_j and the third f_ijj u_i u_j². */
function differences(at: (...steps: Step[]) => number, i: number, j: number): { mixed: number; third: number } {
  if (i === j) {
    const [low, middle, high] = [at([i, -1]), at(), at([i, 1])];
    const third = (at([i, 2]) - 2 * high + 2 * low - at([i, -2])) / 2;
    return { mixed: (high - 2 * middle + low) / (step * step), third: third / (step * step * step) };
  }
  const corner = (a: number, b: number) => at([i, a], [j, b]);
  const mixed = (corner(1, 1) - corner(1, -1) - corner(-1, 1) + corner(-1, -1)) / 4;
  const bent = (a: number) => corner(a, 1) - 2 * at([i, a]) + corner(a, -1);
  return { mixed: mixed / (step * step), third: (bent(1) - bent(-1)) / (2 * step * step * step) };
}

/** The covariance of two results, from what each input brings to them. */
function covered(a: readonly number[], b: readonly number[], correlation: Budget['correlation']): number {
  if (!correlation) return a.reduce((sum, x, i) => sum + x * (b[i] ?? 0), 0);
  return a.reduce(
    (sum, x, i) => sum + b.reduce((row, y, j) => row + x * y * (i === j ? 1 : (correlation[i]?.[j] ?? 0)), 0),
    0,
  );
}
