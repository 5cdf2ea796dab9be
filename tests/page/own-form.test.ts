/**
 * The form of a room of one's own, without a browser: what its boxes tell, what is refused, what hiding leaves.
 */
import { describe, expect, test } from 'vitest';
import { sayOwnRefusal } from '../../src/page/own/refusal-words.ts';
import { OwnForm } from '../../src/page/state/own-form.svelte.ts';

function begun(): OwnForm {
  const form = new OwnForm();
  form.surfaces.left.corners.topFront = 9;
  form.surfaces.left.corners.topBack = 9;
  form.addBad('right');
  form.skirting.there = true;
  return form;
}

describe('the form', () => {
  test('tells the room that its boxes hold, and the words follow', () => {
    const form = begun();
    expect(form.made.ok).toBe(true);
    expect(form.seen?.words).toContain('left wall: leans 9 in 2400 into the recess');
    expect(form.seen?.words).toContain('right wall: belly 5 at 1200 up, 200 in');
    form.surfaces.left.corners.topBack = 12;
    expect(form.seen?.words.join()).toContain('in wind, its top back corner 3 into the recess');
  });

  test('every kind has boxes for what is there, and is a room as it comes', () => {
    const form = begun();
    for (const [family, there] of [
      ['alcove', ['left', 'right', 'back', 'floor', 'ceiling']],
      ['under-stair', ['left', 'right', 'back', 'floor', 'slope']],
      ['roof-slope', ['left', 'right', 'back', 'floor', 'ceiling', 'slope']],
      ['plain-wall', ['back', 'floor', 'ceiling']],
      ['doorway', ['left', 'right', 'back', 'floor', 'ceiling']],
    ] as const) {
      form.take(family);
      expect(form.there).toEqual(there);
      expect(form.made.ok, family).toBe(true);
      expect(form.seen?.walls.flatMap((w) => w.acrossMm).every((x) => Math.abs(x) < 3000)).toBe(true);
    }
  });

  test('a slope is pictured by how far it is out, its plane taken off', () => {
    const form = begun();
    expect(form.seen?.others.some((c) => c.side === 'slope')).toBe(false);
    form.take('under-stair');
    form.surfaces.slope.corners.backLeft = 8;
    const curves = form.seen?.others.filter((c) => c.side === 'slope') ?? [];
    expect(curves.map((c) => c.atMm)[0]).toBe(0);
    const out = curves.map((c) => c.acrossMm.map((across) => c.straightMm - across));
    expect(Math.max(...(out[0] ?? []).map(Math.abs))).toBeLessThan(0.1);
    // Near the back, at the left end, nearly all of the 8.
    expect(out[1]?.[0]).toBeGreaterThan(7);
    expect(out[1]?.[0]).toBeLessThan(8);
    expect(Math.abs(out[1]?.at(-1) ?? 9)).toBeLessThan(0.1);
  });

  test('an empty box is no size, and is said by the name of its box', () => {
    const form = begun();
    form.opening.width = null;
    expect(form.made.ok ? '' : sayOwnRefusal(form.made.says)).toBe(
      'width: expected 400 to 5000, and the box is empty or has 0',
    );
    form.opening.width = 1200;
    const [belly] = form.surfaces.right.bad;
    if (belly) belly.mm = 1500;
    expect(form.made.ok ? '' : sayOwnRefusal(form.made.says)).toBe(
      'right wall, belly or hump 1: a belly of 1500 is larger than the room, which is 1200 wide',
    );
  });

  test('a table makes its surfaces, and says how near they come; a wrong one says why and changes nothing', () => {
    const form = begun();
    form.takeTable('surface,along,up,offset\nback,-400,300,2\nback,400,300,0\nback,0,2000,5\n');
    expect(form.tableSays).toEqual([expect.stringMatching(/^back: 3 places, the surface comes within 0\.0\d of each/)]);
    expect(form.seen?.words.join()).toContain('back wall: as measured');
    const before = JSON.stringify(form.room);
    form.takeTable('surface,along,up,offset\nbock,-400,300,2\n');
    expect(form.tableSays.join()).toContain('the nearest that is known is "back"');
    expect(JSON.stringify(form.room)).toBe(before);
  });

  test('hidden, the form holds nothing of the room, and the exercise is kept to hand out', () => {
    const form = begun();
    const made = form.made.ok ? form.made.value : null;
    form.hide();
    expect(form.hidden).toEqual(made);
    expect(form.room.surfaces).toEqual({});
    expect(form.seen?.words.filter((w) => w.endsWith(': true'))).toHaveLength(5);
  });
});
