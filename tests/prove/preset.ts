/**
 * The promise of every preset by a document: no surface beyond its limits, and a room at the limit near it, by the
 * document's own measuring rule on the built surfaces. The measuring shares nothing with what draws the rooms.
 *
 * A case is a room of one family, drawn at every such preset; families take turns.
 */
import { specOf } from '../../src/exercise/exercise-code.ts';
import { families } from '../../src/recess/families/families.ts';
import { targetOf } from '../../src/recess/limits/limit-spec.ts';
import { buildRecess } from '../../src/recess/recess.ts';
import { builtSides, type RecessSpec } from '../../src/recess/recess-spec.ts';
import { severities } from '../../src/recess/severity.ts';
import { type BuiltRoom, type Share, sharesOf } from '../oracle/tolerances.ts';
import { drawsOf } from './draws.ts';
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

export const presetProof: Proof = {
  name: 'preset',
  says: 'a preset by a document keeps every surface inside its limits, and a room at the limit takes 90 % of it and more',
  full: 1000 * families.length,
  small: 4 * families.length,
  prove: (share) => eachCase(share, provePresets),
  conclude,
};

const presets = severities.filter((severity) => severity.limits);
const leastAtLimit = 0.9;

function provePresets(tally: Tally, at: Case): void {
  const draws = drawsOf('preset', at.seed, at.index);
  const family = families[at.index % families.length];
  if (!family) throw new RangeError('there is no family');
  const structure = draws.one(family.structures).name;
  const seed = draws.pick(4_826_809);
  const turned = draws.between(0, 0.26);
  for (const { name: severity } of presets) {
    const spec = specOf({ family: family.name, severity, structure, seed });
    for (const room of builtRooms(spec))
      proveRoom(tally, at, { room, spec, severity, turned, where: `${structure}, seed ${seed}` });
  }
}

function proveRoom(
  tally: Tally,
  at: Case,
  of: { room: BuiltRoom; spec: RecessSpec; severity: string; turned: number; where: string },
): void {
  const { room, spec, severity } = of;
  const { atLimit } = targetOf(spec.key);
  const shares = sharesFound(severity, room, { turned: of.turned, atLeast: atLimit ? leastAtLimit : 0 });
  const [worst] = shares;
  const where = `${spec.family}, ${severity}, ${of.where}`;
  if (!worst) throw new RangeError(`${where}: nothing of it is measured`);
  for (const { where: what, share } of shares)
    if (!(share <= 1)) fail(tally, at, `${where}: ${what} takes ${share.toFixed(4)} of its limit`);
  const group = `${severity}/${spec.family}`;
  count(tally, group);
  most(tally, group, { value: worst.share, where: `${where}: ${worst.where}` });
  if (!atLimit) return;
  keep(tally, group, worst.share);
  count(tally, `${group}/${worst.where}`);
  if (worst.share < leastAtLimit)
    fail(tally, at, `${where}: at the limit, but its worst is ${worst.where}, ${worst.share.toFixed(4)} of it`);
}

/** How often a room whose worst place was not found is looked at again: more closely, its straight-edge turned otherwise. */
const looks = 6;

/** The shares of a room, the worst first; looked for again where they come to less than is expected. */
function sharesFound(severity: string, room: BuiltRoom, of: { turned: number; atLeast: number }): Share[] {
  let found: Share[] = [];
  for (let look = 0; look < looks && (found[0]?.share ?? -1) < of.atLeast; look++)
    found = [...found, ...sharesOf(severity, room, { turned: of.turned + 0.043 * look, finer: 1 + look / 2 })].sort(
      (a, b) => b.share - a.share,
    );
  return found;
}

/** What is measured: sizes that are known, and the control values of the surfaces that are there; of a pair, each recess. */
function builtRooms({ second, ...first }: RecessSpec): BuiltRoom[] {
  return [first, ...(second ? [{ ...first, ...second }] : [])].map((spec) => {
    const { fields } = buildRecess(spec);
    const { family, openingMm, mouthMm, breastSide, slope } = spec;
    const nets = Object.fromEntries(builtSides(spec).map((side) => [side, fields[side]]));
    return { family, openingMm, mouthMm, breastSide, slope, nets };
  });
}

function conclude(tally: Tally): Result {
  const groups = presets.flatMap(({ name }) => families.map((family) => `${name}/${family.name}`));
  const seen = groups.filter((group) => counted(tally, group) > 0);
  const rows = seen.map((group) => {
    const at = tally.series[group] ?? [];
    return [
      ...group.split('/'),
      String(counted(tally, group)),
      (tally.most[group]?.value ?? 0).toFixed(4),
      String(at.length),
      at.length > 0 ? Math.min(...at).toFixed(4) : 'none',
      deciding(tally, group),
    ];
  });
  const head = ['preset', 'family', 'rooms', 'worst share', 'at the limit', 'least of theirs', 'decided most often by'];
  const failures = seen
    .filter((group) => counted(tally, group) >= 40)
    .filter((group) => (tally.series[group] ?? []).length < counted(tally, group) / 3)
    .map((group) => `${group}: too few rooms are at the limit to show anything`);
  return { lines: table([head, ...rows]), failures };
}

/** What decides at the limit, the three that do most often. */
function deciding(tally: Tally, group: string): string {
  const whole = (tally.series[group] ?? []).length;
  return Object.entries(tally.counts)
    .filter(([what]) => what.startsWith(`${group}/`))
    .sort(([a, n], [b, m]) => m - n || (a < b ? -1 : 1))
    .slice(0, 3)
    .map(([what, n]) => `${what.slice(group.length + 1)} ${Math.round((100 * n) / whole)} %`)
    .join(', ');
}
