/**
 * How far a carcass goes in, against plain sampling that knows only heights.
 */
import { describe, expect, test } from 'vitest';
import { nominalCarcass } from '../../src/exercise/brief.ts';
import { openCode, writeCode } from '../../src/exercise/exercise-code.ts';
import { findCarcass } from '../../src/marking/answer-key.ts';
import { pushIn } from '../../src/marking/push-in.ts';
import { siteOf } from '../../src/marking/site.ts';
import { obstructionAt } from '../../src/recess/band.ts';
import { alcoveStructures } from '../../src/recess/families/alcove-structures.ts';
import { buildRecess } from '../../src/recess/recess.ts';

const rooms = alcoveStructures.flatMap((s, i) =>
  ['settled', 'stone'].map((severity, j) => {
    const opened = openCode(
      writeCode({ family: 'alcove', severity, structure: s.name, kit: 'site', seed: 500 + 10 * i + j }),
    );
    if (!opened.ok) throw new Error(opened.error.says);
    const exercise = opened.value;
    const site = siteOf(buildRecess(exercise.spec), exercise);
    const nominal = nominalCarcass(exercise.brief);
    const found = findCarcass(site, nominal);
    if (!found) throw new Error('outside');
    return { name: `${s.name}, ${severity}`, site, nominal, found, mouth: exercise.brief.mouthMm };
  }),
);

describe.each(rooms)('$name', ({ site, nominal, found, mouth }) => {
  test('the nominal carcass goes home', () => {
    expect(pushIn(site, nominal)).toMatchObject({ shortMm: 0, stoppedBy: null });
  });

  test('one that is too deep stops at the back wall, as far short as it is too deep', () => {
    const over = found.clear.back.mm + 7;
    const pushed = pushIn(site, { ...nominal, depthMm: nominal.depthMm + over });
    expect(pushed?.stoppedBy?.side).toBe('back');
    // Deeper in, the floor's high point may rise and the footprint shift a little: a tenth is allowed for that.
    expect(Math.abs((pushed?.shortMm ?? 0) - 7)).toBeLessThan(0.6);
  });

  test('one that is too wide stops where the walls, sampled every 4 mm, have closed to its width', () => {
    const { carcass, walls } = found;
    const widthMm = walls.betweenMm + 1.5;
    const pushed = pushIn(site, { ...nominal, widthMm });
    expect(pushed?.stoppedBy?.side).toBe('left and right');
    let stop = carcass.backMm;
    let left = -1e9;
    let right = -1e9;
    for (let y = mouth; y <= carcass.backMm; y += 2) {
      for (let z = carcass.bottomMm; z <= carcass.topMm; z += 4) {
        left = Math.max(left, obstructionAt(site.recess.fields.left, site.staying.left, { u: y, v: z }));
        right = Math.max(right, obstructionAt(site.recess.fields.right, site.staying.right, { u: y, v: z }));
      }
      if (0 - right - left < widthMm) {
        stop = y;
        break;
      }
    }
    // The walls close slowly, so a hundredth across is worth some millimetres in.
    expect(Math.abs((pushed?.backMm ?? 0) - stop)).toBeLessThan(stop === mouth ? 0.1 : 12);
  });
});
