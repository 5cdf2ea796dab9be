import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { ownExercise } from '../../../src/exercise/own/own-exercise.ts';
import type { OwnRoom, OwnSurface } from '../../../src/exercise/own/own-room.ts';
import { cornerNames } from '../../../src/exercise/own/own-surfaces.ts';
import { answerKey, findCarcass } from '../../../src/marking/answer-key.ts';
import { clearSides } from '../../../src/marking/carcass-fit.ts';
import { siteOf } from '../../../src/marking/site.ts';
import { cornersOf } from '../../../src/recess/corner-offsets.ts';
import { buildRecess } from '../../../src/recess/recess.ts';
import { familyNames, type Side } from '../../../src/recess/recess-spec.ts';
import { sayRecess } from '../../../src/recess/trade-words.ts';

const seed = 90_133;
const alcove: OwnRoom = { format: 'offtrue-room', version: 1, family: 'alcove' };

function made(room: OwnRoom) {
  const result = ownExercise(room);
  if (!result.ok) throw new Error(`${result.error.field}: ${result.error.says}`);
  return result.value;
}

describe('a room of one’s own', () => {
  test.each(familyNames.filter((name) => name !== 'alcove-pair'))(
    '%s: its name alone is an exercise with a key',
    (family) => {
      const exercise = made({ ...alcove, family });
      expect(exercise.code).toBeNull();
      expect(exercise.spec.family).toBe(family);
      const key = answerKey(buildRecess(exercise.spec), exercise);
      expect(key.ok).toBe(true);
    },
  );

  test('the nominal carcass goes in, with what is asked all round, however bad the walls', () => {
    const mm = fc.integer({ min: -25, max: 25 });
    fc.assert(
      fc.property(fc.tuple(mm, mm, mm, mm, mm, mm, mm, mm), fc.boolean(), ([a, b, c, d, e, f, g, h], trimmed) => {
        const exercise = made({
          ...alcove,
          surfaces: {
            left: { cornersMm: { topFront: a, bottomBack: b }, bad: [{ is: 'belly', mm: Math.abs(c), upMm: 900 }] },
            right: {
              bad: [
                { is: 'lean', mm: d },
                { is: 'taper', mm: e },
              ].filter((x) => x.mm !== 0) as [],
            },
            back: { bad: [{ is: 'wind', mm: f }] },
            floor: { bad: [{ is: 'fall', mm: Math.abs(g), towards: 'left' }] },
            ceiling: { bad: [{ is: 'hump', mm: Math.abs(h), rightMm: 100, inMm: 200, wideMm: 500 }], unevenMm: 1 },
          },
          ...(trimmed
            ? {
                trims: [
                  { kind: 'skirting', tallMm: 145, thickMm: 18 },
                  { kind: 'cornice', dropMm: 90, outMm: 130 },
                ],
              }
            : {}),
        });
        const site = siteOf(buildRecess(exercise.spec), exercise);
        const { carcassMm, askMm } = exercise.brief;
        const found = findCarcass(site, {
          widthMm: carcassMm.width.nominalMm,
          heightMm: carcassMm.height.nominalMm,
          depthMm: carcassMm.depth.nominalMm,
        });
        for (const side of clearSides) expect(found?.clear[side].mm).toBeGreaterThanOrEqual(askMm[side]);
      }),
      { seed, numRuns: 60 },
    );
  });

  test.each(['left', 'right', 'back', 'floor', 'ceiling'] as const)(
    'the %s has its corners where they are told, bellies, humps and unevenness or not',
    (side: Side) => {
      const mm = fc.integer({ min: -320, max: 320 }).map((n) => n / 16);
      fc.assert(
        fc.property(fc.tuple(mm, mm, mm, mm), fc.integer({ min: 1, max: 12 }), (told, size) => {
          const cornersMm = Object.fromEntries(cornerNames(side).map((name, i) => [name, told[i]]));
          const wall = side === 'left' || side === 'right';
          const place = wall
            ? { upMm: 900, inMm: 100 }
            : side === 'back'
              ? { upMm: 900, rightMm: 99 }
              : { inMm: 99, rightMm: 9 };
          const surface: OwnSurface = {
            cornersMm,
            unevenMm: 1.5,
            bad: [
              { is: 'belly', mm: size, ...place },
              { is: 'dip', mm: size, wideMm: 600, ...place },
            ],
          };
          const has = cornersOf(buildRecess(made({ ...alcove, surfaces: { [side]: surface } }).spec), side);
          // Two roundings of the control values to 1/1024: one where the corners are measured, one where they are put.
          for (const [i, got] of [has.near, has.u, has.v, has.both].entries())
            expect(Math.abs(got - (told[i] ?? 0))).toBeLessThan(1.5 / 1024);
        }),
        { seed, numRuns: 30 },
      );
    },
  );

  test('trade words come out as they went in', () => {
    const { spec } = made({
      ...alcove,
      surfaces: {
        left: {
          bad: [
            { is: 'lean', mm: 9 },
            { is: 'hollow', mm: 4, upMm: 1150 },
          ],
        },
        floor: {
          bad: [
            { is: 'fall', mm: 8, towards: 'left' },
            { is: 'step', mm: 3, beyond: 'right', atMm: 50 },
          ],
        },
      },
    });
    const said = sayRecess(spec);
    expect(said).toContain('left wall: leans 9 in 2400 into the recess, hollow 4 at 1150 up');
    expect(said).toContain('floor: falls 8 towards the left, steps 3 into the recess right of 50 right of the middle');
  });

  test('another seed draws another unevenness, the same seed the same', () => {
    const rough = (n: number) => made({ ...alcove, seed: n, surfaces: { left: { unevenMm: 2 } } });
    const heights = (n: number) => [...buildRecess(rough(n).spec).fields.left.control];
    expect(heights(1)).toEqual(heights(1));
    expect(heights(1)).not.toEqual(heights(2));
  });

  test('the reference wavers as far as it is told', () => {
    for (const waverMm of [0, 2.5]) {
      const { wavesMm } = made({ ...alcove, reference: { kind: 'cornice-return', waverMm } }).spec.reference;
      expect(Math.max(...wavesMm.map(Math.abs))).toBeCloseTo(waverMm, 2);
    }
  });

  test('trims stand where they are told, on what is there', () => {
    const { spec, brief } = made({
      ...alcove,
      trims: [
        { kind: 'skirting', tallMm: 120, thickMm: 18, on: ['left', 'back'] },
        { kind: 'socket-box', on: 'left', alongMm: [100, 190], upMm: [400, 490], outMm: 12 },
        { kind: 'socket-box', on: 'left', alongMm: [250, 340], upMm: [400, 490], outMm: 12, fate: 'cut' },
        { kind: 'picture-rail', upMm: 1900, tallMm: 45, thickMm: 20 },
        { kind: 'beam', runs: 'side-to-side', fromMm: 100, toMm: 220, dropMm: 150 },
      ],
    });
    expect(brief.fates).toEqual({
      'skirting left': 'stays',
      'skirting back': 'stays',
      'socket-box left': 'stays',
      'socket-box left 2': 'cut',
      'picture-rail left': 'off',
      'picture-rail right': 'off',
      'picture-rail back': 'off',
      beam: 'stays',
    });
    expect(brief.carcassMm.height.nominalMm).toBeLessThanOrEqual(2400 - 150 - 100);
    expect(spec.trims.map((t) => t.name)).toEqual(Object.keys(brief.fates));
  });

  test.each<[string, Partial<OwnRoom>, RegExp]>([
    [
      'own/bad',
      { surfaces: { left: { bad: [{ is: 'belly', mm: 1300, upMm: 900 }] } } },
      /larger than the room, which is 1200 wide/,
    ],
    [
      'own/bad',
      { surfaces: { back: { bad: [{ is: 'belly', mm: 400, upMm: 900 }] } } },
      /larger than the room, which is 400 deep/,
    ],
    [
      'own/bad',
      { surfaces: { back: { bad: [{ is: 'taper', mm: 4 }] } } },
      /a back has no taper; it may have lean, skew/,
    ],
    ['own/bad', { surfaces: { left: { bad: [{ is: 'belly', mm: 4 }] } } }, /where its crown is/],
    ['own/bad', { surfaces: { left: { bad: [{ is: 'hump', mm: 4, wideMm: 400, upMm: 300 }] } } }, /by inMm and upMm/],
    [
      'own/bad',
      { surfaces: { left: { bad: [{ is: 'belly', mm: 4, rightMm: 40 }] } } },
      /has inMm and upMm, no rightMm/,
    ],
    ['own/bad', { surfaces: { left: { bad: [{ is: 'belly', mm: 4, upMm: 2500 }] } } }, /expected 0 to 2400, got 2500/],
    [
      'own/bad',
      { surfaces: { left: { bad: [{ is: 'step', mm: 4, beyond: 'right', atMm: 40 }] } } },
      /steps beyond a place in or up/,
    ],
    [
      'own/corner',
      { surfaces: { left: { cornersMm: { topLeft: 4 } } } },
      /bottomFront, bottomBack, topFront, topBack, got topLeft/,
    ],
    [
      'own/corner',
      { surfaces: { left: { cornersMm: {}, bad: [{ is: 'lean', mm: 4 }] } } },
      /leave out one or the other/,
    ],
    ['own/surface', { open: ['ceiling'], surfaces: { ceiling: {} } }, /got one that is open/],
    [
      'own/space',
      { surfaces: { left: { bad: [{ is: 'belly', mm: 260, upMm: 900 }] } } },
      /within 200 of its straight outline/,
    ],
    [
      'own/trim',
      { trims: [{ kind: 'beam', runs: 'in', fromMm: 90, toMm: 40, dropMm: 100 }] },
      /a smaller place and then a larger/,
    ],
    [
      'own/trim',
      { open: ['back'], trims: [{ kind: 'skirting', on: ['back'], tallMm: 90, thickMm: 18 }] },
      /the back is open/,
    ],
    [
      'own/brief',
      { trims: [{ kind: 'skirting', tallMm: 105, thickMm: 18 }], brief: { plinthMm: 100 } },
      /15 or more from the edge of skirting left/,
    ],
    ['own/brief', { brief: { carcassMm: { width: 1201 } } }, /the opening's 1200, got 1201/],
    ['own/brief', { open: ['left'], brief: { frame: true } }, /one of them is open/],
    ['own/brief', { open: ['left'], brief: { find: ['width'] } }, /width cannot be found/],
    ['own/family', { openingMm: { width: 1200, height: 3400, depth: 400 } }, /expected 400 to 3200, got 3400/],
    ['own/family', { family: 'alcove-pair' }, /make each of them an alcove/],
    ['own/family', { open: ['right'] }, /the breast stands on the right/],
    ['own/family', { slope: { low: 'left', lowMm: 50, riseMmPerM: 500 } }, /lowMm 100 to 3000/],
  ])('%s: %j is refused with the reason', (code, more, says) => {
    const result = ownExercise({ ...alcove, ...more });
    expect(result).toMatchObject({ ok: false, error: { code } });
    if (!result.ok) expect(result.error.says).toMatch(says);
  });
});
