/**
 * How long something takes: warmed up, in batches, the median of the batches. Every answer goes into a sum that is looked at, so
 * that nothing can be left out.
 */
import type { Figure } from './geometry.ts';

/** Gives a number for question i; the number is added up. */
export type Work = (i: number) => number;

/** Times in us, in ascending order. */
export type Times = Float64Array;

/**
 * The median time of one question.
 *
 * @param work - asked 0 to questions - 1, over and over
 * @returns us
 */
export function medianUs(work: Work, questions: number, batches = 41): number {
  return quantile(batchTimes(work, questions, batches), 0.5);
}

/** Times of one question each, as the medians of batches have them, after two batches that do not count. */
export function batchTimes(work: Work, questions: number, batches: number): Times {
  const times = new Float64Array(batches);
  for (let b = -2; b < batches; b++) {
    const start = performance.now();
    for (let i = 0; i < questions; i++) sink += work(i);
    if (b >= 0) times[b] = (1000 * (performance.now() - start)) / questions;
  }
  lookAtSink();
  return times.sort();
}

/**
 * The time of every question by itself, the least of some goes: a machine that is shared is late now and then, and that is
 * no property of the question.
 *
 * @param prepare - makes what one go is asked about, off the clock
 */
export function eachUs<T>(
  prepare: (i: number) => T,
  work: (made: T) => number,
  of: { readonly questions: number; readonly goes: number },
): Times {
  const times = new Float64Array(of.questions).fill(1e12);
  for (let go = -1; go < of.goes; go++)
    for (let i = 0; i < of.questions; i++) {
      const made = prepare(i);
      const start = performance.now();
      sink += work(made);
      const us = 1000 * (performance.now() - start);
      if (go >= 0) times[i] = Math.min(times[i]!, us);
    }
  lookAtSink();
  return times.sort();
}

/** The time that a share of all does not exceed. */
export function quantile(times: Times, share: number): number {
  return times[Math.min(times.length - 1, Math.floor(share * times.length))]!;
}

/** A figure with the most that it may be. */
export function atMost(name: string, value: number, target: { readonly most: number; readonly unit: string }): Figure {
  return { name, value, unit: target.unit, target: target.most, met: value <= target.most };
}

let sink = 0;

function lookAtSink(): void {
  if (!Number.isFinite(sink)) throw new Error('bench: an answer was not a number');
}
