/**
 * Deciding places: over pairs of codes of one exercise, how often a size of two rooms is decided at the same place. It may be
 * at most two in five, or a learner could know where to read without looking.
 *
 * The same place: on each surface that the size is between, no further apart than 300 mm. How often each surface alone has
 * it is told, too: the floor along the face line of a door is but 900 mm long. The limit is our own, no source.
 */
import { baysOf } from '../../src/exercise/bays.ts';
import { openCode, seedCount, writeCode } from '../../src/exercise/exercise-code.ts';
import { domainOf, domainSource } from '../../src/marking/domain.ts';
import { siteOf } from '../../src/marking/site.ts';
import { families } from '../../src/recess/families/families.ts';
import { buildRecess } from '../../src/recess/recess.ts';
import { severities } from '../../src/recess/severity.ts';
import { sizesOf, toBeFound } from '../../src/survey/size.ts';
import { type Draws, drawsOf } from './draws.ts';
import { type Case, count, counted, eachCase, type Proof, percent, type Result, type Tally, table } from './proof.ts';

export const decidingProof: Proof = {
  name: 'deciding',
  says: 'of pairs of codes of one exercise, at most 40 of 100 share the place that decides a size',
  full: 1000 * families.length,
  small: 60 * families.length,
  prove: (share) => eachCase(share, proveDeciding),
  conclude,
};

const samePlaceMm = 300;
const mostShare = 0.4;
/** With fewer pairs than this, a share says nothing. */
const fewPairs = 30;

interface Point {
  readonly x: number;
  readonly y: number;
  readonly z: number;
}

/** The deciding places of a room, by size and then by surface. */
type Deciding = ReadonlyMap<string, ReadonlyMap<string, Point>>;

/** A pair of codes that differ in structure and seed alone. */
function proveDeciding(tally: Tally, at: Case): void {
  const draws = drawsOf('deciding', at.seed, at.index);
  const family = families[at.index % families.length];
  if (!family) throw new RangeError('deciding: there is no family');
  const severity = draws.one(severities).name;
  const [one, other] = [0, 1].map(() => decidingOf(draws, family.name, severity)) as [Deciding, Deciding];
  for (const [size, places] of one) {
    const there = other.get(size);
    if (!there) continue;
    const what = `${family.name}, ${size}`;
    const same = [...places].map(([side, place]) => {
      const its = there.get(side);
      const shared = its !== undefined && apart(place, its) <= samePlaceMm;
      count(tally, `of ${what}, ${side}`);
      if (shared) count(tally, `same ${what}, ${side}`);
      return shared;
    });
    count(tally, `pairs ${what}`);
    if (same.every((s) => s)) count(tally, `same ${what}`);
  }
}

function decidingOf(draws: Draws, family: string, severity: string): Deciding {
  const structure = draws.one(families.find((f) => f.name === family)?.structures ?? []).name;
  const opened = openCode(writeCode({ family, severity, structure, kit: 'site', seed: draws.pick(seedCount) }));
  if (!opened.ok) throw new Error(opened.error.says);
  const [bay] = baysOf(opened.value);
  if (!bay) throw new Error('deciding: an exercise without a recess');
  const { exercise } = bay;
  const source = domainSource(siteOf(buildRecess(exercise.spec), exercise));
  const sizes = sizesOf(exercise.brief).filter((size) => toBeFound(size, exercise.brief));
  return new Map(
    sizes.map((size) => [size, new Map(domainOf(source, size).decidedAt.map(({ side, at }) => [side, at]))]),
  );
}

function apart(a: Point, b: Point): number {
  const [x, y, z] = [a.x - b.x, a.y - b.y, a.z - b.z];
  return Math.sqrt(x * x + y * y + z * z);
}

function conclude(tally: Tally): Result {
  const failures: string[] = [];
  const rows = Object.entries(tally.counts)
    .filter(([what]) => what.startsWith('pairs '))
    .map(([name, pairs]) => {
      const what = name.slice('pairs '.length);
      const same = counted(tally, `same ${what}`);
      if (pairs >= fewPairs && same > mostShare * pairs)
        failures.push(`${what}: ${same} of ${pairs} pairs are decided at one place`);
      const alone = Object.entries(tally.counts)
        .filter(([of]) => of.startsWith(`of ${what}, `))
        .map(
          ([of, all]) => `${of.slice(`of ${what}, `.length)} ${percent(counted(tally, `same ${of.slice(3)}`), all)}`,
        );
      return [what, String(pairs), percent(same, pairs), alone.join(', ')];
    })
    .sort((a, b) => ((a[0] ?? '') < (b[0] ?? '') ? -1 : 1));
  return { lines: table([['size', 'pairs', 'share the place', 'surface by surface'], ...rows]), failures };
}
