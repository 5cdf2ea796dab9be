/**
 * Measuring rules for surfaces, as documents have them, on gap surfaces. mm. Shares nothing with the program.
 *
 * Each gives its greatest reading, or its greatest share of a limit that depends on a length. Places are on grids; what is
 * looked up between them is read again exactly before it counts.
 */
import { evenly, type GapSurface, inRegion, looked, type Region } from './gap-surface.ts';
import { goUp } from './pattern-search.ts';

type Spot = readonly [s: number, t: number];

/** How far the surface stands off at a place: exactly, or looked up. */
type GapAt = (s: number, t: number) => number;

/** How closely places are looked at: the usual grids are divided by `finer`; directions begin turned by so many radians. */
export type Look = { readonly turned: number; readonly finer: number };

const usual: Look = { turned: 0, finer: 1 };

/** Straight along s, straight along t, or every way round. */
export type Ways = 'round' | 's' | 't';

/**
 * The straight-edge: laid with both ends at equal offsets, each end on the surface, in all directions and positions on a
 * grid, and from the best few of these wherever it takes more, shorter ones too; as long as told at most.
 *
 * @returns the most that the surface leaves the edge's own line, either way
 */
export function straightEdge(surface: GapSurface, lengthMm: number, ways: Ways, look = usual): number {
  const glance = looked(surface, 25);
  const round = directions(ways, surface.region, { lengthsMm: [lengthMm], turned: look.turned });
  const starts = new Starts(look);
  const shares = look.finer > 1 ? [1, 0.85, 0.7, 0.55, 0.4] : [1, 0.6];
  for (const from of spots(surface.region, 110 / look.finer))
    for (const way of round) {
      const longest = Math.min(lengthMm, roomAlong(surface.region, from, way));
      for (const share of shares) {
        const length = share * longest;
        if (length < 100) continue;
        const a = glance(from[0], from[1]);
        const b = glance(from[0] + length * way[0], from[1] + length * way[1]);
        const looks = Math.ceil(length / 40);
        for (let i = 1; i < looks; i++) {
          const share = i / looks;
          const on = share * length;
          const off = Math.abs(glance(from[0] + on * way[0], from[1] + on * way[1]) - a - share * (b - a));
          if (off > starts.least) starts.offer(off, from, [way[0], way[1], length, on]);
        }
      }
    }
  const offAt =
    (of: GapAt) =>
    ([x, y, angle, length, on]: readonly number[]) => {
      const from: Spot = [x!, y!];
      const way = unit(angle!);
      if (!inRegion(surface.region, from) || length! < 100 || on! < 0 || on! > length!) return Number.NaN;
      if (length! > lengthMm || length! > roomAlong(surface.region, from, way)) return Number.NaN;
      const share = on! / length!;
      const middle = of(x! + on! * way[0], y! + on! * way[1]);
      return Math.abs(middle - (1 - share) * of(x!, y!) - share * of(x! + length! * way[0], y! + length! * way[1]));
    };
  const turns = ways === 'round' ? 0.1 : 0;
  return starts.best.reduce((most, { from, way: [dx, dy, length, on] }) => {
    const start = [...from, Math.atan2(dy!, dx!), length! * (1 - 1e-9), on!];
    const top = goUp(start, [40, 40, turns, 40, 40], offAt(glance)).at;
    return Math.max(most, offAt(surface.gap)(top) || 0);
  }, 0);
}

/**
 * The levelling grid: the middle of three points in a row against the mean of the outer two, z2 - (z1 + z3)/2; the limit is
 * that of the outer two's distance. Grids of every spacing from 50 mm, of those too at whose span the limit is about to
 * step up, and the widest that has room, laid anywhere and every way round, from the best few wherever they take more.
 *
 * @returns the greatest share of the limit
 */
export function levellingGrid(surface: GapSurface, limitAt: (apartMm: number) => number, look = usual): number {
  const { s, t } = surface.region;
  const glance = looked(surface, 25);
  const spans = spansOf(limitAt, Math.hypot(s[1] - s[0], t[1] - t[0]));
  const stepping = spans.filter(({ span }) => span % 100 !== 0).map(({ span }) => span);
  const round = directions('round', surface.region, { lengthsMm: stepping, turned: look.turned });
  const starts = new Starts(look);
  for (const from of spots(surface.region, 60 / look.finer)) {
    const z1 = glance(from[0], from[1]);
    for (const way of round) {
      const room = roomAlong(surface.region, from, way);
      for (let i = 0; i <= spans.length; i++) {
        const { span, limit } = spans[i] ?? {
          span: room,
          limit: room < 100 ? Number.POSITIVE_INFINITY : limitAt(room),
        };
        if (span > room) continue;
        const x = from[0] + span * way[0];
        const y = from[1] + span * way[1];
        const middle = glance((from[0] + x) / 2, (from[1] + y) / 2);
        const share = Math.abs(middle - (z1 + glance(x, y)) / 2) / limit;
        if (share > starts.least) starts.offer(share, from, [way[0], way[1], span]);
      }
    }
  }
  const shareAt =
    (of: GapAt) =>
    ([x, y, angle, span]: readonly number[]) => {
      const from: Spot = [x!, y!];
      const way = unit(angle!);
      if (!inRegion(surface.region, from) || span! < 100 || span! > roomAlong(surface.region, from, way))
        return Number.NaN;
      const [half, whole] = [span! / 2, span!];
      const middle = of(x! + half * way[0], y! + half * way[1]);
      return Math.abs(middle - (of(x!, y!) + of(x! + whole * way[0], y! + whole * way[1])) / 2) / limitAt(whole);
    };
  return starts.best.reduce((most, { from, way: [dx, dy, span] }) => {
    const start = [...from, Math.atan2(dy!, dx!), span! * (1 - 1e-9)];
    const top = goUp(start, [30, 30, 0.1, 40], shareAt(glance)).at;
    return Math.max(most, shareAt(surface.gap)(top) || 0);
  }, 0);
}

/** The best few places to go up from, one a spot. */
class Starts {
  best: { value: number; from: Spot; way: readonly number[] }[] = [];
  least = 0;
  readonly #kept: number;

  constructor({ finer }: Look) {
    this.#kept = finer > 1 ? 24 : 6;
  }

  offer(value: number, from: Spot, way: readonly number[]): void {
    const there = this.best.find((b) => b.from === from);
    if (there && there.value >= value) return;
    if (there) Object.assign(there, { value, way });
    else this.best.push({ value, from, way });
    this.best.sort((a, b) => b.value - a.value);
    this.best.length = Math.min(this.best.length, this.#kept);
    this.least = this.best.length < this.#kept ? 0 : this.best.at(-1)!.value;
  }
}

/** Spans in ascending order with their limits: every 100 mm, and the last whole mm before each step of the limit. */
function spansOf(limitAt: (apartMm: number) => number, longest: number): { span: number; limit: number }[] {
  const found: { span: number; limit: number }[] = [];
  for (let span = 100; span <= longest; span++) {
    const limit = limitAt(span);
    if (span % 100 === 0 || limitAt(span + 1) !== limit) found.push({ span, limit });
  }
  return found;
}

/** Hung plumb: the most that two points of one line along t stand apart, no further from each other than told. */
export function apartUpright(
  surface: GapSurface,
  withinMm = Number.POSITIVE_INFINITY,
  { finer }: Look = usual,
): number {
  const { region } = surface;
  let worst = 0;
  for (const place of evenly(region.s, 50 / finer)) {
    const line = evenly(region.t, 25.4).filter((x) => inRegion(region, [place, x]));
    const gaps = surface.gaps([place], line);
    for (let i = 0; i < line.length; i++)
      for (let j = i + 1; j < line.length && line[j]! - line[i]! <= withinMm; j++) {
        const apart = Math.abs(gaps[j]! - gaps[i]!);
        if (apart > worst) worst = apart;
      }
  }
  return worst;
}

/** The most that any two points of the surface stand apart, no further from each other than told. */
export function apartWithin(surface: GapSurface, withinMm: number, { finer }: Look = usual): number {
  const { ss, ts, at } = gridOf(surface, 50 / finer);
  const [ds, dt] = [ss[1]! - ss[0]!, ts[1]! - ts[0]!];
  const [reachS, reachT] = [Math.floor(withinMm / ds), Math.floor(withinMm / dt)];
  let worst = 0;
  for (let j = 0; j < ts.length; j++)
    for (let i = 0; i < ss.length; i++)
      for (let b = 0; b <= reachT; b++)
        for (let a = -reachS; a <= reachS; a++) {
          if (Math.hypot(a * ds, b * dt) > withinMm) continue;
          const apart = Math.abs(at(i + a, j + b) - at(i, j));
          if (apart > worst) worst = apart;
        }
  return worst;
}

/**
 * Level by the furthest points across the full width: from any point of one edge to any of the edge across, along s and
 * along t, by the length between them.
 *
 * @returns the greatest mm in a metre
 */
export function levelAcross(surface: GapSurface): number {
  const { s, t } = surface.region;
  let worst = 0;
  for (const axis of ['s', 't'] as const) {
    const [ends, edge] = axis === 's' ? [s, t] : [t, s];
    const spots = (end: number) => evenly(edge, 50).map((x): Spot => (axis === 's' ? [end, x] : [x, end]));
    const far = spots(ends[1]).map((spot) => ({ spot, gap: surface.gap(...spot) }));
    for (const one of spots(ends[0])) {
      const gap = surface.gap(...one);
      for (const other of far) worst = Math.max(worst, (1000 * Math.abs(other.gap - gap)) / distance(one, other.spot));
    }
  }
  return worst;
}

/**
 * The angle of an edge: the offset between the beginning and the end of each line along an axis, each so far off the
 * edges, a quarter of the line where it is short; the limit is that of the whole line's length.
 */
export function angleAlong(
  surface: GapSurface,
  axis: 's' | 't',
  of: { insetMm: number; limitAt: (runMm: number) => number },
  { finer }: Look = usual,
): number {
  const { region } = surface;
  let worst = 0;
  for (const place of evenly(insetBy(axis === 's' ? region.t : region.s, of.insetMm), 40 / finer)) {
    const line = lineAlong(region, axis, place);
    if (!line || line[1] - line[0] < 100) continue;
    const [from, to] = insetBy(line, of.insetMm);
    const spot = (x: number): Spot => (axis === 's' ? [x, place] : [place, x]);
    const offset = Math.abs(surface.gap(...spot(to)) - surface.gap(...spot(from)));
    worst = Math.max(worst, offset / of.limitAt(line[1] - line[0]));
  }
  return worst;
}

/** A stretch less so much at either end, a quarter of it where it is short. */
export function insetBy([from, to]: readonly [number, number], insetMm: number): readonly [number, number] {
  const inset = Math.min(insetMm, (to - from) / 4);
  return [from + inset, to - inset];
}

/**
 * Unit steps; those of every way round are level, upright, by 15 degrees, along both diagonals, and both slants at which each
 * length just reaches from one edge to the edge across.
 */
function directions(
  ways: Ways,
  { s, t }: Region,
  { lengthsMm, turned }: { lengthsMm: readonly number[]; turned: number },
): readonly Spot[] {
  if (ways === 's') return [[1, 0]];
  if (ways === 't') return [[0, 1]];
  const [wide, high] = [s[1] - s[0], t[1] - t[0]];
  const slants = [
    Math.atan2(high, wide),
    ...lengthsMm.filter((length) => length > wide).map((length) => Math.acos(wide / length)),
    ...lengthsMm.filter((length) => length > high).map((length) => Math.asin(high / length)),
  ];
  const round = Array.from({ length: 24 }, (_, i): Spot => unit(turned + (i * Math.PI) / 12));
  return [[1, 0], [0, 1], ...slants.flatMap((angle) => [unit(angle), unit(-angle)]), ...round];
}

function unit(angle: number): Spot {
  return [Math.cos(angle), Math.sin(angle)];
}

/** How far one can go from a spot within a region. */
function roomAlong({ s, t, cut }: Region, [x, y]: Spot, [ds, dt]: Spot): number {
  return Math.min(
    roomTo(s[1] - x, ds),
    roomTo(x - s[0], -ds),
    roomTo(t[1] - y, dt),
    roomTo(y - t[0], -dt),
    cut ? roomTo(cut.at + cut.perS * x - y, dt - cut.perS * ds) : Number.POSITIVE_INFINITY,
  );
}

function roomTo(room: number, speed: number): number {
  return speed > 1e-9 ? Math.max(0, room / speed) : Number.POSITIVE_INFINITY;
}

function spots(region: Region, stepMm: number): Spot[] {
  const all = evenly(region.t, stepMm).flatMap((y) => evenly(region.s, stepMm).map((x): Spot => [x, y]));
  return all.filter((spot) => inRegion(region, spot));
}

/** Gaps on a grid; not a number off the surface. */
function gridOf(surface: GapSurface, stepMm: number) {
  const ss = evenly(surface.region.s, stepMm);
  const ts = evenly(surface.region.t, stepMm);
  const all = surface.gaps(ss, ts);
  const at = (i: number, j: number) => {
    const [x, y] = [ss[i], ts[j]];
    if (x === undefined || y === undefined || !inRegion(surface.region, [x, y])) return Number.NaN;
    return all[j * ss.length + i]!;
  };
  return { ss, ts, at };
}

/** The stretch of a region along an axis at a place of the other. */
function lineAlong({ s, t, cut }: Region, axis: 's' | 't', place: number): readonly [number, number] | null {
  if (!cut) return axis === 's' ? s : t;
  if (axis === 't') return [t[0], Math.min(t[1], cut.at + cut.perS * place)];
  const meet = (place - cut.at) / cut.perS;
  return cut.perS > 0 ? [Math.max(s[0], meet), s[1]] : [s[0], Math.min(s[1], meet)];
}

function distance(one: Spot, other: Spot): number {
  return Math.hypot(other[0] - one[0], other[1] - one[1]);
}
