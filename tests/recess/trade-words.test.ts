/**
 * A room in trade words: the right side, the right size, the right way, for every kind of defect on every side that has it.
 */
import { describe, expect, it } from 'vitest';
import type { Exercise } from '../../src/exercise/exercise.ts';
import { openCode, writeCode } from '../../src/exercise/exercise-code.ts';
import { familyOf } from '../../src/recess/families/families.ts';
import type { Defect, Side, Trim } from '../../src/recess/recess-spec.ts';
import { sayRecess } from '../../src/recess/trade-words.ts';
import { drawnParts, exerciseOf, inventedSeverities, roomSpec } from '../helpers/rooms.ts';

const wall = ['left', 'right', 'back'] as const;
const flats = ['floor', 'ceiling'] as const;
const line = (side: Side, ...defects: Defect[]) => {
  const said = sayRecess(roomSpec({ defects: { [side]: defects } })).filter((l) => l.startsWith(side));
  expect(said).toHaveLength(1);
  return said[0]!;
};
const named = (side: Side) => (side === 'floor' || side === 'ceiling' ? side : `${side} wall`);

describe('each kind, in and out', () => {
  it.each(wall)('lean of the %s', (side) => {
    expect(line(side, { kind: 'lean', mm: 9 })).toBe(`${side} wall: leans 9 in 2400 into the recess`);
    expect(line(side, { kind: 'lean', mm: -4.5 })).toBe(`${side} wall: leans 4.5 in 2400 out of the recess`);
  });

  it.each(['left', 'right'] as const)('taper of the %s', (side) => {
    expect(line(side, { kind: 'taper', mm: 6 })).toBe(`${side} wall: closes in 6 in 500 to the back`);
    expect(line(side, { kind: 'taper', mm: -6 })).toBe(`${side} wall: opens out 6 in 500 to the back`);
  });

  it('skew of the back', () => {
    expect(line('back', { kind: 'skew', mm: 7 })).toBe('back wall: 7 in 1000 out of square, the right end nearer');
    expect(line('back', { kind: 'skew', mm: -7 })).toBe('back wall: 7 in 1000 out of square, the left end nearer');
  });

  it.each(flats)('fall of the %s, each way', (side) => {
    const across = { left: 'right', right: 'left', front: 'back', back: 'front' } as const;
    for (const towards of ['left', 'right', 'front', 'back'] as const) {
      expect(line(side, { kind: 'fall', mm: 5, towards })).toBe(`${side}: falls 5 towards the ${towards}`);
      expect(line(side, { kind: 'fall', mm: -5, towards })).toBe(`${side}: falls 5 towards the ${across[towards]}`);
    }
  });

  it.each([
    ['left', 'top back'],
    ['right', 'top back'],
    ['back', 'top right'],
    ['floor', 'back right'],
    ['ceiling', 'back right'],
  ] as const)('wind of the %s: its %s corner', (side, corner) => {
    expect(line(side, { kind: 'wind', mm: 8 })).toBe(`${named(side)}: in wind, its ${corner} corner 8 into the recess`);
    expect(line(side, { kind: 'wind', mm: -8 })).toBe(
      `${named(side)}: in wind, its ${corner} corner 8 out of the recess`,
    );
  });

  it.each([
    ['left', 'at 900 up, 210 in'],
    ['right', 'at 900 up, 210 in'],
    ['back', 'at 900 up, 210 right of the middle'],
    ['floor', 'at 900 in, 210 right of the middle'],
    ['ceiling', 'at 900 in, 210 right of the middle'],
  ] as const)('belly and hollow of the %s', (side, at) => {
    expect(line(side, { kind: 'bow', mm: 5, crownU: 210, crownV: 900 })).toBe(`${named(side)}: belly 5 ${at}`);
    expect(line(side, { kind: 'bow', mm: -5, crownU: 210, crownV: 900 })).toBe(`${named(side)}: hollow 5 ${at}`);
    expect(line(side, { kind: 'bow', mm: 5 })).toBe(`${named(side)}: belly 5 all over`);
  });

  it.each([
    ['left', 'at 300 up, 420 in'],
    ['right', 'at 300 up, 420 in'],
    ['back', 'at 300 up, 420 right of the middle'],
    ['floor', 'at 300 in, 420 right of the middle'],
    ['ceiling', 'at 300 in, 420 right of the middle'],
  ] as const)('hump and dip of the %s', (side, at) => {
    const d = { kind: 'hump', u: 420, v: 300, width: 600 } as const;
    expect(line(side, { ...d, mm: 6 })).toBe(`${named(side)}: hump 6, about 600 wide, ${at}`);
    expect(line(side, { ...d, mm: -6 })).toBe(`${named(side)}: dip 6, about 600 wide, ${at}`);
  });

  it.each([
    ['left', 'u', 'beyond 200 in'],
    ['left', 'v', 'above 200 up'],
    ['right', 'v', 'above 200 up'],
    ['back', 'u', 'right of 200 right of the middle'],
    ['back', 'v', 'above 200 up'],
    ['floor', 'u', 'right of 200 right of the middle'],
    ['floor', 'v', 'beyond 200 in'],
    ['ceiling', 'v', 'beyond 200 in'],
  ] as const)('step of the %s along %s', (side, along, where) => {
    const d = { kind: 'step', along, at: 200, width: 300 } as const;
    expect(line(side, { ...d, mm: 6 })).toBe(`${named(side)}: steps 6 into the recess ${where}`);
    expect(line(side, { ...d, mm: -6 })).toBe(`${named(side)}: steps 6 out of the recess ${where}`);
  });

  it('left of the middle, and the middle', () => {
    expect(line('back', { kind: 'bow', mm: 5, crownU: -210 })).toBe('back wall: belly 5 at 210 left of the middle');
    expect(line('back', { kind: 'bow', mm: 5, crownU: 0.2 })).toBe('back wall: belly 5 at the middle');
  });
});

describe('a surface with several', () => {
  it('alike ones are said once, added up; what rounds to nothing is not said', () => {
    expect(line('left', { kind: 'lean', mm: 3 }, { kind: 'taper', mm: 0.2 }, { kind: 'lean', mm: 2.5 })).toBe(
      'left wall: leans 5.5 in 2400 into the recess',
    );
    expect(line('left', { kind: 'lean', mm: 3 }, { kind: 'lean', mm: -3 })).toBe('left wall: true');
  });

  it('roughness is said from half a millimetre', () => {
    const said = (wobbleMm: number) => sayRecess(roomSpec({ wobbleMm }))[2];
    expect(said(1)).toBe('left wall: uneven by up to 1');
    expect(said(0.4)).toBe('left wall: true');
  });
});

describe('the room, its trims, its reference', () => {
  const trims: Trim[] = [
    {
      name: 'skirting back',
      kind: 'skirting',
      surface: 'back',
      uMm: [-500, 500],
      vMm: [0, 145],
      profile: {
        along: 'v',
        mm: [
          [0, 18],
          [145, 9],
        ],
      },
    },
    {
      name: 'cornice back',
      kind: 'cornice',
      surface: 'ceiling',
      uMm: [-500, 500],
      vMm: [350, 600],
      profile: {
        along: 'v',
        mm: [
          [350, 10],
          [600, 90],
        ],
      },
    },
  ];

  it('are said with their sizes', () => {
    const spec = roomSpec({ trims, mouthMm: -35, breastSide: 'left', wavesMm: [0.2, -1.4, 0, 0, 0, 0, 1] });
    const said = sayRecess(spec);
    expect(said[0]).toBe(
      'an alcove about 1000 wide, 2400 high, 500 deep; the breast is on the left, the party wall on the right',
    );
    expect(said[1]).toBe("the breast's face stands 35 in front of the face line");
    expect(said.slice(2, 7)).toEqual([
      'left wall: true',
      'right wall: true',
      'back wall: true',
      'floor: true',
      'ceiling: true',
    ]);
    expect(said.slice(7)).toEqual([
      'skirting back: 145 tall, 18 thick',
      'cornice back: drops 90 below the ceiling',
      'cornice return: wavers up to 1.5 either way',
    ]);
  });

  it('of 60 drawn rooms, seed "words": every defect of half a millimetre or more is told by its size', () => {
    for (const parts of drawnParts('words', 60)) {
      const { spec } = exerciseOf(parts);
      const said = sayRecess(spec);
      // One line more where it is drawn inside a document's limits.
      const kept = inventedSeverities.some((s) => s.name === spec.severity) ? 0 : 1;
      expect(said).toHaveLength(8 + kept + spec.trims.length);
      for (const side of ['left', 'right', 'back', 'floor', 'ceiling'] as const) {
        const words = said.find((l) => l.startsWith(named(side)))!;
        const kinds = spec.surfaces[side]!.defects.filter(
          (d) => d.kind === 'hump' || d.kind === 'step' || d.kind === 'wind' || d.kind === 'skew',
        );
        for (const d of kinds) {
          const alike = kinds.filter((k) => JSON.stringify({ ...k, mm: 0 }) === JSON.stringify({ ...d, mm: 0 }));
          const size = Math.round(2 * Math.abs(alike.reduce((sum, k) => sum + k.mm, 0))) / 2;
          if (size > 0) expect(words).toMatch(new RegExp(`(^|[ ,])${String(size).replace('.', '\\.')}([ ,]|$)`));
        }
      }
    }
  });
});

describe('sides by the kind of recess', () => {
  it("are a reveal's jambs, head, window and bed", () => {
    const { spec } = drawnOf('reveal');
    const said = sayRecess(spec).map((l) => l.split(':')[0]);
    expect(said).toEqual(expect.arrayContaining(['left jamb', 'right jamb', 'window', 'bed of the board', 'head']));
  });

  it('are left out where they are open', () => {
    const { spec } = drawnOf('plain-wall');
    const said = sayRecess(spec).map((l) => l.split(':')[0]);
    expect(said).toEqual(expect.arrayContaining(['wall', 'floor', 'ceiling']));
    expect(said).not.toEqual(expect.arrayContaining(['left wall']));
  });
});

function drawnOf(family: string): Exercise {
  const structure = familyOf(family).structures[0]!.name;
  const opened = openCode(writeCode({ family, severity: 'old', structure, kit: 'site', seed: 7 }));
  if (!opened.ok) throw new Error(opened.error.says);
  return opened.value;
}
