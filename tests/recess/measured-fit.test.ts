import { describe, expect, test } from 'vitest';
import { splineWeights } from '../../src/recess/measured.ts';
import { fitMeasured } from '../../src/recess/measured-fit.ts';
import type { Measured } from '../../src/recess/recess-spec.ts';

const span = { u: [0, 400], v: [0, 2400] } as const;

function at(net: Measured, u: number, v: number): number {
  const inU = splineWeights(net.uMm, u);
  const inV = splineWeights(net.vMm, v);
  return net.mm.reduce((sum, row, j) => sum + row.reduce((s, mm, i) => s + mm * (inU[i] ?? 0) * (inV[j] ?? 0), 0), 0);
}

describe('a net through readings', () => {
  test('of a full net is that net', () => {
    const mm = [
      [0, 1],
      [4, 6],
      [2, -1],
    ];
    const readings = [300, 1200, 2100].flatMap((v, j) => [20, 380].map((u, i) => ({ u, v, mm: mm[j]?.[i] ?? 0 })));
    const net = fitMeasured(readings, span);
    expect([net.uMm, net.vMm]).toEqual([
      [20, 380],
      [300, 1200, 2100],
    ]);
    for (const [j, row] of net.mm.entries())
      for (const [i, got] of row.entries()) expect(got).toBeCloseTo(mm[j]?.[i] ?? 0, 2);
  });

  test('where none was read it bends least: a plane with a corner unread is that plane', () => {
    const plane = (u: number, v: number) => 2 + u / 100 - v / 400;
    const places = [20, 200, 380].flatMap((u) => [300, 1200, 2100].map((v) => ({ u, v, mm: plane(u, v) })));
    const net = fitMeasured(places.slice(0, -1), span);
    expect(at(net, 380, 2100)).toBeCloseTo(plane(380, 2100), 1);
  });

  test('a single row holds all along', () => {
    const net = fitMeasured(
      [
        { u: 0, v: 1200, mm: 2 },
        { u: 200, v: 1200, mm: 5 },
        { u: 400, v: 1200, mm: 3 },
      ],
      span,
    );
    expect(net.vMm).toEqual([0, 2400]);
    for (const v of [0, 700, 2400]) expect(at(net, 200, v)).toBeCloseTo(5, 2);
  });

  test('two readings of one place are met half-way', () => {
    const net = fitMeasured(
      [
        { u: 0, v: 0, mm: 2 },
        { u: 0, v: 0, mm: 4 },
        { u: 400, v: 0, mm: 3 },
        { u: 0, v: 2400, mm: 3 },
      ],
      span,
    );
    expect(at(net, 0, 0)).toBeCloseTo(3, 2);
  });

  test('more places than a net has are drawn together, and none is lost sight of', () => {
    const readings = Array.from({ length: 60 }, (_, i) => ({ u: 200, v: i * 40, mm: Math.sin(i / 8) * 5 }));
    const net = fitMeasured(readings, span);
    expect(net.vMm.length).toBeLessThanOrEqual(24);
    for (const r of readings) expect(Math.abs(at(net, r.u, r.v) - r.mm)).toBeLessThan(0.5);
  });
});
