/**
 * The set-up proof in recesses of other kinds: with one cause planted, that cause's part and the places' own tell all of the
 * set-up line, and every other part is 0; with none, every one is. The lines that the readings were taken from are held
 * against plain arithmetic as they are read.
 */
import { openCode, seedCount, writeCode } from '../../src/exercise/exercise-code.ts';
import { markSurvey } from '../../src/marking/report.ts';
import { familyOf } from '../../src/recess/families/families.ts';
import { severities } from '../../src/recess/severity.ts';
import { drawsOf } from './draws.ts';
import { type FamilyPlant, familyPlants, surveyPlanted } from './planted/family-causes.ts';
import { NotTaken } from './planted/hand.ts';
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

export const setUpFamilies = ['alcove-pair', 'doorway', 'reveal'] as const;

export const setUpFamiliesProof: Proof = {
  name: 'set-up-families',
  says: 'one cause of a bad set-up planted in pairs, doorways and reveals: its part tells all of the set-up line, every other part is 0',
  full: 2016,
  small: 9,
  prove: (share) => eachCase(share, proveFamily),
  conclude,
};

/** Parts are rounded to 1/1024 mm each, and the rest takes up what rounding eight of them leaves. */
const toleranceMm = 1 / 1024 + 2e-5;
const restGrains = 5;
const attempts = 20;

function proveFamily(tally: Tally, at: Case): void {
  const family = setUpFamilies[at.index % setUpFamilies.length] ?? 'doorway';
  const plant = familyPlants[Math.floor(at.index / setUpFamilies.length) % familyPlants.length] as FamilyPlant;
  for (let attempt = 0; attempt < attempts; attempt++) {
    const draws = drawsOf('set-up-families', at.seed, at.index, attempt);
    const code = writeCode({
      family,
      severity: draws.one(severities).name,
      structure: draws.one(familyOf(family)?.structures ?? []).name,
      kit: 'site',
      seed: draws.pick(seedCount),
    });
    const opened = openCode(code);
    if (!opened.ok) throw new Error(opened.error.says);
    try {
      check(tally, at, { code, family, plant, survey: surveyPlanted(opened.value, plant, draws) });
      return;
    } catch (error) {
      if (!(error instanceof NotTaken)) throw error;
    }
  }
  fail(tally, at, `${family}, ${plant.name}: found no room for it in ${attempts} tries`);
}

function check(
  tally: Tally,
  at: Case,
  of: { code: string; family: string; plant: FamilyPlant; survey: ReturnType<typeof surveyPlanted> },
): void {
  const { code, family, plant, survey } = of;
  const name = `${family}, ${plant.name}`;
  count(tally, name);
  let told = 0;
  for (const ledger of markSurvey(survey).marks?.ledgers ?? []) {
    if (ledger.how !== 'offsets') continue;
    const where = `${code}, ${plant.name}, recess ${ledger.bay ?? 1}, ${ledger.size}`;
    const line = ledger.lines.find((l) => l.name === 'set-up');
    if (!line?.parts) {
      fail(tally, at, `${where}: the set-up line has no parts`);
      continue;
    }
    count(tally, 'sizes');
    for (const { cause, mm } of line.parts) {
      if (cause === plant.cause) told = Math.max(told, Math.abs(mm));
      if (cause === plant.cause || cause === 'place') continue;
      most(tally, `${name}: others`, { value: Math.abs(mm), where: `${where}, ${cause}` });
      if (Math.abs(mm) > (cause === 'rest' ? restGrains : 1) * toleranceMm)
        fail(tally, at, `${where}: ${cause} is ${mm}`);
    }
  }
  keep(tally, name, told);
}

function conclude(tally: Tally): Result {
  const failures: string[] = [];
  const rows = setUpFamilies.flatMap((family) =>
    familyPlants.map((plant) => {
      const name = `${family}, ${plant.name}`;
      const told = tally.series[name] ?? [];
      const speaks = told.filter((mm) => mm > 0.1).length;
      if (plant.cause && told.length >= 5 && speaks < told.length / 2)
        failures.push(`${name}: only ${speaks} of ${told.length} came to more than 0.1 mm, which shows too little`);
      const mean = told.reduce((sum, mm) => sum + mm, 0) / Math.max(1, told.length);
      const others = tally.most[`${name}: others`]?.value.toFixed(4) ?? '-';
      return [family, plant.name, plant.says, String(counted(tally, name)), mean.toFixed(2), others];
    }),
  );
  const head = ['family', 'cause', 'what is planted', 'surveys', 'mean told, mm', 'other parts, at most'];
  return { lines: [`sizes: ${counted(tally, 'sizes')}`, '', ...table([head, ...rows])], failures };
}
