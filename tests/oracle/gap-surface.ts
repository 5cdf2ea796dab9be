/**
 * A built surface as somebody measures it who has only its control values: how far it stands off its nominal plane, square
 * to that plane, over the part that can be seen. mm. Shares nothing with the builder.
 *
 * The surface is the uniform bicubic B-spline of the control values, knots every 128 mm, values in 1/1024 mm; the basis is
 * worked out by the recursion on its degree. `s` and `t` are lengths along the surface: t that of v, s that of u, which on a
 * slope is longer than u by its pitch. Gaps are + into the free space.
 */
import { basis } from './made-room.ts';

/** Control values of an obstruction: larger is further into the free space. */
export type ControlNet = {
  readonly u0: number;
  readonly v0: number;
  readonly countU: number;
  readonly countV: number;
  readonly control: ArrayLike<number>;
};

/** The nominal plane, as an obstruction: `at` + `perU` u. */
export type Nominal = { readonly at: number; readonly perU: number };

/** Where t may go at an s: closed. */
export type Region = {
  readonly s: readonly [number, number];
  readonly t: readonly [number, number];
  /** Beside that t <= at + perS s, where something cuts the surface off. */
  readonly cut: { readonly at: number; readonly perS: number } | null;
};

export type GapSurface = {
  readonly region: Region;
  gap(s: number, t: number): number;
  /** The gaps at all places of a grid, row after row, one row a t: what `gap` gives, to rounding. */
  gaps(ss: readonly number[], ts: readonly number[]): Float64Array;
};

/** A surface from its control values; the region is in u and v, and comes out in s and t. */
export function gapSurface(net: ControlNet, nominal: Nominal, inUv: Region): GapSurface {
  const stretch = Math.hypot(1, nominal.perU);
  const { s, t, cut } = inUv;
  return {
    region: {
      s: [s[0] * stretch, s[1] * stretch],
      t,
      cut: cut && { at: cut.at, perS: cut.perS / stretch },
    },
    gap: (along, v) => gridAt(net, [along / stretch], [v], nominal, stretch)[0]!,
    gaps: (ss, ts) =>
      gridAt(
        net,
        ss.map((along) => along / stretch),
        ts,
        nominal,
        stretch,
      ),
  };
}

/** Says whether a place lies in a region, borders with a hair to spare. */
export function inRegion({ s, t, cut }: Region, at: readonly [number, number]): boolean {
  const hair = 1e-6;
  const [x, y] = at;
  const roof = cut ? Math.min(t[1], cut.at + cut.perS * x) : t[1];
  return x >= s[0] - hair && x <= s[1] + hair && y >= t[0] - hair && y <= roof + hair;
}

/** Even places from one end to the other, both ends among them, at most a step apart. */
export function evenly([from, to]: readonly [number, number], stepMm: number): number[] {
  const count = Math.max(1, Math.ceil((to - from) / stepMm));
  return Array.from({ length: count + 1 }, (_, i) => (i === count ? to : from + (i * (to - from)) / count));
}

/** A surface looked up on a grid: exact at the grid's places, straight between them. */
export function looked(surface: GapSurface, stepMm: number): (s: number, t: number) => number {
  const { s, t } = surface.region;
  const ss = evenly(s, stepMm);
  const ts = evenly(t, stepMm);
  const columns = ss.length;
  const table = surface.gaps(ss, ts);
  const perS = (columns - 1) / (s[1] - s[0]);
  const perT = (ts.length - 1) / (t[1] - t[0]);
  const [s0, t0, rows] = [s[0], t[0], ts.length];
  return (x, y) => {
    const i = Math.min(Math.max((x - s0) * perS, 0), columns - 1);
    const j = Math.min(Math.max((y - t0) * perT, 0), rows - 1);
    const a = Math.min(Math.floor(i), columns - 2);
    const b = Math.min(Math.floor(j), rows - 2);
    const k = b * columns + a;
    const p = i - a;
    const q = j - b;
    const low = table[k]! + p * (table[k + 1]! - table[k]!);
    const high = table[k + columns]! + p * (table[k + columns + 1]! - table[k + columns]!);
    return low + q * (high - low);
  };
}

function gridAt(
  net: ControlNet,
  us: readonly number[],
  vs: readonly number[],
  nominal: Nominal,
  stretch: number,
): Float64Array {
  const { countU, control } = net;
  const columns = us.map((u) => weights(u - net.u0, countU));
  const gaps = new Float64Array(us.length * vs.length);
  let at = 0;
  for (const v of vs) {
    const [j, down] = weights(v - net.v0, net.countV);
    us.forEach((u, place) => {
      const [i, along] = columns[place]!;
      let sum = 0;
      for (let b = 0, k = j * countU + i; b < 4; b++, k += countU)
        for (let a = 0; a < 4; a++) sum += down[b]! * along[a]! * control[k + a]!;
      gaps[at++] = (sum / 1024 - nominal.at - nominal.perU * u) / stretch;
    });
  }
  return gaps;
}

/** The first of four control values that count at a distance from the first knot, and by how much each does. */
function weights(from: number, count: number): readonly [number, readonly number[]] {
  const knots = from / 128;
  if (knots < -1e-9 || knots > count - 3 + 1e-9) throw new RangeError(`gap surface: ${from} mm is off the surface`);
  const span = Math.min(Math.max(Math.floor(knots), 0), count - 4);
  // The basis is closed below and open above.
  const s = Math.min(Math.max(knots - span, 0), 1 - 1e-12);
  return [span, [basis(s + 3), basis(s + 2), basis(s + 1), basis(s)]];
}
