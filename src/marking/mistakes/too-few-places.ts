/**
 * M01, M02, M10: side walls read in too few places. Each is a pattern of the places read, and costs what the places left
 * out have nearer.
 */
import { axesOf, type Side } from '../../recess/recess-spec.ts';
import { sayOn } from '../place-words.ts';
import { byTightest } from './catching.ts';
import { type Evidence, leftOutMm, type PlaceRead } from './evidence.ts';
import { type Found, type Mistake, nothingMm } from './mistake.ts';

type WidthName = 'carcass-width' | 'lining-width' | 'frame-width';

/** The pattern is asked of the carcass's or the lining's width; where the frame's shows it too, that is counted with it. */
function widthOf(from: Evidence): 'carcass-width' | 'lining-width' {
  return from.brief.lining ? 'lining-width' : 'carcass-width';
}

const walls = ['left', 'right'] as const;

/** Places nearer to each other than this are one place: the hand is no surer, mm. */
const onePlaceMm = 25;
/** The front: this share of the way from the mouth to the carcass's back. */
const frontShare = 0.35;

export const oneWidth: Mistake = {
  id: 'M01',
  name: 'one width only',
  find: (from) => {
    const isOne = (places: readonly PlaceRead[]) =>
      spread(places, 'u') <= onePlaceMm && spread(places, 'v') <= onePlaceMm;
    const shown = shownIn(from, isOne);
    return found(from, shown, walls, () => true, {
      happened: 'The sides come nearer to each other than where they were read.',
      did: 'You read each side in one place.',
      next: 'Read each side at three heights or more, at the front and at the back.',
    });
  },
};

export const frontOnly: Mistake = {
  id: 'M02',
  name: 'front only',
  find: (from) => {
    const front = frontMm(from);
    if (!walls.every((side) => readOn(from, side).every((p) => p.at.u <= front))) return null;
    if (!walls.some((side) => spread(readOn(from, side), 'v') > onePlaceMm)) return null;
    const behind = walls.filter((side) => (decidedAt(from, side)?.u ?? front) > front);
    return found(from, [widthOf(from)], behind, (at) => at.u > front, {
      happened: 'The recess closes in behind where it was read: what is made starts in and then jams.',
      did: 'You read the sides at the front and not further in.',
      next: 'Read the same heights again as far in as it goes.',
    });
  },
};

export const wallAsPlumb: Mistake = {
  id: 'M10',
  name: 'wall taken as plumb',
  find: (from) => {
    const shown = shownIn(from, (places) => spread(places, 'v') <= onePlaceMm);
    if (!walls.some((side) => spread(readOn(from, side), 'u') > onePlaceMm)) return null;
    return found(from, shown, walls, () => true, {
      happened: 'A side leans or bellies, and what it does higher up or lower down was built into the work.',
      did: 'You read the sides at one height, as if they were plumb.',
      next: 'Read each side low, half-way up and high, from the same line.',
    });
  },
};

interface Said {
  readonly happened: string;
  readonly did: string;
  readonly next: string;
}

function found(
  from: Evidence,
  shown: readonly WidthName[],
  sides: readonly Side[],
  within: (at: { u: number; v: number }) => boolean,
  said: Said,
): Found | null {
  const costs = shown.flatMap((of) => sides.map((side) => ({ of, side, mm: Math.max(0, leftOutMm(from, of, side)) })));
  const bySize = shown.map((of) => ({ of, mm: costs.reduce((sum, c) => sum + (c.of === of ? c.mm : 0), 0) }));
  const [most] = [...bySize].sort((a, b) => b.mm - a.mm || shown.indexOf(a.of) - shown.indexOf(b.of));
  const worst = costs.reduce(
    (best, c) => (c.of === most?.of && (best?.of !== c.of || c.mm > best.mm) ? c : best),
    costs[0],
  );
  if (!most || !worst || most.mm <= nothingMm) return null;
  const decided = from.domain(worst.of).decidedAt.find((d) => d.side === worst.side);
  const tells = worst.of === 'frame-width' ? 'For the frame it is widest' : 'It is tightest';
  const where = decided ? ` ${tells} on the ${sayOn(worst.side, decided.at, from.survey.world.exercise.spec)}.` : '';
  return {
    costMm: most.mm,
    sizes: [most.of, ...bySize.filter((s) => s !== most && s.mm > nothingMm).map((s) => s.of)],
    acts: from.placesRead(worst.of).map((p) => p.n),
    caught: byTightest(from, worst.of, worst.side, within) ?? byTightest(from, worst.of, worst.side),
    happened: [`${said.happened}${where}`],
    did: [said.did],
    next: [said.next],
  };
}

/** The sizes that show a pattern of the places read on both walls: the carcass's first, none where that does not. */
function shownIn(from: Evidence, isShown: (places: readonly PlaceRead[]) => boolean): readonly WidthName[] {
  const width = widthOf(from);
  const sizes: readonly WidthName[] = [width, 'frame-width'];
  const shown = sizes.filter((of) => from.sizes.includes(of) && walls.every((side) => isShown(readOn(from, side, of))));
  return shown.includes(width) ? shown : [];
}

/** The places read on a wall for a width; none where it was not read, which no pattern is made of. */
function readOn(from: Evidence, side: Side, of: WidthName = widthOf(from)): readonly PlaceRead[] {
  return from.placesRead(of).filter((p) => p.side === side);
}

/** From the least to the most along an axis; more than any wall where nothing was read. */
function spread(places: readonly PlaceRead[], axis: 'u' | 'v'): number {
  if (places.length === 0) return Number.MAX_VALUE;
  const values = places.map((p) => p.at[axis]);
  return Math.max(...values) - Math.min(...values);
}

function frontMm(from: Evidence): number {
  const { mouthMm, carcassFrontMm, carcassMm } = from.brief;
  return mouthMm + frontShare * (carcassFrontMm + carcassMm.depth.nominalMm - mouthMm);
}

function decidedAt(from: Evidence, side: Side): { u: number; v: number } | null {
  const decided = from.domain(widthOf(from)).decidedAt.find((d) => d.side === side);
  const axes = axesOf(side);
  return decided ? { u: decided.at[axes.u], v: decided.at[axes.v] } : null;
}
