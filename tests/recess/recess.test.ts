/**
 * The built recess: coordinates, reach, and what cannot be built.
 */
import { describe, expect, it } from 'vitest';
import {
  buildRecess,
  ownCoordinates,
  placeAt,
  placeOn,
  reachOf,
  trimsOn,
  withinReach,
} from '../../src/recess/recess.ts';
import { axesOf, type Defect, type Side, type Trim, trueOf } from '../../src/recess/recess-spec.ts';
import { surfaceAt } from '../helpers/measuring.ts';
import { alcoveSides, roomSpec } from '../helpers/rooms.ts';

const defects: readonly Defect[] = [
  { kind: 'lean', mm: 5 },
  { kind: 'taper', mm: 5 },
  { kind: 'skew', mm: 5 },
  { kind: 'fall', mm: 5, towards: 'left' },
  { kind: 'wind', mm: 5 },
  { kind: 'bow', mm: 5, crownV: 200 },
  { kind: 'hump', mm: 5, u: 100, v: 200, width: 300 },
  { kind: 'step', mm: 5, along: 'u', at: 100, width: 300 },
];
const homes: Partial<Record<Defect['kind'], readonly Side[]>> = {
  lean: ['left', 'right', 'back'],
  taper: ['left', 'right'],
  skew: ['back'],
  fall: ['floor', 'ceiling'],
};

describe('coordinates', () => {
  const recess = buildRecess(roomSpec({ wobbleMm: 1, defects: { right: [{ kind: 'lean', mm: 12 }] } }));

  it.each(alcoveSides)('a place on the %s and back', (side) => {
    const at = { u: 123, v: 245 };
    const place = placeOn(recess, side, at);
    const { u, v, across } = axesOf(side);
    expect([place[u], place[v]]).toEqual([123, 245]);
    expect(place[across]).toBeCloseTo(surfaceAt(recess, side, 123, 245), 9);
    const own = ownCoordinates(side, place);
    expect([own.u, own.v]).toEqual([123, 245]);
    expect(placeAt(side, own, own.obstruction)).toEqual(place);
    expect(trueOf(side, trueOf(side, 7))).toBe(7);
  });

  it('obstructions grow into the free space on every side', () => {
    const middle = { x: 0, y: 200, z: 1000 };
    for (const side of alcoveSides) {
      const own = ownCoordinates(side, middle);
      expect(own.obstruction).toBeGreaterThan(ownCoordinates(side, placeOn(recess, side, own)).obstruction + 190);
    }
  });
});

describe('reach', () => {
  const recess = buildRecess(roomSpec({ mouthMm: -60 }));

  it.each([
    ['left', { u0: -316, u1: 756, v0: -256, v1: 2656 }],
    ['right', { u0: -316, u1: 756, v0: -256, v1: 2656 }],
    ['back', { u0: -756, u1: 756, v0: -256, v1: 2656 }],
    ['floor', { u0: -756, u1: 756, v0: -316, v1: 756 }],
    ['ceiling', { u0: -756, u1: 756, v0: -316, v1: 756 }],
  ] as const)('of the %s, its border within', (side, rect) => {
    expect(reachOf(recess, side)).toEqual(rect);
    for (const u of [rect.u0, rect.u1])
      for (const v of [rect.v0, rect.v1]) {
        expect(withinReach(recess, side, { u, v })).toBe(true);
        expect(withinReach(recess, side, { u: u * 1.001, v })).toBe(false);
        expect(withinReach(recess, side, { u, v: v * 1.001 })).toBe(false);
      }
  });
});

describe('what cannot be built is refused with its place', () => {
  const cases = alcoveSides.flatMap((side) => defects.map((d) => [d.kind, side, d] as const));

  it.each(cases)('%s on the %s', (kind, side, d) => {
    const spec = roomSpec({ defects: { [side]: [{ kind: 'wind', mm: 1 }, d] } });
    if ((homes[kind] ?? alcoveSides).includes(side))
      expect(buildRecess(spec).fields[side].control.length).toBeGreaterThan(16);
    else
      expect(() => buildRecess(spec)).toThrow(
        new RangeError(`recess: surfaces.${side}.defects[1] cannot stand on the ${side}`),
      );
  });

  const band = (change: Partial<Trim>): Trim => ({
    name: 'rail',
    kind: 'skirting',
    surface: 'left',
    uMm: [0, 400],
    vMm: [0, 100],
    profile: {
      along: 'v',
      mm: [
        [0, 10],
        [100, 10],
      ],
    },
    ...change,
  });

  it.each([
    [
      'u the wrong way round',
      { uMm: [400, 0] as [number, number] },
      'trim rail must run from a smaller to a larger place',
    ],
    [
      'v the wrong way round',
      { vMm: [100, 0] as [number, number] },
      'trim rail must run from a smaller to a larger place',
    ],
    [
      'a profile that ends early',
      { vMm: [0, 120] as [number, number] },
      'the profile of trim rail must ascend from 0 to 120',
    ],
    [
      'a profile along the other way',
      {
        profile: {
          along: 'u' as const,
          mm: [
            [0, 10],
            [100, 10],
          ] as [number, number][],
        },
      },
      'the profile of trim rail must ascend from 0 to 400',
    ],
    [
      'a profile that goes back',
      {
        profile: {
          along: 'v' as const,
          mm: [
            [0, 10],
            [60, 5],
            [60, 4],
            [100, 10],
          ] as [number, number][],
        },
      },
      'the profile of trim rail must ascend from 0 to 100',
    ],
  ])('a band with %s', (_, change, says) => {
    expect(() => buildRecess(roomSpec({ trims: [band(change)] }))).toThrow(new RangeError(`recess: ${says}`));
  });

  it('bands are told by their side', () => {
    const trims = [band({}), band({ name: 'other', surface: 'back' })];
    const { spec } = buildRecess(roomSpec({ trims }));
    expect(trimsOn(spec, 'left').map((t) => t.name)).toEqual(['rail']);
    expect(trimsOn(spec, 'ceiling')).toEqual([]);
  });
});
