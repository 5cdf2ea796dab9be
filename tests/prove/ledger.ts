/**
 * The ledger proof: surveys with exactly one cause planted in a room that is otherwise read without loss. Every other
 * line is 0, and the line that tells of the cause equals a value that is worked out another way.
 *
 * Each K is rounded to 1/1024 mm, so a line may be off by one such grain, and what is left after an allowance by half
 * a grain more; coverage hangs on the key's own certificate of 0.001 mm as well.
 */
import { lineNames, type SizeLedger } from '../../src/marking/ledger.ts';
import { markSurvey } from '../../src/marking/report.ts';
import { alcoveStructures } from '../../src/recess/families/alcove-structures.ts';
import { severities } from '../../src/recess/severity.ts';
import { codeOf, type Draws, drawsOf } from './draws.ts';
import { type Cause, causes, plantNothing } from './planted/causes.ts';
import { type Ground, groundOf } from './planted/ground.ts';
import { NotTaken } from './planted/hand.ts';
import type { PlainSize } from './planted/plain-room.ts';
import type { LineSaid, Planted } from './planted/survey.ts';
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

export const ledgerProof: Proof = {
  name: 'ledger',
  says: 'one cause planted a survey: its line is what plain arithmetic says, every other line is 0',
  full: 6900,
  small: 161,
  prove: (share) => eachCase(share, proveLedger),
  conclude,
};

const grain = 1 / 1024;
/** How far off a line may be, mm. */
const toleranceMm: Readonly<Partial<Record<LineSaid, number>>> = {
  coverage: grain + 0.001 + 0.0002,
  'not-surveyed': grain + 0.001 + 0.0002,
  'working-out': 1.5 * grain + 1e-5,
  allowance: grain,
};
const usualToleranceMm = grain + 1e-5;
/** What an unplanted survey may come to in any line. */
const unplantedMm = 0.01;
const attempts = 60;

function proveLedger(tally: Tally, at: Case): void {
  const cause = causes[at.index % causes.length] as Cause;
  for (let attempt = 0; attempt < attempts; attempt++) {
    const draws = drawsOf('ledger', at.seed, at.index, attempt);
    const ground = groundOf(draws, drawnRoom(draws, cause));
    const planted = planting(() => cause.plant(ground, draws));
    if (!planted) continue;
    const plain = planting(() => plantNothing(ground, draws));
    if (!plain) throw new Error(`${ground.code}: what could be read before can no longer be`);
    checkPlain(tally, at, { ground, plain });
    checkPlanted(tally, at, { ground, planted, cause });
    return;
  }
  fail(tally, at, `${cause.name}: found no room for it in ${attempts} tries`);
}

function drawnRoom(draws: Draws, cause: Cause): string {
  const structure = cause.structure ?? draws.one(alcoveStructures).name;
  return codeOf(draws, { severity: draws.one(severities).name, structure, kit: 'site' });
}

/** Null where a place could not be read for all that. */
function planting(plant: () => Planted | null): Planted | null {
  try {
    return plant();
  } catch (error) {
    if (error instanceof NotTaken) return null;
    throw error;
  }
}

function checkPlain(tally: Tally, at: Case, of: { ground: Ground; plain: Planted }): void {
  const { ground, plain } = of;
  for (const ledger of ledgersOf(plain)) {
    const where = `${ground.code}, nothing planted, ${ledger.size}`;
    if (ground.sizes.some((s) => s === ledger.size)) count(tally, `unplanted ${ledger.size}`);
    for (const [name, mm] of linesOf(ledger)) {
      most(tally, 'unplanted', { value: Math.abs(mm), where: `${where}, ${name}` });
      if (Math.abs(mm) > unplantedMm) fail(tally, at, `${where}: ${name} is ${mm}`);
    }
  }
}

function checkPlanted(tally: Tally, at: Case, of: { ground: Ground; planted: Planted; cause: Cause }): void {
  const { ground, planted, cause } = of;
  count(tally, cause.name);
  count(tally, 'planted');
  let told = 0;
  for (const ledger of ledgersOf(planted)) {
    const size = ledger.size as PlainSize;
    const where = `${ground.code}, ${cause.name}, ${size}`;
    const how = planted.how?.[size] ?? (ground.sizes.includes(size) ? 'offsets' : 'as-it-stands');
    if (ledger.how !== how) fail(tally, at, `${where}: come by through ${ledger.how}, expected ${how}`);
    const expected = planted.expected[size] ?? {};
    const unsaid = (Object.keys(expected) as LineSaid[]).filter((name) => !linesOf(ledger).some(([n]) => n === name));
    for (const name of unsaid) if (expected[name] !== 0) fail(tally, at, `${where}: has no line ${name}`);
    for (const [name, mm] of linesOf(ledger)) {
      const wanted = expected[name] ?? 0;
      const off = Math.abs(mm - wanted);
      const kind = wanted === 0 ? 'other lines' : 'its line';
      most(tally, `${cause.name}: ${kind}`, { value: off, where: `${where}, ${name}` });
      if (off > (toleranceMm[name] ?? usualToleranceMm))
        fail(tally, at, `${where}: ${name} is ${mm}, by plain arithmetic ${wanted}`);
      if (name !== 'rounding') told = Math.max(told, Math.abs(wanted));
    }
    checkSum(tally, at, { ledger, where, wanted: sumOf(expected) });
  }
  keep(tally, cause.name, told);
}

/** The lines add up to the miss; that they do proves little, but that they do not would. */
function checkSum(tally: Tally, at: Case, of: { ledger: SizeLedger; where: string; wanted: number }): void {
  const { ledger, where, wanted } = of;
  const sum = ledger.lines.reduce((all, line) => all + line.mm, 0);
  if (sum !== ledger.missMm) fail(tally, at, `${where}: the lines add up to ${sum}, the miss is ${ledger.missMm}`);
  if (Math.abs(sum - wanted) > 0.005) fail(tally, at, `${where}: missed by ${sum}, by plain arithmetic ${wanted}`);
}

function sumOf(expected: NonNullable<Planted['expected'][PlainSize]>): number {
  return lineNames.reduce((sum, name) => sum + (expected[name] ?? 0), 0);
}

function ledgersOf(planted: Planted): readonly SizeLedger[] {
  const { marks } = markSurvey(planted.survey);
  if (!marks) throw new Error('the survey was not handed in');
  return marks.ledgers;
}

function linesOf(ledger: SizeLedger): readonly (readonly [LineSaid, number])[] {
  return ledger.lines.flatMap((line): [LineSaid, number][] => [
    [line.name, line.mm],
    ...(line.ofWhichRoundingMm === undefined ? [] : [['rounding', line.ofWhichRoundingMm] as [LineSaid, number]]),
  ]);
}

function conclude(tally: Tally): Result {
  const failures: string[] = [];
  const shown = (mm: number | undefined) => (mm === undefined ? '-' : mm.toFixed(4));
  const rows = causes.map((cause) => {
    const told = tally.series[cause.name] ?? [];
    const silent = ['carried', 'undone'].includes(cause.name);
    const speaks = told.filter((mm) => mm > 0.1).length;
    if (!silent && told.length >= 5 && speaks < told.length / 4)
      failures.push(`${cause.name}: only ${speaks} of ${told.length} came to more than 0.1 mm, which shows too little`);
    const mean = told.reduce((sum, mm) => sum + mm, 0) / Math.max(1, told.length);
    return [
      cause.name,
      cause.says,
      String(told.length),
      String(speaks),
      mean.toFixed(2),
      shown(tally.most[`${cause.name}: its line`]?.value),
      shown(tally.most[`${cause.name}: other lines`]?.value),
    ];
  });
  const unplanted = tally.most['unplanted'];
  const sizes = ['carcass-width', 'carcass-height', 'carcass-depth', 'frame-width', 'frame-height'];
  return {
    lines: [
      `surveys: ${counted(tally, 'planted')} planted, as many unplanted; sizes asked for: ${sizes.map((s) => `${s} ${counted(tally, `unplanted ${s}`)}`).join(', ')}`,
      `unplanted: no line over ${unplanted ? `${unplanted.value.toFixed(4)} mm (${unplanted.where})` : '-'}`,
      ...table([
        ['cause', 'what is planted', 'surveys', 'over 0.1 mm', 'mean told, mm', 'its line off by', 'others off by'],
        ...rows,
      ]),
    ],
    failures,
  };
}
