/**
 * The set-up line split by cause: each part is what the line loses when that cause alone is taken away.
 *
 * A short baseline is taken away first: `baseline` is what the misses of a line-up and the slips of its marks grow to
 * beyond where they were made, and `line-up` and `marks` are what they come to without that growth. What the parts
 * together leave over, because causes meet or another place comes to count, is `rest`.
 */
import { type Plane, signedDistance } from '../geometry/plane.ts';
import type { Reading, Survey } from '../survey/survey.ts';
import type { Domain, DomainSource } from './domain.ts';
import { type Lines, setUpStep } from './offset-chain.ts';
import { type HistoryEvent, setUpHistory } from './set-up-history.ts';
import { type SetUpCause, setUpCauses, stoodWithout } from './stood.ts';

export interface SetUpPart {
  readonly cause: SetUpCause | 'rest';
  /** + is a piece too large. */
  readonly mm: number;
}

/**
 * Splits the set-up line of a size.
 *
 * @param ofLineMm - the line, K2 less K1
 * @returns a part for every cause, then the rest; they add up to the line to within rounding
 */
export function splitSetUp(
  survey: Survey,
  from: { source: DomainSource; domain: Domain; ofLineMm: number },
): readonly SetUpPart[] {
  const history = setUpHistory(survey.whole?.survey ?? survey);
  const k2 = (without: SetUpCause | null, held: boolean) =>
    setUpStep(survey, from.source, { domain: from.domain, lines: linesWithout(survey, history, { without, held }) }) ??
    0;
  const asItWas = k2(null, false);
  const heldShort = k2(null, true);
  const part: Readonly<Record<SetUpCause, number>> = {
    'line-up': heldShort - k2('line-up', true),
    baseline: asItWas - heldShort,
    squareness: asItWas - k2('squareness', false),
    faults: asItWas - k2('faults', false),
    marks: heldShort - k2('marks', true),
    knock: asItWas - k2('knock', false),
  };
  const parts = setUpCauses.map((cause): SetUpPart => ({ cause, mm: part[cause] }));
  const sum = parts.reduce((all, p) => all + p.mm, 0);
  return [...parts, { cause: 'rest', mm: from.ofLineMm - sum }];
}

/** The lines as they would have stood; held: misses grow no further than where they were made. */
function linesWithout(
  survey: Survey,
  history: readonly HistoryEvent[],
  of: { without: SetUpCause | null; held: boolean },
): Lines {
  const whole = survey.whole ?? { survey, atXMm: 0 };
  const stood = stoodWithout(whole.survey.world, history, of.without);
  // Of a pair the history is the whole room's, its planes are brought into the recess's own frame.
  const own = (p: Plane): Plane => (whole.atXMm === 0 ? p : { ...p, c: p.c - p.nx * whole.atXMm });
  const planeAt = (r: Reading): Plane => {
    const there = stood.readings.get(r.n);
    return there ? own(there.plane) : r.plane;
  };
  return {
    planeAt,
    offset: (r) => {
      const grown = of.held ? (stood.readings.get(r.n)?.grownAt({ ...r.point, x: r.point.x + whole.atXMm }) ?? 0) : 0;
      return Math.abs(signedDistance(planeAt(r), r.point) - grown);
    },
    planes: {
      ...survey.planes,
      ...Object.fromEntries(Object.entries(stood.planes).map(([name, p]) => [name, own(p)])),
    },
  };
}
