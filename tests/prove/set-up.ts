/**
 * The set-up proof: surveys with exactly one cause of a bad set-up planted. The set-up line is what plain arithmetic says,
 * the part of that cause tells all of it, and every other part is 0.
 *
 * Parts are rounded to 1/1024 mm each, so a part may be off by one such grain. What a short baseline does is told apart
 * from its marks to first order: there a slope squared over the opening's width is let pass.
 */
import { markSurvey } from '../../src/marking/report.ts';
import type { SetUpPart } from '../../src/marking/set-up-split.ts';
import { alcoveStructures } from '../../src/recess/families/alcove-structures.ts';
import { severities } from '../../src/recess/severity.ts';
import { codeOf, drawsOf } from './draws.ts';
import { groundOf } from './planted/ground.ts';
import { NotTaken } from './planted/hand.ts';
import type { PlainSize } from './planted/plain-room.ts';
import { type PlantedSetUp, type SetUpPlant, setUpPlants } from './planted/set-up-causes.ts';
import {
  type Case,
  count,
  counted,
  eachCase,
  fail,
  keep,
  most,
  type Proof,
  type Result,
  type Tally,
  table,
} from './proof.ts';

export const setUpProof: Proof = {
  name: 'set-up',
  says: 'one cause of a bad set-up planted a survey: its part tells all of the set-up line, every other part is 0',
  full: 2002,
  small: 42,
  prove: (share) => eachCase(share, proveSetUp),
  conclude,
};

const toleranceMm = 1 / 1024 + 2e-5;
const attempts = 40;

function proveSetUp(tally: Tally, at: Case): void {
  const plant = setUpPlants[at.index % setUpPlants.length] as SetUpPlant;
  for (let attempt = 0; attempt < attempts; attempt++) {
    const draws = drawsOf('set-up', at.seed, at.index, attempt);
    const code = codeOf(draws, {
      severity: draws.one(severities).name,
      structure: draws.one(alcoveStructures).name,
      kit: 'site',
    });
    const planted = taken(() => plant.plant(groundOf(draws, code), draws));
    if (!planted) continue;
    check(tally, at, { planted, plant, code });
    return;
  }
  fail(tally, at, `${plant.name}: found no room for it in ${attempts} tries`);
}

/** Null where a place could not be read for all that. */
function taken(plant: () => PlantedSetUp): PlantedSetUp | null {
  try {
    return plant();
  } catch (error) {
    if (error instanceof NotTaken) return null;
    throw error;
  }
}

function check(tally: Tally, at: Case, of: { planted: PlantedSetUp; plant: SetUpPlant; code: string }): void {
  const { planted, plant, code } = of;
  count(tally, plant.name);
  let told = 0;
  for (const ledger of markSurvey(planted.survey).marks?.ledgers ?? []) {
    const expected = planted.expected[ledger.size as PlainSize];
    if (!expected || ledger.how !== 'offsets') continue;
    const where = `${code}, ${plant.name}, ${ledger.size}`;
    const line = ledger.lines.find((l) => l.name === 'set-up');
    if (!line?.parts) {
      fail(tally, at, `${where}: the set-up line has no parts`);
      continue;
    }
    off(tally, at, { what: `${plant.name}: line`, where, seen: line.mm, wanted: expected.mm, slackMm: 0 });
    const slackMm = planted.slackMm ?? 0;
    for (const { cause, mm } of line.parts) {
      const wanted = cause === expected.cause ? expected.mm : 0;
      const what = cause === expected.cause ? `${plant.name}: its part` : `${plant.name}: other parts`;
      off(tally, at, { what, where: `${where}, ${cause}`, seen: mm, wanted, slackMm });
    }
    if (sumOf(line.parts) !== line.mm)
      fail(tally, at, `${where}: the parts add up to ${sumOf(line.parts)}, not ${line.mm}`);
    told = Math.max(told, Math.abs(expected.mm));
  }
  keep(tally, plant.name, told);
}

interface Off {
  readonly what: string;
  readonly where: string;
  readonly seen: number;
  readonly wanted: number;
  readonly slackMm: number;
}

function off(tally: Tally, at: Case, of: Off): void {
  const value = Math.abs(of.seen - of.wanted);
  most(tally, of.what, { value, where: of.where });
  // The rest takes up what rounding six parts leaves.
  const grains = of.where.endsWith('rest') ? 4 : 1;
  if (value > grains * toleranceMm + of.slackMm)
    fail(tally, at, `${of.where}: ${of.seen}, by plain arithmetic ${of.wanted}`);
}

function sumOf(parts: readonly SetUpPart[]): number {
  return parts.reduce((sum, p) => sum + p.mm, 0);
}

function conclude(tally: Tally): Result {
  const failures: string[] = [];
  const shown = (what: string) => tally.most[what]?.value.toFixed(4) ?? '-';
  const rows = setUpPlants.map(({ name, says }) => {
    const told = tally.series[name] ?? [];
    const speaks = told.filter((mm) => mm > 0.1).length;
    if (told.length >= 5 && speaks < told.length / 2)
      failures.push(`${name}: only ${speaks} of ${told.length} came to more than 0.1 mm, which shows too little`);
    const mean = told.reduce((sum, mm) => sum + mm, 0) / Math.max(1, told.length);
    return [
      name,
      says,
      String(counted(tally, name)),
      mean.toFixed(2),
      shown(`${name}: line`),
      shown(`${name}: its part`),
      shown(`${name}: other parts`),
    ];
  });
  return {
    lines: table([
      ['cause', 'what is planted', 'surveys', 'mean told, mm', 'line off by', 'its part off by', 'other parts off by'],
      ...rows,
    ]),
    failures,
  };
}
