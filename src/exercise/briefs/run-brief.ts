/**
 * Briefs for the run from wall to wall: carcasses side by side from one datum, cut-outs for what is on the wall, a floor
 * finish to come. Sizes are common practice for fitted joinery, from memory, no source.
 */
import { type DrawKey, pick, purpose } from '../../chance/keyed-draws.ts';
import type { Fate, RecessSpec, Trim } from '../../recess/recess-spec.ts';
import type { Brief } from '../brief.ts';
import { like } from './like.ts';
import { clearOfSkirting, mostOut, mostTall, seenWaver } from './wall-brief.ts';

const why = purpose('exercise/run-brief');

/** Room between the opening and the nominal carcass beside what is asked, mm, by severity. */
const spare: Readonly<Record<string, { width: number; height: number; depth: number }>> = {
  settled: { width: 24, height: 28, depth: 20 },
  old: { width: 36, height: 42, depth: 30 },
  stone: { width: 52, height: 60, depth: 42 },
};

/**
 * Draws the brief of a run.
 *
 * @param spec - the room; only its outline, its trims and its severity are looked at, never its defects
 */
export function drawRunBrief(spec: RecessSpec): Brief {
  const key: DrawKey = spec.key;
  const one = <T>(index: number, of: readonly T[]): T => of[pick(key, why, { index, count: of.length })] as T;
  const { width, height, depth } = spec.openingMm;
  const loose = spare[like(spec.severity)] ?? { width: 60, height: 70, depth: 50 };
  // Pipes that stay hold the back so far forward that it would stand under a cornice's slope: then that is cut.
  const pipes = one(2, [true, false, false]) && spec.trims.some((t) => t.kind === 'pipe-boxing');
  const keep = { skirting: one(0, [true, false]), band: one(1, [true, false]) && !pipes, pipes };
  const fates = Object.fromEntries(spec.trims.map((t) => [t.name, fateOf(t, keep)]));
  const stays = (kinds: readonly Trim['kind'][]) =>
    spec.trims.filter((t) => kinds.includes(t.kind) && fates[t.name] === 'stays');
  const front = one(3, [18, 20, 22]);
  const infill = one(4, [15, 20, 30, 40]);
  const finish = one(5, [0, 0, 10, 15, 22]);
  const skirtings = spec.trims.filter((t) => t.kind === 'skirting');
  const plinth = clearOfSkirting(mostTall(skirtings) - finish, one(6, [80, 100, 120, 150]));
  const behind = mostTall(stays(['skirting'])) > plinth + finish ? mostOut(stays(['skirting'])) : 0;
  const drop = mostOut(stays(['cornice', 'coving', 'beam']));
  const down = (mm: number) => 10 * Math.floor(mm / 10);
  const carcass = {
    width: { nominalMm: down(width - 2 * infill - loose.width - 2 * behind), find: true },
    height: { nominalMm: down(height - plinth - finish - drop - loose.height), find: true },
    depth: {
      nominalMm: down(depth - front - loose.depth - Math.max(behind, mostOut(stays(['pipe-boxing'])))),
      find: one(7, [true, true, false]),
    },
  };
  const cutOuts = spec.trims.filter((t) => isService(t) && fates[t.name] === 'cut').map((t) => t.name);
  return {
    openingMm: { width, height, depth },
    mouthMm: spec.mouthMm,
    reference: spec.reference.kind,
    referenceWaverMm: seenWaver(spec.severity),
    carcassFrontMm: front,
    carcassMm: carcass,
    askMm: { left: infill, right: infill, top: one(8, [5, 6, 8, 10]), back: one(9, [5, 8, 10]) },
    plinthMm: plinth,
    frame: null,
    finishMm: finish > 0 ? [{ surface: 'floor', mm: finish }] : [],
    fates,
    access: standUp({ height: carcass.height.nominalMm + 2 * loose.height, depth, allowMm: one(10, [25, 60, 110]) }),
    modules: {
      count: Math.min(8, Math.max(3, Math.round(carcass.width.nominalMm / one(11, [450, 550, 650])))),
      mostInfillMm: infill + 2 * loose.width,
    },
    ...(cutOuts.length > 0 ? { cutOuts, cutOutSpareMm: { least: one(12, [3, 5]), most: 15 } } : {}),
  };
}

function isService(trim: Trim): boolean {
  return trim.kind === 'socket-box' || trim.kind === 'pipe-boxing';
}

function fateOf(trim: Trim, keep: { skirting: boolean; band: boolean; pipes: boolean }): Fate {
  switch (trim.kind) {
    case 'skirting':
      return keep.skirting ? 'stays' : 'off';
    case 'cornice':
    case 'coving':
      return keep.band ? 'stays' : 'cut';
    case 'radiator':
      return 'off';
    case 'pipe-boxing':
      return keep.pipes ? 'stays' : 'cut';
    case 'socket-box':
      return 'cut';
    default:
      return 'stays';
  }
}

/** The room where each carcass is stood up is tall enough for the largest that could be found, by what is allowed. */
function standUp(most: { height: number; depth: number; allowMm: number }): Brief['access'] {
  const diagonal = Math.sqrt(most.height * most.height + most.depth * most.depth);
  return { clearHeightMm: 10 * Math.ceil((diagonal + most.allowMm) / 10), plinthSeparate: true };
}
