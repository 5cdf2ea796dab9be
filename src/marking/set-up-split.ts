/**
 * The set-up line split by cause: what the line loses when a cause is taken away.
 *
 * A short baseline is taken away first: `baseline` is what the misses of a line-up and the slips of its marks grow to
 * beyond where they were made, and `line-up` and `marks` are what they come to without that growth. Of what two causes do
 * to each other each has half: a cause is taken away first and last, and its part is the mean. `knock` is what the knock
 * did and what bringing the level back left. Of a sloped edge `edge` is what the sheet's own figures make of its place.
 * `allowed` is what the learner took out again for an error that a check showed. `place` is what it makes that a reading is of its own wall point, a little beside the places that count. What three causes
 * do together is `rest`.
 */
import { type Plane, signedDistance } from '../geometry/plane.ts';
import type { Reading, Survey } from '../survey/survey.ts';
import type { Domain, DomainSource } from './domain.ts';
import { type Lines, type SetUpSteps, setUpSteps } from './offset-chain.ts';
import { type HistoryEvent, setUpHistory } from './set-up-history.ts';
import { type SetUpCause, type StoodLines, setUpCauses, stoodWithout } from './stood.ts';

export interface SetUpPart {
  readonly cause: SetUpCause | 'allowed' | 'edge' | 'place' | 'rest';
  /** + is a piece too large. */
  readonly mm: number;
}

/** Those that are told apart once the growth of a short baseline is taken away. */
const heldCauses = setUpCauses.filter((cause) => cause !== 'baseline');

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
  const steps = setUpSteps(survey, from.source, from.domain);
  const stood = replayedOf(survey.whole?.survey ?? survey);
  const k2 = (without: readonly SetUpCause[], held = true) =>
    steps.from(linesAs(survey, stood(without), held), steps.sheet) ?? 0;
  const held = k2([]);
  const clean = k2(heldCauses);
  const partOf = (cause: SetUpCause) =>
    (held - k2([cause]) + (k2(heldCauses.filter((other) => other !== cause)) - clean)) / 2;
  const parts = setUpCauses.map(
    (cause): SetUpPart => ({ cause, mm: cause === 'baseline' ? k2([], false) - held : partOf(cause) }),
  );
  const edge = edgePart(steps, { lines: linesAs(survey, stood(heldCauses), true), clean });
  const place: SetUpPart = { cause: 'place', mm: steps.besideMm };
  const allowed: SetUpPart[] = steps.allowedMm === 0 ? [] : [{ cause: 'allowed', mm: steps.allowedMm }];
  const told = [...parts, ...allowed, ...(edge === null ? [] : [{ cause: 'edge' as const, mm: edge }]), place];
  const sum = told.reduce((all, p) => all + p.mm, 0);
  return [...told, { cause: 'rest', mm: from.ofLineMm - sum }];
}

/** What the sheet makes of where a sloped edge lies, with lines that stand true; null for other sizes. */
function edgePart(steps: SetUpSteps, of: { lines: Lines; clean: number }): number | null {
  if (!steps.truly) return null;
  const truly = steps.from(of.lines, steps.truly);
  return truly === null ? null : of.clean - truly;
}

type Replayed = (without: readonly SetUpCause[]) => StoodLines;

/** Sizes of one survey ask for the same lines. */
const kept = new WeakMap<Survey, Replayed>();

function replayedOf(whole: Survey): Replayed {
  const before = kept.get(whole);
  if (before) return before;
  const history: readonly HistoryEvent[] = setUpHistory(whole);
  const lines = new Map<string, StoodLines>();
  const replayed: Replayed = (without) => {
    const name = without.join();
    const found = lines.get(name) ?? stoodWithout(whole.world, history, new Set(without));
    lines.set(name, found);
    return found;
  };
  kept.set(whole, replayed);
  return replayed;
}

/** The lines as they would have stood; held: misses grow no further than where they were made. */
function linesAs(survey: Survey, stood: StoodLines, held: boolean): Lines {
  const atXMm = survey.whole?.atXMm ?? 0;
  // Of a pair the history is the whole room's, its planes are brought into the recess's own frame.
  const own = (p: Plane): Plane => (atXMm === 0 ? p : { ...p, c: p.c - p.nx * atXMm });
  const planeAt = (r: Reading): Plane => {
    const there = stood.readings.get(r.n);
    return there ? own(there.plane) : r.plane;
  };
  return {
    planeAt,
    offset: (r) => {
      const grown = held ? (stood.readings.get(r.n)?.grownAt({ ...r.point, x: r.point.x + atXMm }) ?? 0) : 0;
      return Math.abs(signedDistance(planeAt(r), r.point) - grown);
    },
    planes: {
      ...survey.planes,
      ...Object.fromEntries(Object.entries(stood.planes).map(([name, p]) => [name, own(p)])),
    },
  };
}
