/**
 * Rooms of every shape for drawing, by hand: open sides, a slope either way, an opening that goes through, wide and small,
 * and trims of every kind. Their sizes are common practice, no source.
 */
import type { Brief } from '../../src/exercise/brief.ts';
import type { Exercise } from '../../src/exercise/exercise.ts';
import { type FamilyName, type RecessSpec, type Side, sides, type Trim } from '../../src/recess/recess-spec.ts';
import { exerciseIn, roomSpec } from './rooms.ts';

interface Shape {
  readonly family: FamilyName;
  readonly openingMm: RecessSpec['openingMm'];
  readonly mouthMm?: number;
  readonly open?: readonly Side[];
  readonly slope?: NonNullable<RecessSpec['slope']>;
  readonly trims?: readonly Trim[];
}

/** What each is called in a test's name. */
export const shapes: Readonly<Record<string, Shape>> = {
  run: {
    family: 'run',
    openingMm: { width: 4400, height: 2440, depth: 620 },
    trims: [socket(-900), pipe(2140), skirting()],
  },
  'short run': { family: 'run', openingMm: { width: 1800, height: 2320, depth: 640 } },
  'plain wall': {
    family: 'plain-wall',
    openingMm: { width: 2600, height: 2400, depth: 300 },
    open: ['left', 'right'],
    trims: [socket(300), radiator(), rail()],
  },
  reveal: { family: 'reveal', openingMm: { width: 1200, height: 1150, depth: 240 }, mouthMm: 0, trims: [board()] },
  'small reveal': { family: 'reveal', openingMm: { width: 600, height: 900, depth: 150 }, mouthMm: 0 },
  doorway: { family: 'doorway', openingMm: { width: 860, height: 2050, depth: 140 }, mouthMm: 0 },
  'under-stair': {
    family: 'under-stair',
    openingMm: { width: 2200, height: 2350, depth: 860 },
    open: ['ceiling', 'left'],
    slope: { low: 'left', lowMm: 420, riseMmPerM: 860 },
    trims: [newel()],
  },
  'under-stair, low right': {
    family: 'under-stair',
    openingMm: { width: 1700, height: 2100, depth: 800 },
    open: ['ceiling'],
    slope: { low: 'right', lowMm: 600, riseMmPerM: 850 },
  },
  'roof slope': {
    family: 'roof-slope',
    openingMm: { width: 2600, height: 2350, depth: 600 },
    slope: { low: 'right', lowMm: 900, riseMmPerM: 900 },
    trims: [beam()],
  },
  'roof slope, low left': {
    family: 'roof-slope',
    openingMm: { width: 1600, height: 2200, depth: 500 },
    open: ['ceiling', 'right'],
    slope: { low: 'left', lowMm: 700, riseMmPerM: 800 },
  },
};

/** The exercise of a shape by its name. */
export function exerciseOfShape(name: string, brief: Partial<Brief> = {}): Exercise {
  const shape = shapes[name];
  if (!shape) throw new RangeError(`no shape is called ${name}`);
  const base = roomSpec({
    openingMm: shape.openingMm,
    mouthMm: shape.mouthMm ?? -40,
    breastSide: null,
    trims: shape.trims ?? [],
  });
  const open = shape.open ?? [];
  const plain = base.surfaces.floor;
  const there = sides.filter((side) => !open.includes(side) && (side !== 'slope' || shape.slope !== undefined));
  const spec: RecessSpec = {
    ...base,
    family: shape.family,
    surfaces: { floor: plain, ...Object.fromEntries(there.map((side) => [side, plain])) },
    ...(shape.slope ? { slope: shape.slope } : {}),
  };
  return exerciseIn(spec, { brief });
}

function band(of: Pick<Trim, 'name' | 'kind' | 'surface' | 'uMm' | 'vMm'> & { along: 'u' | 'v'; out: number }): Trim {
  const { along, out, ...rest } = of;
  const [from, to] = along === 'u' ? of.uMm : of.vMm;
  return {
    ...rest,
    profile: {
      along,
      mm: [
        [from, out],
        [to, out],
      ],
    },
  };
}

function socket(x: number): Trim {
  return band({
    name: 'socket box',
    kind: 'socket-box',
    surface: 'back',
    uMm: [x, x + 146],
    vMm: [300, 386],
    along: 'v',
    out: 12,
  });
}

function pipe(x: number): Trim {
  return band({
    name: 'pipe boxing',
    kind: 'pipe-boxing',
    surface: 'back',
    uMm: [x - 120, x + 300],
    vMm: [-256, 2700],
    along: 'u',
    out: 110,
  });
}

function skirting(): Trim {
  return band({
    name: 'skirting back',
    kind: 'skirting',
    surface: 'back',
    uMm: [-2456, 2456],
    vMm: [-256, 145],
    along: 'v',
    out: 18,
  });
}

function radiator(): Trim {
  return band({
    name: 'radiator',
    kind: 'radiator',
    surface: 'back',
    uMm: [-1100, -300],
    vMm: [150, 750],
    along: 'v',
    out: 95,
  });
}

function rail(): Trim {
  return band({
    name: 'picture rail',
    kind: 'picture-rail',
    surface: 'back',
    uMm: [-1556, 1556],
    vMm: [2080, 2130],
    along: 'v',
    out: 20,
  });
}

function board(): Trim {
  return band({
    name: 'window board',
    kind: 'window-board',
    surface: 'back',
    uMm: [-856, 856],
    vMm: [-256, 36],
    along: 'v',
    out: 30,
  });
}

function newel(): Trim {
  return band({
    name: 'newel',
    kind: 'newel',
    surface: 'right',
    uMm: [-60, 60],
    vMm: [-256, 1200],
    along: 'v',
    out: 90,
  });
}

function beam(): Trim {
  return band({
    name: 'beam',
    kind: 'beam',
    surface: 'slope',
    uMm: [-300, -150],
    vMm: [-296, 856],
    along: 'u',
    out: 120,
  });
}
