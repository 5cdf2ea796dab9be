/**
 * Straight-edge and spirit level against known shapes, the spirit level turned round, the rule from its other end and with
 * a worn one, and the edge of a wide line.
 *
 * Sources: reversal of a spirit level: the error shown is twice the instrument's (project's published checks, 3.2, from a
 * bricklaying text); sagitta of a bow and the mean of a lean are closed forms (elementary geometry).
 */
import { describe, expect, it } from 'vitest';
import { lineWidth } from '../../src/survey/level.ts';
import { onRule } from '../../src/survey/rule.ts';
import { acted, doneOf, middleOf, standing, surveyIn } from '../helpers/surveying.ts';

const tools = { straightEdgeMm: 2000, spiritLevel: { lengthMm: 1200, limitMmPerM: 0.5 } };
const middle = { surface: 'left' as const, yMm: 200, zMm: 1200 };

describe('the straight-edge', () => {
  it('on a true wall shows no gap; on a hollow of 8 over 2400, what is left of it over its own length', () => {
    const flat = surveyIn({}, { tools });
    expect(doneOf(flat, { act: 'edge', place: middle, lengthMm: 1800, along: 'v' }).toolMm![0]).toBeCloseTo(0, 9);
    const hollow = surveyIn({ defects: { left: [{ kind: 'bow', mm: -8, crownV: 1200 }] } }, { tools });
    const [gap, at] = doneOf(hollow, { act: 'edge', place: middle, lengthMm: 1800, along: 'v' }).toolMm!;
    const wide = doneOf(hollow, { act: 'edge', place: middle, lengthMm: 1200, along: 'v' }).toolMm![0]!;
    // A parabola: gaps go with the square of the length; the spline lies a little off one.
    expect(gap).toBeGreaterThan(0.45 * 8);
    expect(gap).toBeLessThan(0.65 * 8);
    expect(gap! / wide).toBeCloseTo((1800 / 1200) ** 2, 1);
    expect(Math.abs(at! - 900)).toBeLessThan(60);
  });

  it('rests on a belly: the gap is at an end', () => {
    const belly = surveyIn({ defects: { left: [{ kind: 'bow', mm: 8, crownV: 1200 }] } }, { tools });
    const at = doneOf(belly, { act: 'edge', place: middle, lengthMm: 1800, along: 'v' }).toolMm![1]!;
    expect(Math.min(at, 1800 - at)).toBeLessThan(10);
  });
});

describe('the spirit level', () => {
  const leaning = (errors: boolean) => surveyIn({ defects: { left: [{ kind: 'lean', mm: 12 }] } }, { tools, errors });

  it('shows a lean of 12 in 2400 as 6 over 1200', () => {
    const out = doneOf(leaning(false), { act: 'plumb', place: middle, lengthMm: 1200 }).toolMm![0]!;
    // Heights are kept to 1/1024.
    expect(Math.abs(out)).toBeCloseTo(6, 3);
  });

  it('turned round, shows twice its own error, and the mean of both is the wall', () => {
    const mean = (values: readonly number[]) => values.reduce((sum, v) => sum + v, 0) / values.length;
    const shown = (turnedRound: boolean) => {
      let survey = leaning(true);
      const seen: number[] = [];
      for (let i = 0; i < 60; i++) {
        const act = { act: 'plumb' as const, place: middle, lengthMm: 1200, turnedRound };
        seen.push(doneOf(survey, act).toolMm![0]!);
        survey = acted(survey, act);
      }
      return mean(seen);
    };
    const [one, other] = [shown(false), shown(true)];
    const true_ = doneOf(leaning(false), { act: 'plumb', place: middle, lengthMm: 1200 }).toolMm![0]!;
    // Sixty looks at a bubble of 0.18 over 1200 leave 0.02; four times that is let pass.
    expect(Math.abs((one + other) / 2 - true_)).toBeLessThan(0.1);
    expect(Math.abs(one - other)).toBeLessThan(2 * 0.5 * 1.2 + 0.1);
    expect(Math.abs(one - other)).toBeGreaterThan(0.05);
  });
});

describe('the rule', () => {
  const place = { surface: 'left' as const, yMm: 200, zMm: 1000 };
  const read = { act: 'read' as const, datum: 'S', place };

  it('with 4 worn off its zero end reads 4 long, from its other end 2000 less the offset and nothing of that', () => {
    const fresh = acted(surveyIn(), ...standing);
    const worn = acted(surveyIn({}, { rule: { wornMm: 4 } }), ...standing);
    const true_ = middleOf(doneOf(fresh, read));
    expect(middleOf(doneOf(worn, read))).toBeCloseTo(true_ + 4, 9);
    expect(middleOf(doneOf(worn, { ...read, end: 'far' }))).toBeCloseTo(2000 - true_, 9);
  });

  it('from its other end passes its joints from there', () => {
    const joints = [0.1, 0, 0, 0, 0, 0, 0, 0, -0.3];
    const { rule } = surveyIn().world.exercise.kit;
    const errors = { zero: 0, scale: 0, joints };
    const at = (alongMm: number, end?: 'far') => onRule(errors, rule, { alongMm, end });
    expect(at(500)).toBeCloseTo(500.1, 9);
    expect(at(500, 'far')).toBeCloseTo(2000 - 499.7, 9);
  });

  it('read at the edge of a wide line, the same way on both sides, makes a width as wrong as the line is wide', () => {
    const survey = acted(surveyIn(), ...standing);
    const edges = (['left', 'right'] as const).map(
      (surface) => doneOf(survey, { act: 'read', datum: 'S', place: { ...place, surface } }).edgesMm!,
    );
    const [l, r] = edges;
    const width = (l![0] + l![1] + r![0] + r![1]) / 2;
    // Its width is that at the line's own place on the rule, near the level: half a width a side.
    const line = lineWidth(survey.world.exercise.kit, Math.hypot(0, 200, 100));
    expect(l![1] + r![1] - width).toBeCloseTo(line, 1);
  });
});
