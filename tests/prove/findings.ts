/**
 * The findings proof: scripted learners survey rooms in which their mistake costs something, and are named for it; the
 * careful ones are named for nothing, and nobody for what was not done.
 *
 * Whether a mistake costs something in a room is asked without the library: the learner sends other sizes than the same
 * method without the slip, or its face line runs off, or the carcass is too long from corner to corner.
 */
import type { Exercise } from '../../src/exercise/exercise.ts';
import { openCode } from '../../src/exercise/exercise-code.ts';
import { wayIn } from '../../src/exercise/way-in.ts';
import { surveyRunWithCare } from '../../src/learners/careful-run.ts';
import { allLearners, type Learner } from '../../src/learners/learner.ts';
import { surveyWith } from '../../src/learners/mistaken/method.ts';
import { answerKey } from '../../src/marking/answer-key.ts';
import { type Finding, mostShown } from '../../src/marking/mistakes/findings.ts';
import { type MistakeId, mistakeIds } from '../../src/marking/mistakes/mistake.ts';
import { entails } from '../../src/marking/mistakes/mistakes.ts';
import { reportOf } from '../../src/marking/report.ts';
import { families, familyOf } from '../../src/recess/families/families.ts';
import type { FamilyName } from '../../src/recess/recess-spec.ts';
import { severities } from '../../src/recess/severity.ts';
import { fold, perform } from '../../src/survey/acting.ts';
import { errorShown } from '../../src/survey/instrument-check.ts';
import type { CheckName } from '../../src/survey/level-body.ts';
import type { Outcome } from '../../src/survey/outcome.ts';
import { sizesSent } from '../../src/survey/sent.ts';
import { beginSurvey, type Survey } from '../../src/survey/survey.ts';
import { openWorld, type World } from '../../src/survey/world.ts';
import { codeOf, type Draws, drawsOf } from './draws.ts';
import {
  type Case,
  count,
  counted,
  eachCase,
  fail,
  keep,
  type Proof,
  type Result,
  type Tally,
  table,
} from './proof.ts';

export const findingsProof: Proof = {
  name: 'findings',
  says: 'each scripted learner is named for its mistake, the careful ones for none, nobody for what was not done',
  full: 100 * allLearners.length,
  small: 5 * allLearners.length,
  prove: (share) => eachCase(share, proveFindings),
  conclude,
};

/** How many rooms are drawn for one in which the mistake costs enough. */
const attempts = 80;
/** What it has to cost, mm. */
const costsMm = 2;
const runsMm = 5;

/** Where a mistake is provoked, and what it also is. */
interface Target {
  /** Left out, an alcove; every family in turn. */
  readonly family?: FamilyName | 'every';
  /** Left out, those whose levels are without faults. */
  readonly kits?: readonly string[];
  /** Whether a room has what it takes at all, before anyone surveys it. */
  fits?(exercise: Exercise): boolean;
  readonly structures?: readonly string[];
  readonly severities?: readonly string[];
  /** What is changed of a code's exercise. */
  changed?(exercise: Exercise): Exercise;
  /** Whether it cost something; left out, by the sizes sent. */
  cost?(done: Survey, right: Survey): boolean;
  /** Mistakes that are made along with it. */
  readonly also?: readonly MistakeId[];
}

const faceRuns = (done: Survey) => {
  const plane = done.planes[`F${done.setUps > 1 ? done.setUps : ''}`];
  if (!plane) return false;
  return Math.abs((plane.nx / plane.ny) * done.world.exercise.brief.openingMm.width) >= runsMm;
};

const targets: Readonly<Record<string, Target>> = {
  M03: { structures: ['same-lean', 'wound', 'sunk-floor'], severities: ['old', 'stone'] },
  M04: { severities: ['old', 'stone'] },
  M05: { severities: ['old', 'stone'] },
  M06: { severities: ['old', 'stone'] },
  M08: { structures: ['closing', 'wound', 'stepped-back'], cost: faceRuns },
  M09: { structures: ['wound', 'stepped-back'], cost: faceRuns },
  M11: { changed: withFault },
  M12: { changed: withKnock },
  M13: { cost: faceRuns },
  M14: { cost: faceRuns },
  M15: { cost: (done, right) => differ(done, right) >= 1.2 },
  M17: { changed: withWear, cost: () => true },
  M18: { cost: (done) => tapedShort(done) >= 1.3, also: ['M03'] },
  M24: { family: 'run', cost: (done, right) => lastJoint(done, right) >= 1.5 },
  M25: { structures: ['sunk-floor', 'closing'] },
  M26: { structures: ['sunk-floor'] },
  M27: { changed: withFinish },
  M28: { cost: (done, right) => staysIn(done, 'skirting') && differ(done, right) >= costsMm },
  M29: { cost: (done, right) => staysIn(done, 'cornice') && differ(done, right) >= costsMm },
  M30: { changed: lowRoom, cost: () => true },
  M31: { family: 'roof-slope', cost: (done) => stuckMm(done) >= costsMm },
  M32: { family: 'run', fits: hasTwoBoxes, cost: (done, right) => boxOff(done, right) >= costsMm },
  M33: { also: ['M19'] },
  M34: { structures: ['sunk-floor'], cost: (done) => marginSpread(done) >= 3 },
  M35: { family: 'under-stair', cost: (done, right) => slopeOff(done, right) >= costsMm },
  M36: { family: 'doorway', structures: ['in-wind'], severities: ['old', 'stone'] },
  careful: { family: 'every', kits: ['site', 'guided', 'faulty', 'two-levels'] },
  'three-widths': { also: ['M02', 'M03', 'M09', 'M18', 'M25'] },
};

function proveFindings(tally: Tally, at: Case): void {
  const learner = allLearners[at.index % allLearners.length] as Learner;
  const target = targets[learner.mistake ?? learner.name] ?? {};
  for (let attempt = 0; attempt < attempts; attempt++) {
    const draws = drawsOf('findings', at.seed, at.index, attempt);
    const { code, exercise } = drawnExercise(draws, target);
    if (target.fits?.(exercise) === false) continue;
    const world = openWorld(exercise);
    const done = learner.survey(beginSurvey(world));
    if (learner.mistake && !costs(target, done, withoutSlip(world))) continue;
    check(tally, at, { learner, target, code, done });
    return;
  }
  fail(tally, at, `${learner.name}: in ${attempts} rooms it never cost enough`);
}

/** The same method without the slip. */
function withoutSlip(world: World): Survey {
  const start = beginSurvey(world);
  return world.exercise.spec.family === 'run' ? surveyRunWithCare(start) : surveyWith(start, {});
}

function drawnExercise(draws: Draws, target: Target): { code: string; exercise: Exercise } {
  const severity = draws.one(target.severities ?? severities.map((s) => s.name));
  const family = target.family === 'every' ? draws.one(families).name : (target.family ?? 'alcove');
  const structure = draws.one(target.structures ?? familyOf(family).structures.map((s) => s.name));
  const code = codeOf(draws, { family, severity, structure, kit: draws.one(target.kits ?? ['site', 'guided']) });
  const opened = openCode(code);
  if (!opened.ok) throw new Error(opened.error.says);
  return { code, exercise: target.changed?.(opened.value) ?? opened.value };
}

function costs(target: Target, done: Survey, right: Survey): boolean {
  return target.cost ? target.cost(done, right) : differ(done, right) >= costsMm;
}

/** The most that two proposals differ by in a size, mm. */
function differ(a: Survey, b: Survey): number {
  const sizes = (s: Survey) => {
    const { carcassMm, liningMm, frameMm } = s.proposal ?? {};
    const box = carcassMm ?? liningMm;
    return [box?.width, box?.height, box?.depth, frameMm?.width, frameMm?.height].map((mm) => mm ?? 0);
  };
  const other = sizes(b);
  return Math.max(...sizes(a).map((mm, i) => Math.abs(mm - (other[i] ?? 0))));
}

/** How far the last joint of a run was sent from where it goes, mm. */
function lastJoint(done: Survey, right: Survey): number {
  const last = (s: Survey) => s.proposal?.runMm?.at(-1) ?? 0;
  return Math.abs(last(done) - last(right));
}

function hasTwoBoxes({ brief }: Exercise): boolean {
  return (brief.cutOuts?.length ?? 0) >= 2;
}

/** How far a box was sent from where it is, at most, mm. */
function boxOff(done: Survey, right: Survey): number {
  const at = (s: Survey, name: string) => s.proposal?.cutOutsMm?.find((c) => c.name === name)?.fromS;
  const off = (done.proposal?.cutOutsMm ?? []).map((c) => Math.abs(c.fromS - (at(right, c.name) ?? c.fromS)));
  return Math.max(0, ...off);
}

/** How far the sloped edge was sent from where it goes, mm. */
function slopeOff(done: Survey, right: Survey): number {
  const [one, other] = [done, right].map((s) => s.proposal?.carcassMm?.slope ?? { low: 0, high: 0 });
  return Math.max(Math.abs((one?.low ?? 0) - (other?.low ?? 0)), Math.abs((one?.high ?? 0) - (other?.high ?? 0)));
}

/** By how much what was sent does not come in, mm. */
function stuckMm(done: Survey): number {
  const said = sizesSent(done);
  const way = said && wayIn(done.world.exercise.brief, said);
  return Math.max(0, ...Object.values(way ?? {}).map((w) => 0 - w.byMm));
}

/** How much the tape that counts for a size read short of the straight way, mm. */
function tapedShort(done: Survey): number {
  const spans = done.bookings.flatMap((b) => {
    const span = done.spans.find((s) => s.n === b.said.reading);
    return span && b.said.check !== true ? [{ span, for: b.said.for ?? [] }] : [];
  });
  const shorts = (['carcass-width', 'frame-width'] as const).map((size) => {
    const of = spans.filter((s) => s.for.includes(size));
    const seen = of.map((s) => s.span.seenMm);
    const straight = of.map(({ span }) => {
      const { point: a } = span.from;
      const { point: b } = span.end;
      return Math.hypot(a.x - b.x, a.y - b.y, a.z - b.z);
    });
    const pick = size === 'carcass-width' ? Math.min : Math.max;
    return of.length === 0 ? 0 : pick(...straight) - pick(...seen);
  });
  return Math.max(...shorts);
}

/** Whether a trim of a kind stays where the carcass comes: a skirting that is higher than the plinth, a cornice at all. */
function staysIn(done: Survey, kind: 'skirting' | 'cornice'): boolean {
  const { spec, brief } = done.world.exercise;
  return spec.trims.some(
    (t) => t.kind === kind && brief.fates[t.name] === 'stays' && (kind === 'cornice' || t.vMm[1] > brief.plinthMm),
  );
}

function marginSpread(done: Survey): number {
  const result = answerKey(done.world.recess, done.world.exercise);
  const margins = result.ok ? result.key.marginsMm : null;
  return margins ? Math.max(...margins) - Math.min(...margins) : 0;
}

/** The room where it is stood up is made 25 mm too low for the largest that could be found. */
function lowRoom(exercise: Exercise): Exercise {
  const { carcassMm } = exercise.brief;
  const clearHeightMm = Math.floor(Math.hypot(carcassMm.height.nominalMm, carcassMm.depth.nominalMm)) - 25;
  return { ...exercise, code: null, brief: { ...exercise.brief, access: { clearHeightMm, plinthSeparate: true } } };
}

/** A level out of plumb and square by more than is stated of it; another lies in the van. */
function withFault(exercise: Exercise): Exercise {
  const { kit } = exercise;
  const sign = exercise.spec.key[0] % 2 === 0 ? 1 : -1;
  const faults = [{ plumbSMmPerM: 2 * sign, squareMmPerM: 6 * sign }];
  return { ...exercise, code: null, kit: { ...kit, level: { ...kit.level, faults, spare: true } } };
}

/** A door slams after some readings. */
function withKnock(exercise: Exercise): Exercise {
  const { kit } = exercise;
  const sign = exercise.spec.key[1] % 2 === 0 ? 1 : -1;
  const knock = { afterReadings: 26, byXMm: 3 * sign, byYMm: 1, byZMm: 1, turnMmPerM: 6 * sign, leanMmPerM: 0 };
  return { ...exercise, code: null, kit: { ...kit, level: { ...kit.level, knock } } };
}

function withWear(exercise: Exercise): Exercise {
  const { kit } = exercise;
  return { ...exercise, code: null, kit: { ...kit, rule: { ...kit.rule, wornMm: 3 } } };
}

/** Tiles come later. */
function withFinish(exercise: Exercise): Exercise {
  return { ...exercise, code: null, brief: { ...exercise.brief, finishMm: [{ surface: 'floor', mm: 12 }] } };
}

function check(tally: Tally, at: Case, of: { learner: Learner; target: Target; code: string; done: Survey }): void {
  const { learner, target, code, done } = of;
  const { findings } = reportOf(done);
  if (!findings) throw new Error(`${code}: ${learner.name} was told nothing`);
  count(tally, `rooms/${learner.name}`);
  for (const [i, f] of findings.entries()) {
    count(tally, `${learner.name}/${f.mistake}`);
    if (i < mostShown) count(tally, `shown/${learner.name}/${f.mistake}`);
    keep(tally, `cost ${f.mistake}`, f.costMm);
  }
  if (findings.length === 0) count(tally, `${learner.name}/none`);
  const named = findings
    .slice(0, mostShown)
    .some((f) => f.mistake === learner.mistake || isParent(f.mistake, learner.mistake));
  if (named) count(tally, `named/${learner.name}`);
  else if (learner.mistake)
    keepWhere(tally, `${learner.name} not named`, `${code} (case ${at.index}): ${said(findings)}`);
  const made = madeBy(learner, target);
  const others = findings.filter((f) => !made.has(f.mistake));
  if (others.length > 0) {
    count(tally, `others/${learner.name}`);
    if (learner.name !== 'random')
      keepWhere(tally, `${learner.name} given`, `${code} (case ${at.index}): ${said(others)}`);
  }
  for (const f of findings) checkCaught(tally, at, { code, learner, done, finding: f });
}

/** What would have been seen is acted again, in a world of its own without errors, after the learner's own acts. */
function checkCaught(
  tally: Tally,
  at: Case,
  of: { code: string; learner: Learner; done: Survey; finding: Finding },
): void {
  const { code, learner, done, finding } = of;
  const { caught, mistake } = finding;
  count(tally, `found/${mistake}`);
  if (!caught) return;
  count(tally, `caught/${mistake}`);
  if (!caught.act) return;
  const { exercise } = done.world;
  const { wornMm: _worn, ...rule } = exercise.kit.rule;
  const kit = { ...exercise.kit, rule: { ...rule, errors: false } };
  const exact = openWorld({ ...exercise, kit, aids: { readsRule: true, seenInMm: true } });
  let again = beginSurvey(exact);
  for (const { act, outcome } of done.entries) if (act.act !== 'hand-in') again = fold(again, act, outcome);
  const seen = seenIn(perform(again, caught.act).outcome, caught.act.act === 'check' ? caught.act.check : null);
  count(tally, 'would have been seen');
  if (!seen.some((mm) => Object.is(mm, caught.seenMm)))
    fail(
      tally,
      at,
      `${code}: ${learner.name}, ${mistake}: would have seen ${caught.seenMm}, the rule itself shows ${seen.join(', ')}`,
    );
}

function seenIn(outcome: Outcome, check: CheckName | null): number[] {
  if (!outcome.ok) return [];
  if (outcome.practiceMm && check) return [errorShown(check, outcome.practiceMm)];
  if (outcome.edgesMm) return [(outcome.edgesMm[0] + outcome.edgesMm[1]) / 2];
  if (outcome.tapeMm !== undefined) return [outcome.tapeMm];
  return (outcome.seen ?? []).flatMap((s) => s.offMm ?? []);
}

function isParent(parent: MistakeId, of: string | undefined): boolean {
  return (entails[parent] ?? []).some((id) => id === of);
}

/** What a learner has made: its mistake, what goes with it, what those entail, and what entails them. */
function madeBy(learner: Learner, target: Target): ReadonlySet<MistakeId> {
  const made = [...mistakeIds.filter((id) => id === learner.mistake), ...(target.also ?? [])];
  const parents = mistakeIds.filter((id) => isParent(id, learner.mistake));
  return new Set([...made, ...made.flatMap((id) => entails[id] ?? []), ...parents]);
}

function said(findings: readonly Finding[]): string {
  return findings.length === 0 ? 'nothing' : findings.map((f) => `${f.mistake} ${f.costMm.toFixed(1)}`).join(', ');
}

/** Counts by name, so that it adds up over shares. */
function keepWhere(tally: Tally, what: string, where: string): void {
  count(tally, `where: ${what}: ${where}`);
}

function conclude(tally: Tally): Result {
  const failures: string[] = [];
  const careful = ['careful', 'two-set-ups'];
  for (const learner of allLearners) {
    const rooms = counted(tally, `rooms/${learner.name}`);
    const named = counted(tally, `named/${learner.name}`);
    if (learner.mistake && named < 0.95 * rooms) failures.push(`${learner.name}: named in ${named} of ${rooms}`);
    const given = rooms - counted(tally, `${learner.name}/none`);
    if (careful.includes(learner.name) && given > 0.01 * rooms)
      failures.push(`${learner.name}: given a finding in ${given} of ${rooms}`);
    const others = counted(tally, `others/${learner.name}`);
    if (learner.name !== 'random' && others > 0.02 * rooms)
      failures.push(`${learner.name}: given what it did not do in ${others} of ${rooms}`);
  }
  const cell = (n: number) => (n === 0 ? '.' : String(n));
  const columns = [...mistakeIds];
  const rows = allLearners.map((l) => [
    l.name,
    l.mistake ?? '',
    String(counted(tally, `rooms/${l.name}`)),
    l.mistake ? String(counted(tally, `named/${l.name}`)) : '',
    String(counted(tally, `others/${l.name}`)),
    ...columns.map((id) => cell(counted(tally, `${l.name}/${id}`))),
    cell(counted(tally, `${l.name}/none`)),
  ]);
  const found = mistakeIds.map((id) => counted(tally, `found/${id}`)).reduce((sum, n) => sum + n, 0);
  const caught = mistakeIds.map((id) => counted(tally, `caught/${id}`)).reduce((sum, n) => sum + n, 0);
  const where = Object.keys(tally.counts)
    .filter((k) => k.startsWith('where: '))
    .map((k) => k.slice(7));
  return {
    lines: [
      `findings: ${found}, with what would have caught it ${caught}, acted again without errors ${counted(tally, 'would have been seen')}, equal to the bit`,
      ...table([['learner', 'makes', 'rooms', 'named', 'others', ...columns.map((c) => c.slice(1)), 'none'], ...rows]),
      ...where.slice(0, 60),
    ],
    failures,
  };
}
