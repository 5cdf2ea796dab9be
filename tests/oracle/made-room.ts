/**
 * Rooms made by hand for the oracle's own proof: surfaces are plain functions of (u, v), sampled as
 * `offtrue room --samples` prints them. mm, room frame. Shares nothing with the program.
 *
 * A function must be a polynomial of degree 3 at most in u and in v between knots every 128 mm from the surface's first
 * place: polynomials are, and so are the splines of `splineOf`.
 */

export type Height = (u: number, v: number) => number;

/** u and v reach of a surface. */
export type Extent = { readonly u: readonly [number, number]; readonly v: readonly [number, number] };

export type MadeTrim = {
  readonly name: string;
  readonly surface: string;
  readonly uMm: readonly [number, number];
  readonly vMm: readonly [number, number];
  readonly profile: { readonly along: 'u' | 'v'; readonly mm: readonly (readonly [number, number])[] };
  readonly fate: 'stays' | 'off' | 'cut';
};

export type MadeRoom = {
  readonly stepMm: number;
  readonly width: number;
  readonly height: number;
  readonly depth: number;
  readonly mouth: number;
  readonly left: Height;
  readonly right: Height;
  readonly back: Height;
  readonly floor: Height;
  /** By name; the lowest counts. */
  readonly ceilings: Readonly<Record<string, Height>>;
  readonly trims: readonly MadeTrim[];
  readonly brief: Readonly<Record<string, unknown>>;
};

/** A box 1000 x 2400 x 400, mouth at -100, and a brief for a carcass of 960 x 2200 x 350; all can be put otherwise. */
export function madeRoom(other: Partial<MadeRoom> = {}): MadeRoom {
  const [width, height, depth] = [other.width ?? 1000, other.height ?? 2400, other.depth ?? 400];
  return {
    stepMm: 16,
    width,
    height,
    depth,
    mouth: -100,
    left: () => -width / 2,
    right: () => width / 2,
    back: () => depth,
    floor: () => 0,
    ceilings: { ceiling: () => height },
    trims: [],
    ...other,
    brief: {
      openingMm: { width, height, depth },
      mouthMm: other.mouth ?? -100,
      reference: 'cornice return',
      carcassFrontMm: 22,
      carcassMm: {
        width: { nominalMm: 960, find: true },
        height: { nominalMm: 2200, find: true },
        depth: { nominalMm: 350, find: false },
      },
      askMm: { left: 5, right: 5, top: 10, back: 2 },
      plinthMm: 80,
      frame: { thicknessMm: 22, leastStockMm: 3, mostStockMm: 25 },
      access: { clearHeightMm: 2380, plinthSeparate: true },
      ...other.brief,
    },
  };
}

/** How far a room's surfaces reach: whole spans of 128 mm round 256 mm past the outline. */
export function extents(room: MadeRoom): Record<'side' | 'back' | 'level', Extent> {
  const x = spans(-room.width / 2 - 256, room.width / 2 + 256);
  const y = spans(room.mouth - 256, room.depth + 256);
  const z = spans(-256, room.height + 256);
  return { side: { u: y, v: z }, back: { u: x, v: z }, level: { u: x, v: y } };
}

/** The parsed JSON of the room's samples. */
export function samplesOf(room: MadeRoom): Record<string, unknown> {
  const { side, back, level } = extents(room);
  const sheets: [string, string, [string, string], Extent, Height][] = [
    ['left', 'left', ['y', 'z'], side, room.left],
    ['right', 'right', ['y', 'z'], side, room.right],
    ['back', 'back', ['x', 'z'], back, room.back],
    ['floor', 'floor', ['x', 'y'], level, room.floor],
    ...Object.entries(room.ceilings).map(([name, height]): (typeof sheets)[number] => {
      return [name, 'ceiling', ['x', 'y'], level, height];
    }),
  ];
  return {
    format: 'offtrue-samples',
    version: 1,
    stepMm: room.stepMm,
    brief: room.brief,
    mouthMm: room.mouth,
    surfaces: sheets.map(([name, on, axes, extent, height]) => {
      const count = (range: readonly [number, number]) => Math.round((range[1] - range[0]) / room.stepMm) + 1;
      const [columns, rows] = [count(extent.u), count(extent.v)];
      return {
        name,
        side: on,
        knots: { stepMm: 128, u0Mm: extent.u[0], v0Mm: extent.v[0] },
        u: { axis: axes[0], fromMm: extent.u[0], count: columns },
        v: { axis: axes[1], fromMm: extent.v[0], count: rows },
        heightsMm: Array.from({ length: rows }, (_, j) =>
          Array.from({ length: columns }, (_, i) =>
            height(extent.u[0] + i * room.stepMm, extent.v[0] + j * room.stepMm),
          ),
        ),
      };
    }),
    trims: room.trims,
  };
}

/**
 * A bicubic B-spline over an extent, knots every 128 mm from its first places, its control values drawn by `control`
 * (column, row). Row and column 0 stand one knot before the extent.
 */
export function splineOf(extent: Extent, control: (column: number, row: number) => number): Height {
  const columns = Math.round((extent.u[1] - extent.u[0]) / 128) + 3;
  const rows = Math.round((extent.v[1] - extent.v[0]) / 128) + 3;
  const net = Array.from({ length: rows }, (_, j) => Array.from({ length: columns }, (_, i) => control(i, j)));
  const place = (at: number, from: number, count: number): [number, number] => {
    const knots = (at - from) / 128;
    const span = Math.min(Math.max(Math.floor(knots), 0), count - 4);
    return [span, knots - span];
  };
  return (u, v) => {
    const [i, s] = place(u, extent.u[0], columns);
    const [j, t] = place(v, extent.v[0], rows);
    const along = [basis(s + 3), basis(s + 2), basis(s + 1), basis(s)];
    let sum = 0;
    for (let b = 0; b < 4; b++) {
      const row = net[j + b]!;
      let across = 0;
      for (let a = 0; a < 4; a++) across += along[a]! * row[i + a]!;
      sum += basis(t + 3 - b) * across;
    }
    return sum;
  };
}

/** The cubic B-spline on the knots 0, 1, 2, 3, 4, by the recursion on its degree. */
export function basis(x: number, degree = 3): number {
  if (degree === 0) return x >= 0 && x < 1 ? 1 : 0;
  return (x * basis(x, degree - 1) + (degree + 1 - x) * basis(x - 1, degree - 1)) / degree;
}

/** Numbers in [0, 1) from a seed, for test rooms only. */
export function drawsOf(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    const mixed = Math.imul(state ^ (state >>> 15), 0x2c1b3c6d);
    return ((mixed ^ (mixed >>> 13)) >>> 0) / 4294967296;
  };
}

function spans(from: number, to: number): [number, number] {
  return [Math.floor(from / 128) * 128, Math.ceil(to / 128) * 128];
}
