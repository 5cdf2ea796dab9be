/**
 * Drawn reveals, door openings, spaces under a stair and under a roof: sizes, structures, trims, references, and how far
 * two rooms of one exercise share the place that decides.
 */
import * as v from 'valibot';
import { describe, expect, it } from 'vitest';
import { nominalCarcass } from '../../../src/exercise/brief.ts';
import { openCode, seedCount, specOf, writeCode } from '../../../src/exercise/exercise-code.ts';
import { domainOf, domainSource } from '../../../src/marking/domain.ts';
import { siteOf } from '../../../src/marking/site.ts';
import { families, familyOf } from '../../../src/recess/families/families.ts';
import { buildRecess, type Place } from '../../../src/recess/recess.ts';
import { axesOf, familyNames, type RecessSpec, recessSpecSchema, type Side } from '../../../src/recess/recess-spec.ts';
import { severities } from '../../../src/recess/severity.ts';
import { type SizeName, sizesOf, toBeFound } from '../../../src/survey/size.ts';
import { drawsOf } from '../../prove/draws.ts';

const names = ['reveal', 'doorway', 'under-stair', 'roof-slope'] as const;

function drawnParts(family: string, count: number, severity?: string) {
  const draws = drawsOf('openings', family, count);
  const { structures } = familyOf(family);
  return Array.from({ length: count }, () => ({
    family,
    severity: severity ?? draws.one(severities).name,
    structure: draws.one(structures).name,
    seed: draws.pick(seedCount),
  }));
}

const bounds: Readonly<Record<(typeof names)[number], readonly (readonly [number, number])[]>> = {
  reveal: [
    [700, 1800],
    [900, 1500],
    [150, 350],
  ],
  doorway: [
    [700, 1000],
    [1950, 2150],
    [100, 250],
  ],
  'under-stair': [
    [1200, 2200],
    [900, 2260],
    [700, 1000],
  ],
  'roof-slope': [
    [1000, 2000],
    [1100, 2150],
    [450, 800],
  ],
};

describe('families', () => {
  it('stand in the order of their names, which codes point into', () => {
    const order = families.map((f) => familyNames.indexOf(f.name));
    expect(order).toEqual([...order].sort((a, b) => a - b));
  });
});

describe.each(names)('%s, 300 drawn', (family) => {
  const parts = drawnParts(family, 300);
  const specs = parts.map((p) => specOf(p));

  it('has at least four structures, with names and words of their own', () => {
    const { structures } = familyOf(family);
    expect(structures.length).toBeGreaterThanOrEqual(4);
    expect(structures.length).toBeLessThanOrEqual(13);
    expect(new Set(structures.map((s) => s.name)).size).toBe(structures.length);
    expect(new Set(structures.map((s) => s.says)).size).toBe(structures.length);
  });

  it('draws specs by the schema, the same through JSON and when drawn again', () => {
    specs.forEach((spec, i) => {
      expect(v.is(recessSpecSchema, spec)).toBe(true);
      expect(JSON.parse(JSON.stringify(spec))).toStrictEqual(spec);
      if (i % 20 === 0) expect(specOf(parts[i]!)).toStrictEqual(spec);
    });
  });

  it('has whole sizes within their bounds', () => {
    for (const { openingMm } of specs)
      [openingMm.width, openingMm.height, openingMm.depth].forEach((mm, i) => {
        const [from, to] = bounds[family][i]!;
        expect([mm % 10 === 0, mm >= from, mm <= to]).toEqual([true, true, true]);
      });
  });

  it('has trims and none, and follows more than one thing', () => {
    const bare = specs.filter((s) => s.trims.length === 0).length / specs.length;
    expect(bare).toBeGreaterThan(0.05);
    expect(bare).toBeLessThan(0.6);
    expect(new Set(specs.map((s) => s.reference.kind)).size).toBeGreaterThan(1);
  });

  it('has a brief whose nominal carcass goes in in all but a few rooms, and whose fates are of its trims', () => {
    let stuck = 0;
    for (const p of parts.slice(0, 120)) {
      const opened = openCode(writeCode({ ...p, kit: 'site' }));
      if (!opened.ok) throw new Error(opened.error.says);
      const { brief, spec } = opened.value;
      expect(Object.keys(brief.fates).sort()).toEqual(spec.trims.map((t) => t.name).sort());
      expect(JSON.parse(JSON.stringify(brief))).toStrictEqual(brief);
      const source = domainSource(siteOf(buildRecess(spec), opened.value));
      expect(source.nominal.carcass).toMatchObject(nominalCarcass(brief));
      if (Object.values(source.nominal.clear).some((c) => c.mm < 0)) stuck++;
    }
    expect(stuck).toBeLessThanOrEqual(2);
  });

  it('shares the place that decides in at most 40 % of 1000 pairs of one severity, whichever size', () => {
    const rooms = drawnParts(family, 46, 'old').map((p) => decided(specOf(p), writeCode({ ...p, kit: 'site' })));
    const shares = shared(rooms);
    for (const [size, share] of Object.entries(shares)) expect(share, size).toBeLessThanOrEqual(0.4);
  });
});

type Decided = Readonly<Partial<Record<SizeName, readonly { side: Side; at: Place }[]>>>;

function decided(spec: RecessSpec, code: string): Decided {
  const opened = openCode(code);
  if (!opened.ok) throw new Error(opened.error.says);
  const source = domainSource(siteOf(buildRecess(spec), opened.value));
  const { brief } = opened.value;
  const found = sizesOf(brief).filter((size) => toBeFound(size, brief));
  return Object.fromEntries(found.map((size) => [size, domainOf(source, size).decidedAt]));
}

/** Of all pairs of rooms that both have a size, how many have all its deciding places within 300 mm of each other. */
function shared(rooms: readonly Decided[]): Record<string, number> {
  const counts = new Map<string, [number, number]>();
  rooms.forEach((a, i) => {
    for (const b of rooms.slice(i + 1))
      for (const size of Object.keys(a) as SizeName[]) {
        const other = b[size];
        if (!other) continue;
        const [alike, all] = counts.get(size) ?? [0, 0];
        const near = a[size]!.every(({ side, at }) =>
          other.some((o) => {
            const { u, v: w } = axesOf(side);
            return o.side === side && (o.at[u] - at[u]) ** 2 + (o.at[w] - at[w]) ** 2 <= 300 ** 2;
          }),
        );
        counts.set(size, [alike + (near ? 1 : 0), all + 1]);
      }
  });
  return Object.fromEntries([...counts].map(([size, [alike, all]]) => [size, alike / all]));
}
