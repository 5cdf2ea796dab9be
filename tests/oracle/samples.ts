/**
 * The samples of a hidden room, as `offtrue room CODE --samples MM` prints them: read, and checked as far as samples
 * can be. Room frame, mm: x right along the face line, y into the recess, z up. A surface is sampled in its own
 * (u, v): (y, z) for side walls, (x, z) for the back, (x, y) for floor and ceilings; one row a v; the heights are the
 * true x, y or z of the bare surface.
 *
 * The oracle's bounds rest on one promise of the format: between knots every 128 mm each surface is a polynomial of
 * degree 3 at most in u and in v. What samples can say about that is checked in `sheet.ts`.
 */

export type SideName = 'left' | 'right' | 'back' | 'floor' | 'ceiling' | 'slope';

export type SampleAxis = { readonly axis: string; readonly fromMm: number; readonly count: number };

export type SampledSurface = {
  readonly name: string;
  readonly side: SideName;
  readonly knots: { readonly stepMm: number; readonly u0Mm: number; readonly v0Mm: number };
  readonly u: SampleAxis;
  readonly v: SampleAxis;
  /** Row after row, one row a v. */
  readonly heightsMm: Float64Array;
};

export type SampledTrim = {
  readonly name: string;
  readonly surface: string;
  /** Closed. */
  readonly uMm: readonly [number, number];
  readonly vMm: readonly [number, number];
  /** Places along u or v, never falling; projections into the free space, >= 0. Two at one place make a step. */
  readonly profile: { readonly along: 'u' | 'v'; readonly mm: readonly (readonly [number, number])[] };
  readonly fate: 'stays' | 'off' | 'cut';
};

export type Sizes = {
  readonly width: number;
  readonly height: number;
  readonly depth: number;
  /** The line of a sloped top: its heights over the bottom at the left and the right edge. */
  readonly slope?: { readonly left: number; readonly right: number };
  /** What is cut out of an upper corner. */
  readonly notch?: { readonly side: 'left' | 'right'; readonly width: number; readonly height: number };
};

/** What the oracle needs of the brief; `raw` is all of it. */
export type Brief = {
  readonly openingMm: Sizes;
  readonly mouthMm: number;
  readonly carcassFrontMm: number;
  /** The nominal carcass. */
  readonly carcassMm: Sizes;
  readonly askMm: { readonly left: number; readonly right: number; readonly top: number; readonly back: number };
  readonly plinthMm: number;
  /** Which edge of a sloped top is the low one; null where no sloped top is asked for. */
  readonly slopeLow: 'left' | 'right' | null;
  readonly access: { readonly clearHeightMm: number; readonly plinthSeparate: boolean } | null;
  readonly raw: unknown;
};

export type Samples = {
  readonly stepMm: number;
  readonly brief: Brief;
  readonly mouthMm: number;
  readonly surfaces: readonly SampledSurface[];
  readonly trims: readonly SampledTrim[];
};

const AXES: Readonly<Record<SideName, readonly [string, string]>> = {
  left: ['y', 'z'],
  right: ['y', 'z'],
  back: ['x', 'z'],
  floor: ['x', 'y'],
  ceiling: ['x', 'y'],
  slope: ['x', 'y'],
};

/**
 * Reads the parsed JSON of a sampled room.
 *
 * @throws {TypeError} where a field is missing or of the wrong kind
 * @throws {RangeError} where a value cannot be, for one a step that does not divide the knots' own
 */
export function readSamples(json: unknown): Samples {
  const root = recordOf(json, 'samples');
  if (root['format'] !== 'offtrue-samples' || root['version'] !== 1) {
    throw new RangeError(`samples: expected offtrue-samples version 1, got ${root['format']} ${root['version']}`);
  }
  const stepMm = positive(root['stepMm'], 'stepMm');
  const brief = readBrief(root['brief']);
  const mouthMm = numberOf(root['mouthMm'], 'mouthMm');
  if (mouthMm !== brief.mouthMm) throw new RangeError(`mouthMm: ${mouthMm}, but the brief says ${brief.mouthMm}`);
  if (mouthMm > 0) throw new RangeError(`mouthMm: must be <= 0, got ${mouthMm}`);
  const surfaces = listOf(root['surfaces'], 'surfaces').map((one, i) => readSurface(one, `surfaces[${i}]`, stepMm));
  layFinish(surfaces, brief.raw);
  const trims = listOf(root['trims'], 'trims').map((one, i) => readTrim(one, `trims[${i}]`));
  for (const trim of trims) {
    const on = surfaces.filter((surface) => surface.name === trim.surface);
    if (on.length !== 1) throw new RangeError(`trim ${trim.name}: lies on ${on.length} surfaces '${trim.surface}'`);
    if (on[0]?.side === 'floor') throw new RangeError(`trim ${trim.name}: the model has no trims on a floor`);
  }
  return { stepMm, brief, mouthMm, surfaces, trims };
}

/** @throws {TypeError} if the value is not an object */
export function recordOf(value: unknown, where: string): Readonly<Record<string, unknown>> {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) {
    throw new TypeError(`${where}: expected an object, got ${JSON.stringify(value)}`);
  }
  return value as Record<string, unknown>;
}

/** @throws {TypeError} if the value is not an array */
export function listOf(value: unknown, where: string): readonly unknown[] {
  if (!Array.isArray(value)) throw new TypeError(`${where}: expected a list, got ${JSON.stringify(value)}`);
  return value;
}

/** @throws {TypeError} if the value is not a finite number */
export function numberOf(value: unknown, where: string): number {
  if (typeof value !== 'number' || !Number.isFinite(value)) {
    throw new TypeError(`${where}: expected a finite number, got ${JSON.stringify(value)}`);
  }
  return value;
}

/** Samples are of the room as it was surveyed; a finish to come brings a surface forward by so much before the fitting. */
function layFinish(surfaces: readonly SampledSurface[], brief: unknown): void {
  const finishes = recordOf(brief, 'brief')['finishMm'];
  for (const [i, one] of (finishes === undefined ? [] : listOf(finishes, 'brief.finishMm')).entries()) {
    const { surface, mm } = recordOf(one, `brief.finishMm[${i}]`);
    const by = numberOf(mm, `brief.finishMm[${i}].mm`);
    for (const { side, heightsMm } of surfaces) {
      const inward = side === 'left' || side === 'floor' ? by : -by;
      if (side === surface) for (let k = 0; k < heightsMm.length; k++) heightsMm[k]! += inward;
    }
  }
}

function readBrief(json: unknown): Brief {
  const brief = recordOf(json, 'brief');
  const opening = recordOf(brief['openingMm'], 'brief.openingMm');
  const carcass = recordOf(brief['carcassMm'], 'brief.carcassMm');
  const ask = recordOf(brief['askMm'], 'brief.askMm');
  const nominal = (size: string) =>
    positive(recordOf(carcass[size], `brief.carcassMm.${size}`)['nominalMm'], `brief.carcassMm.${size}.nominalMm`);
  return {
    openingMm: {
      width: positive(opening['width'], 'brief.openingMm.width'),
      height: positive(opening['height'], 'brief.openingMm.height'),
      depth: positive(opening['depth'], 'brief.openingMm.depth'),
    },
    mouthMm: numberOf(brief['mouthMm'], 'brief.mouthMm'),
    carcassFrontMm: numberOf(brief['carcassFrontMm'], 'brief.carcassFrontMm'),
    carcassMm: {
      width: nominal('width'),
      height: nominal('height'),
      depth: nominal('depth'),
      ...readSlope(brief['slope']),
      ...readNotch(brief['notch'], 'brief.notch'),
    },
    slopeLow: brief['slope'] === undefined ? null : sideOf(recordOf(brief['slope'], 'brief.slope')['low']),
    askMm: {
      left: numberOf(ask['left'], 'brief.askMm.left'),
      right: numberOf(ask['right'], 'brief.askMm.right'),
      top: numberOf(ask['top'], 'brief.askMm.top'),
      back: numberOf(ask['back'], 'brief.askMm.back'),
    },
    plinthMm: numberOf(brief['plinthMm'], 'brief.plinthMm'),
    access: readAccess(brief['access']),
    raw: json,
  };
}

function readSlope(json: unknown): Pick<Sizes, 'slope'> {
  if (json === undefined) return {};
  const slope = recordOf(json, 'brief.slope');
  const low = numberOf(slope['lowMm'], 'brief.slope.lowMm');
  const high = numberOf(slope['highMm'], 'brief.slope.highMm');
  return { slope: sideOf(slope['low']) === 'left' ? { left: low, right: high } : { left: high, right: low } };
}

/** @throws {TypeError} where it is not a notch */
export function readNotch(json: unknown, where: string): Pick<Sizes, 'notch'> {
  if (json === undefined) return {};
  const notch = recordOf(json, where);
  const [width, height] = [numberOf(notch['widthMm'], where), numberOf(notch['heightMm'], where)];
  return { notch: { side: sideOf(notch['side']), width, height } };
}

function sideOf(json: unknown): 'left' | 'right' {
  if (json !== 'left' && json !== 'right') throw new TypeError(`expected left or right, got ${json}`);
  return json;
}

function readAccess(json: unknown): Brief['access'] {
  if (json === null || json === undefined) return null;
  const access = recordOf(json, 'brief.access');
  const plinthSeparate = access['plinthSeparate'];
  if (typeof plinthSeparate !== 'boolean') throw new TypeError('brief.access.plinthSeparate: expected true or false');
  return { clearHeightMm: numberOf(access['clearHeightMm'], 'brief.access.clearHeightMm'), plinthSeparate };
}

function readSurface(json: unknown, where: string, stepMm: number): SampledSurface {
  const surface = recordOf(json, where);
  const name = textOf(surface['name'], `${where}.name`);
  const side = surface['side'] as SideName;
  const axes = Object.hasOwn(AXES, String(side)) ? AXES[side] : undefined;
  if (!axes) throw new RangeError(`${where}.side: expected ${Object.keys(AXES).join('|')}, got ${side}`);
  const knots = recordOf(surface['knots'], `${where}.knots`);
  const u = readAxis(surface['u'], `${where}.u`, axes[0]);
  const v = readAxis(surface['v'], `${where}.v`, axes[1]);
  const read = {
    stepMm: positive(knots['stepMm'], `${where}.knots.stepMm`),
    u0Mm: numberOf(knots['u0Mm'], `${where}.knots.u0Mm`),
    v0Mm: numberOf(knots['v0Mm'], `${where}.knots.v0Mm`),
  };
  if (!Number.isInteger(read.stepMm / stepMm) || read.stepMm / stepMm < 3) {
    throw new RangeError(`${where}: ${stepMm} mm does not divide the ${read.stepMm} mm between knots into 3 or more`);
  }
  for (const [axis, knot] of [
    [u, read.u0Mm],
    [v, read.v0Mm],
  ] as const) {
    if (!Number.isInteger((axis.fromMm - knot) / stepMm)) {
      throw new RangeError(`${where}: samples from ${axis.axis} = ${axis.fromMm} every ${stepMm} mm miss the knots`);
    }
  }
  return { name, side, knots: read, u, v, heightsMm: readHeights(surface['heightsMm'], where, u.count, v.count) };
}

function readHeights(json: unknown, where: string, columns: number, rows: number): Float64Array {
  const list = listOf(json, `${where}.heightsMm`);
  if (list.length !== rows) throw new RangeError(`${where}.heightsMm: expected ${rows} rows, got ${list.length}`);
  const heights = new Float64Array(columns * rows);
  for (let j = 0; j < rows; j++) {
    const row = list[j] as readonly unknown[];
    if (!Array.isArray(row) || row.length !== columns) {
      throw new RangeError(`${where}.heightsMm[${j}]: expected ${columns} numbers`);
    }
    for (let i = 0; i < columns; i++) {
      const height = row[i];
      if (typeof height !== 'number' || !Number.isFinite(height)) {
        throw new TypeError(`${where}.heightsMm[${j}][${i}]: expected a finite number`);
      }
      heights[j * columns + i] = height;
    }
  }
  return heights;
}

function readAxis(json: unknown, where: string, name: string): SampleAxis {
  const axis = recordOf(json, where);
  if (axis['axis'] !== name) throw new RangeError(`${where}.axis: expected ${name}, got ${axis['axis']}`);
  const count = numberOf(axis['count'], `${where}.count`);
  if (!Number.isInteger(count) || count < 4) throw new RangeError(`${where}.count: must be 4 or more, got ${count}`);
  return { axis: name, fromMm: numberOf(axis['fromMm'], `${where}.fromMm`), count };
}

function readTrim(json: unknown, where: string): SampledTrim {
  const trim = recordOf(json, where);
  const name = textOf(trim['name'], `${where}.name`);
  const uMm = readRange(trim['uMm'], `${where}.uMm`);
  const vMm = readRange(trim['vMm'], `${where}.vMm`);
  const profile = recordOf(trim['profile'], `${where}.profile`);
  const along = profile['along'];
  if (along !== 'u' && along !== 'v') throw new RangeError(`${where}.profile.along: expected u|v, got ${along}`);
  const fate = trim['fate'];
  if (fate !== 'stays' && fate !== 'off' && fate !== 'cut') {
    throw new RangeError(`${where}.fate: expected stays|off|cut, got ${fate}`);
  }
  const mm = readProfile(profile['mm'], `${where}.profile.mm`, along === 'u' ? uMm : vMm);
  return { name, surface: textOf(trim['surface'], `${where}.surface`), uMm, vMm, profile: { along, mm }, fate };
}

function readProfile(json: unknown, where: string, extent: readonly [number, number]): [number, number][] {
  const points = listOf(json, where).map((point, i): [number, number] => {
    const pair = listOf(point, `${where}[${i}]`);
    if (pair.length !== 2) throw new RangeError(`${where}[${i}]: expected a place and a projection`);
    return [numberOf(pair[0], `${where}[${i}][0]`), numberOf(pair[1], `${where}[${i}][1]`)];
  });
  for (const [i, point] of points.entries()) {
    if (point[1] < 0) throw new RangeError(`${where}[${i}]: projection must be >= 0 mm, got ${point[1]}`);
    if (i > 0 && point[0] < points[i - 1]![0]) throw new RangeError(`${where}[${i}]: places must not fall`);
  }
  const first = points[0];
  const last = points[points.length - 1];
  if (points.length < 2 || !first || !last || first[0] > extent[0] || last[0] < extent[1]) {
    throw new RangeError(`${where}: must cover the band's ${extent[0]} to ${extent[1]}`);
  }
  return points;
}

function readRange(json: unknown, where: string): [number, number] {
  const pair = listOf(json, where);
  const from = numberOf(pair[0], `${where}[0]`);
  const to = numberOf(pair[1], `${where}[1]`);
  if (pair.length !== 2 || from > to)
    throw new RangeError(`${where}: expected [from, to], got ${JSON.stringify(json)}`);
  return [from, to];
}

function textOf(value: unknown, where: string): string {
  if (typeof value !== 'string' || value === '') throw new TypeError(`${where}: expected a name`);
  return value;
}

function positive(value: unknown, where: string): number {
  const number = numberOf(value, where);
  if (number <= 0) throw new RangeError(`${where}: must be > 0, got ${number}`);
  return number;
}
