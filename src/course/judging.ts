/**
 * What a lesson on reading makes of a survey: each figure against the middle of the line that was seen. No truth of the
 * room is in it.
 */
import type { LearnerView } from '../survey/learner-view.ts';
import type { LessonHeader } from './lesson.ts';

export interface JudgedReading {
  readonly booking: number;
  readonly writtenMm: number;
  readonly middleMm: number;
  readonly offMm: number;
}

export interface JudgedReadings {
  readonly readings: readonly JudgedReading[];
  readonly of: number;
  readonly withinMm: number;
  readonly near: number;
  /** How many are out by about ten or a hundred. */
  readonly slips: number;
  readonly done: boolean;
  readonly passed: boolean;
}

/** Judges the first so many figures that have a reading behind them; null for lessons that pass by something else. */
export function judgeReadings(
  header: LessonHeader,
  view: Pick<LearnerView, 'bookings' | 'readings'>,
): JudgedReadings | null {
  const { passes } = header;
  if (passes.by !== 'readings') return null;
  const readings = view.bookings
    .filter((b) => !b.struck)
    .flatMap((b): JudgedReading[] => {
      const seen = view.readings.find((r) => r.n === b.said.reading);
      if (!seen) return [];
      const middleMm = tenth((seen.edgesMm[0] + seen.edgesMm[1]) / 2);
      return [{ booking: b.n, writtenMm: b.said.valueMm, middleMm, offMm: tenth(b.said.valueMm - middleMm) }];
    })
    .slice(0, passes.of);
  const near = readings.filter((r) => Math.abs(r.offMm) <= passes.withinMm).length;
  const slips = readings.filter((r) => Math.abs(r.offMm) >= 9).length;
  const done = readings.length >= passes.of;
  return {
    readings,
    of: passes.of,
    withinMm: passes.withinMm,
    near,
    slips,
    done,
    passed: done && near >= passes.atLeast && slips === 0,
  };
}

function tenth(mm: number): number {
  return Math.round(mm * 10) / 10;
}
