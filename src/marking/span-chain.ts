/**
 * The chain of a size that was taped from wall to wall: where a side has no live offset, spans are the method.
 */
import { bookedOffsets, handPlace, putTo, samePlace } from '../survey/offsets.ts';
import { rightRule, sizeRules } from '../survey/size.ts';
import { type Booking, liveBookings, type Span, type Survey } from '../survey/survey.ts';
import { type Domain, type DomainSource, nearestIn, trueOffset } from './domain.ts';
import { type Chain, placeWithinMm } from './offset-chain.ts';
import { touchesWork } from './touch.ts';

/**
 * Gives the chain of a size that was taped.
 *
 * @returns null when both sides have live offsets, when none was taped, or when no span ends in places that count
 */
export function spanChain(survey: Survey, source: DomainSource, domain: Domain): Chain | null {
  const { size } = domain;
  const { sides } = sizeRules[size];
  const offsets = bookedOffsets(survey).filter((o) => putTo(o, source.site.brief).includes(size));
  if (sides.length < 2 || sides.every((side) => offsets.some((o) => o.side === side))) return null;
  const booked = liveBookings(survey).filter((b) => isSpanOf(b, domain) && b.said.check !== true);
  const read = booked.flatMap((b) => {
    const span = spanBehind(survey, b);
    const ends = span && endsTrue(source, domain, span);
    return span && ends ? [{ b, span, ends }] : [];
  });
  const k1 = rightRule(
    size,
    read.flatMap(({ ends }) => ends),
  );
  if (!k1) return null;
  const pick = sizeRules[size].counts === 'least' ? Math.min : Math.max;
  const k3 = pick(...read.map(({ span }) => span.seenMm));
  const k4 = pick(...read.map(({ b }) => b.said.valueMm));
  const k5 = pick(...booked.map((b) => b.said.valueMm));
  const counting = booked.filter((b) => b.said.valueMm === k5).map((b) => b.n);
  return {
    how: 'spans',
    k1: k1.valueMm,
    k2: pick(...read.map(({ span }) => length(span))),
    k3,
    k4,
    k4NotCarried: k4,
    k5,
    roundingMm: Math.min(Math.max(k4 - k3, -0.5), 0.5),
    counting,
  };
}

/** Finds the span behind a booking: the one it names, else the last of its place. */
export function spanBehind(survey: Survey, b: Booking): Span | null {
  const { place, reading } = b.said;
  if (!('surface' in place)) return null;
  const at = handPlace(survey, place);
  const fits = (s: Span) => {
    const act = survey.entries[s.n - 1]?.act;
    if (act?.act !== 'span' || !('surface' in act.place) || act.place.surface !== place.surface) return false;
    return samePlace(handPlace(survey, act.place), at, placeWithinMm);
  };
  const named = survey.spans.find((s) => s.n === reading);
  if (named) return fits(named) ? named : null;
  return survey.spans.filter((s) => s.n < b.n && fits(s)).at(-1) ?? null;
}

function isSpanOf(b: Booking, domain: Domain): boolean {
  const { place, to, what } = b.said;
  if (what !== 'span' || !('surface' in place) || typeof to !== 'string') return false;
  const { sides } = sizeRules[domain.size];
  if (!sides.includes(place.surface) || !sides.includes(to)) return false;
  return b.said.for === undefined || b.said.for.includes(domain.size);
}

function endsTrue(source: DomainSource, domain: Domain, span: Span) {
  const terms = [span.from, span.end].flatMap((end) => {
    const near = touchesWork(source.site, end, domain.size) ? nearestIn(domain, end, placeWithinMm) : null;
    return near ? [{ side: end.side, valueMm: trueOffset(source, domain.size, { side: end.side, ...near }) }] : [];
  });
  return terms.length === 2 ? terms : null;
}

function length(span: Span): number {
  const a = span.from.point;
  const b = span.end.point;
  const [x, y, z] = [a.x - b.x, a.y - b.y, a.z - b.z];
  return Math.sqrt(x * x + y * y + z * z);
}
