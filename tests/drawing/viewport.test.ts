/** The viewport: the one place where up in the room is turned into up on paper. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { fitted } from '../../src/drawing/viewport.ts';

const mm = fc.double({ min: -4000, max: 4000, noNaN: true });
const long = fc.double({ min: 50, max: 5000, noNaN: true });
const px = fc.double({ min: 20, max: 900, noNaN: true });

const viewports = fc
  .record({ a: mm, wide: long, b: mm, high: long, width: px, height: px })
  .map((s) =>
    fitted({ x: 7, y: 11, width: s.width, height: s.height }, { a: [s.a, s.a + s.wide], b: [s.b, s.b + s.high] }),
  );

test('up in the room is up on paper, right is right, at one scale', () => {
  fc.assert(
    fc.property(viewports, mm, mm, (port, a, b) => {
      const [x, y] = port.at(a, b);
      const [right, same] = port.at(a + 10, b);
      const [still, up] = port.at(a, b + 10);
      expect([same, still]).toEqual([y, x]);
      expect(right - x).toBeCloseTo(10 * port.scale, 6);
      expect(y - up).toBeCloseTo(10 * port.scale, 6);
      expect(port.scale).toBeGreaterThan(0);
    }),
  );
});

test('the extent fills its box, within the box that was given, touching one side of it at least', () => {
  fc.assert(
    fc.property(viewports, (port) => {
      const { a, b } = port.extent;
      const [x0, y1] = port.at(a[0], b[0]);
      const [x1, y0] = port.at(a[1], b[1]);
      const { box } = port;
      for (const [seen, told] of [
        [x0, box.x],
        [y0, box.y],
        [x1, box.x + box.width],
        [y1, box.y + box.height],
      ] as const)
        expect(seen).toBeCloseTo(told, 6);
      expect([box.x, box.y]).toEqual([7, 11]);
    }),
  );
});

test('what is under a px is what is drawn there', () => {
  fc.assert(
    fc.property(viewports, mm, mm, (port, a, b) => {
      const [x, y] = port.at(a, b);
      const [backA, backB] = port.under(x, y);
      expect(backA).toBeCloseTo(a, 5);
      expect(backB).toBeCloseTo(b, 5);
    }),
  );
});

test('nothing to show, or no room for it, is told', () => {
  const box = { x: 0, y: 0, width: 10, height: 10 };
  expect(() => fitted(box, { a: [0, 0], b: [0, 1] })).toThrow('viewport: nothing to show, 0 by 1 mm');
  expect(() => fitted({ ...box, height: -4 }, { a: [0, 1], b: [0, 1] })).toThrow('viewport: no room, 10 by -4 px');
});
