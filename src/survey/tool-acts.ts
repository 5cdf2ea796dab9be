/**
 * What else is in the bag: the straight-edge and the spirit level held to a surface, 3-4-5 on the floor.
 *
 * Each has an error of its own: the straight-edge is straight to the feeler's grain, the spirit level has a vial that is
 * out by up to what is stated, and 3-4-5 is laid out and taped by hand.
 */
import { bell, bellToUnitDeviation, between, purpose } from '../chance/keyed-draws.ts';
import { ownCoordinates, withinReach } from '../recess/recess.ts';
import { axesOf } from '../recess/recess-spec.ts';
import type { ActOf, PlaceSaid } from './act.ts';
import { type Outcome, refused } from './outcome.ts';
import { type FoundPlace, findPlace, foundAt } from './place.ts';
import { tenth } from './rule.ts';
import { finderOf, type Survey } from './survey.ts';
import { bayOf, inBayFrame } from './world.ts';

const whyTool = purpose('survey/tool');
const whyVial = purpose('survey/vial');
/** Standard deviations; typical, from memory. */
const feelerDeviationMm = 0.1;
const bubbleDeviationMmPerM = 0.15;
const legDeviationMm = 0.4;
const tapeDeviationMm = 0.5;
/** How finely what a tool lies on is felt. */
const stepMm = 8;

/** Holds the straight-edge to a surface: the widest gap under it, and how far along. */
export function edgeOutcome(survey: Survey, act: ActOf<'edge'>): Outcome {
  const longest = survey.world.exercise.kit.tools?.straightEdgeMm;
  if (longest === undefined || act.lengthMm > longest) return refused('kit/none');
  const felt = feltUnder(survey, act.place, { along: act.along, lengthMm: act.lengthMm });
  if (!felt.ok) return felt.refusal;
  const { gapMm, atMm } = widestGap(felt.profile);
  if (!survey.world.exercise.kit.rule.errors) return { ok: true, toolMm: [gapMm, atMm] };
  const slip = bell(survey.world.key, whyTool, survey.entries.length) * bellToUnitDeviation * feelerDeviationMm;
  return { ok: true, toolMm: [tenth(Math.max(0, gapMm + slip)), 0 + Math.round(atMm)] };
}

/** Holds the spirit level to a surface: how far it is out over its length, + into the free space upwards or rightwards. */
export function plumbOutcome(survey: Survey, act: ActOf<'plumb'>): Outcome {
  const { kit } = survey.world.exercise;
  const tool = kit.tools?.spiritLevel;
  if (!tool || act.lengthMm > tool.lengthMm || act.lengthMm <= 0) return refused('kit/none');
  const side = 'surface' in act.place ? act.place.surface : null;
  const along = side !== null && axesOf(side).v === 'z' ? 'v' : 'u';
  const felt = feltUnder(survey, act.place, { along, lengthMm: act.lengthMm });
  if (!felt.ok) return felt.refusal;
  const slope = restingSlope(felt.profile);
  const vial = kit.rule.errors ? vialError(survey, tool.limitMmPerM) * (act.turnedRound ? -1 : 1) : 0;
  const noise = bell(survey.world.key, whyTool, survey.entries.length) * bellToUnitDeviation * bubbleDeviationMmPerM;
  const outMm = slope * act.lengthMm + ((vial + (kit.rule.errors ? noise : 0)) * act.lengthMm) / 1000;
  return { ok: true, toolMm: [kit.rule.errors ? tenth(outMm) : outMm] };
}

/** Gives what a spirit level's vial is out by, mm a metre: one error for the whole survey. */
function vialError(survey: Survey, limit: number): number {
  return between(survey.world.key, whyVial, { index: 0, from: -limit, to: limit });
}

/** Lays three units along F to the right and four along S into the room from where they cross, and tapes the third side. */
export function threeFourFiveOutcome(survey: Survey, act: ActOf<'three-four-five'>): Outcome {
  if (!survey.world.exercise.kit.tools) return refused('kit/none');
  const standing = survey.standing;
  if (!standing) return refused('level/none');
  if (!standing.settled) return refused('level/not-settled');
  const found = 'surface' in act.at ? findPlace({ ...finderOf(survey), floorRunsOn: true }, act.at) : null;
  if (!found) return refused('place/needs-surface');
  if (!found.ok) return refused(found.code);
  const { point, side } = found.value;
  const [dx, dy] = [point.x - standing.at.x, point.y - standing.at.y];
  if (side !== 'floor' || dx * dx + dy * dy > 100 * 100) return refused('place/line-does-not-cross');
  const { errors } = survey.world.exercise.kit.rule;
  const slip = (i: number, mm: number) =>
    errors ? bell(survey.world.key, whyTool, 4 * survey.entries.length + i) * bellToUnitDeviation * mm : 0;
  // S runs as its own fault has it: the corner is not that of a true square.
  const square = standing.body.faults?.square ?? 0;
  const [f, s] = [3 * act.unitMm + slip(0, legDeviationMm), 4 * act.unitMm + slip(1, legDeviationMm)];
  // Out into the room S runs to the right of square where it stands more than 90° anticlockwise from F.
  const turn = 1 / Math.sqrt(1 + square * square);
  const end = { x: s * square * turn, y: 0 - s * turn };
  const third = Math.sqrt((end.x - f) * (end.x - f) + end.y * end.y) + slip(2, tapeDeviationMm);
  return { ok: true, tapeMm: errors ? tenth(third) : third };
}

/** Heights along a line on a surface, into the free space, at places along it; mm. */
type Profile = readonly (readonly [at: number, high: number])[];

type Felt = { readonly ok: true; readonly profile: Profile } | { readonly ok: false; readonly refusal: Outcome };

/** What lies under a tool that is held with its middle on a place. */
function feltUnder(survey: Survey, said: PlaceSaid, of: { along: 'u' | 'v'; lengthMm: number }): Felt {
  if (!('surface' in said)) return { ok: false, refusal: refused('place/needs-surface') };
  const found = findPlace(finderOf(survey), said);
  if (!found.ok) return { ok: false, refusal: refused(found.code) };
  const half = of.lengthMm / 2;
  const ends = [at(found.value, of.along, 0 - half), at(found.value, of.along, half)];
  const { recess } = bayOf(survey.world, found.value.bay) ?? survey.world;
  if (ends.some((end) => !withinReach(recess, found.value.side, end)))
    return { ok: false, refusal: refused('place/outside') };
  const count = Math.max(2, Math.ceil(of.lengthMm / stepMm));
  const profile = Array.from({ length: count + 1 }, (_, i): [number, number] => {
    const along = (of.lengthMm * i) / count;
    return [along, heightFelt(survey, found.value, at(found.value, of.along, along - half))];
  });
  return { ok: true, profile };
}

function at(place: FoundPlace, along: 'u' | 'v', by: number): { u: number; v: number } {
  return along === 'u' ? { u: place.u + by, v: place.v } : { u: place.u, v: place.v + by };
}

function heightFelt(survey: Survey, { side, bay }: FoundPlace, own: { u: number; v: number }): number {
  const { point } = foundAt(survey.world, finderOf(survey).trims, { side, bay, ...own });
  return ownCoordinates(side, inBayFrame(bayOf(survey.world, bay) ?? survey.world.bays[0], point)).obstruction;
}

/** The upper hull's edge that the middle of a tool rests on. */
function restsOn(profile: Profile): { readonly from: number; readonly to: number } {
  const last = profile.length - 1;
  const middle = ((profile[0]?.[0] ?? 0) + (profile[last]?.[0] ?? 0)) / 2;
  let best = { from: 0, to: last };
  let bestHigh = Number.NEGATIVE_INFINITY;
  // The hull's height over the middle is the greatest of all chords that span it.
  for (let i = 0; i <= last; i++)
    for (let j = i + 1; j <= last; j++) {
      const [a, b] = [profile[i], profile[j]];
      if (!a || !b || a[0] > middle || b[0] < middle) continue;
      const high = a[1] + ((b[1] - a[1]) * (middle - a[0])) / (b[0] - a[0]);
      if (high > bestHigh) {
        bestHigh = high;
        best = { from: i, to: j };
      }
    }
  return best;
}

function restingSlope(profile: Profile): number {
  const { from, to } = restsOn(profile);
  const [a, b] = [profile[from], profile[to]];
  return a && b ? (b[1] - a[1]) / (b[0] - a[0]) : 0;
}

function widestGap(profile: Profile): { gapMm: number; atMm: number } {
  const slope = restingSlope(profile);
  const start = profile[restsOn(profile).from] ?? [0, 0];
  let widest = { gapMm: 0, atMm: start[0] };
  for (const [along, high] of profile) {
    const gapMm = start[1] + slope * (along - start[0]) - high;
    if (gapMm > widest.gapMm) widest = { gapMm, atMm: along };
  }
  return widest;
}
