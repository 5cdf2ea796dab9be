/**
 * Two kinds of level: one that turns about the point where its lines cross, one that turns beside it. A scripted hand
 * stands each with its face line on a near mark and lines it up on a mark 10 m away, to 1 mm at both; what is counted are
 * the turns and moves that it takes.
 *
 * By a turn through t, a crossing point that stands o beside its axis, half-way between ahead and to the right, carries
 * the face line off the near mark by o / sqrt(2) (sin t + 1 - cos t): the closed form that each case is held to.
 */
import { signedDistance } from '../../src/geometry/plane.ts';
import { aimLevel, type Pose, planeOf, turnLevel } from '../../src/survey/level.ts';
import { drawsOf } from './draws.ts';
import { type Case, eachCase, fail, keep, most, type Proof, type Result, type Tally, table } from './proof.ts';

export const twoKindsProof: Proof = {
  name: 'two-kinds',
  says: 'lined up on a mark 10 m away to 1 mm, by a level that turns about its crossing point and by one that turns beside it',
  full: 4000,
  small: 200,
  prove: (share) => eachCase(share, proveLiningUp),
  conclude,
};

const pivots = [0, 20, 40, 60];
const farMm = 10_000;
const goodEnoughMm = 1;
const near = { x: 0, y: 0, z: 1200 };
const far = { x: farMm, y: 0, z: 1200 };

function proveLiningUp(tally: Tally, at: Case): void {
  const draws = drawsOf('two-kinds', at.seed, at.index);
  const pivotMm = pivots[at.index % pivots.length] as number;
  // The face line runs along x; the hand sets it down turned from there by up to 150 mm in a metre.
  const off = (draws.sign() * draws.between(20, 150)) / 1000;
  const body = { faults: null, pivotMm };
  const start = turnedAt({ body, at: near, facing: { x: 0, y: 1 } }, off);
  const aimed = onFarMark(start);
  const angle = Math.atan(-off);
  const carried = Math.abs((pivotMm / Math.SQRT2) * (Math.sin(angle) + 1 - Math.cos(angle)));
  const seen = Math.abs(missOf(aimed, near));
  // The turn that finds the far mark is not quite the one that was off: the crossing point has moved by then.
  const slack = (pivotMm * pivotMm) / farMm + 1e-9;
  most(tally, `${pivotMm}: off the closed form`, { value: Math.abs(seen - carried), where: `turned by ${off}` });
  if (Math.abs(seen - carried) > slack)
    fail(
      tally,
      at,
      `pivot ${pivotMm}, turned by ${off}: carried ${seen} off the near mark, by the closed form ${carried}`,
    );
  const { pose, turns, moves } = linedUp(start);
  if (Math.abs(missOf(pose, near)) > goodEnoughMm || Math.abs(missOf(pose, far)) > goodEnoughMm)
    fail(tally, at, `pivot ${pivotMm}: not lined up after ${turns} turns and ${moves} moves`);
  if (pivotMm === 0 && turns + moves !== 1)
    fail(tally, at, `a level that turns about its crossing point took ${turns} turns and ${moves} moves`);
  keep(tally, `${pivotMm}: turns`, turns);
  keep(tally, `${pivotMm}: moves`, moves);
  keep(tally, `${pivotMm}: carried`, seen);
}

/** Turns it on until the far mark is met, and where that took it off the near one moves it back, until both are met. */
function linedUp(start: Pose): { pose: Pose; turns: number; moves: number } {
  let pose = start;
  let [turns, moves] = [0, 0];
  for (let act = 0; act < 20; act++) {
    if (Math.abs(missOf(pose, far)) > goodEnoughMm) {
      pose = onFarMark(pose);
      turns++;
    } else if (Math.abs(missOf(pose, near)) > goodEnoughMm) {
      const { nx, ny } = planeOf(pose, 'F');
      const miss = missOf(pose, near);
      pose = { ...pose, at: { ...pose.at, x: pose.at.x + nx * miss, y: pose.at.y + ny * miss } };
      moves++;
    } else break;
  }
  return { pose, turns, moves };
}

function missOf(pose: Pose, p: typeof near): number {
  return signedDistance(planeOf(pose, 'F'), p);
}

function onFarMark(pose: Pose): Pose {
  return aimLevel(pose, 'F', { at: far, missMm: 0 }) ?? pose;
}

/** Turned as it is set down: its crossing point is on the near mark all the same. */
function turnedAt(pose: Pose, slope: number): Pose {
  return { ...turnLevel(pose, { slope, quarters: 0 }), at: pose.at };
}

function conclude(tally: Tally): Result {
  const mean = (what: string) => {
    const all = tally.series[what] ?? [];
    return all.reduce((sum, n) => sum + n, 0) / Math.max(1, all.length);
  };
  const worst = (what: string) => Math.max(0, ...(tally.series[what] ?? []));
  const rows = pivots.map((p) => [
    p === 0 ? 'about its crossing point' : `${p} beside it`,
    String((tally.series[`${p}: turns`] ?? []).length),
    `${mean(`${p}: turns`).toFixed(2)} (${worst(`${p}: turns`)})`,
    `${mean(`${p}: moves`).toFixed(2)} (${worst(`${p}: moves`)})`,
    `${mean(`${p}: carried`).toFixed(2)} (${worst(`${p}: carried`).toFixed(2)})`,
    (tally.most[`${p}: off the closed form`]?.value ?? 0).toFixed(4),
  ]);
  const failures =
    mean('60: moves') > mean('0: moves') + 0.3 ? [] : ['a level that turns beside its lines takes no more moves'];
  return {
    lines: table([
      [
        'turns',
        'cases',
        'turns, mean (most)',
        'moves, mean (most)',
        'carried off the near mark, mm',
        'closed form off by',
      ],
      ...rows,
    ]),
    failures,
  };
}
