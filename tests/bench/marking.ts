/**
 * Does a carcass go in, and the whole key, over many rooms, trims and all.
 *
 * Carcasses are the brief's nominal with up to 30 mm more or less on each size, so that some go in, some do not and some nearly. Each
 * question is timed by itself, the least of three goes: see `timing.ts`. A fits decision is asked of a room whose bounds are
 * there, as it is while sizes are tried; one on a room that was just built is told beside it.
 */
import { drawKey, purpose, uniform } from '../../src/chance/keyed-draws.ts';
import { type CarcassSizes, nominalCarcass } from '../../src/exercise/brief.ts';
import type { Exercise } from '../../src/exercise/exercise.ts';
import { openCode, seedCount, writeCode } from '../../src/exercise/exercise-code.ts';
import { answerKey, findCarcass } from '../../src/marking/answer-key.ts';
import { fitWord, goesInBare, leastSpare } from '../../src/marking/carcass-fit.ts';
import { type Site, siteOf } from '../../src/marking/site.ts';
import { familyOf } from '../../src/recess/families/families.ts';
import { buildRecess } from '../../src/recess/recess.ts';
import { severities } from '../../src/recess/severity.ts';
import type { Figure } from './geometry.ts';
import { drawCodes } from './jobs.ts';
import { atMost, eachUs, quantile } from './timing.ts';

export function markingFigures(): Figure[] {
  const exercises = drawCodes('bench/marking', rooms).map(opened);
  const sites = exercises.map(siteIn);
  const sizes = (i: number) => nearNominal(exercises[i % rooms]!, i);
  const ready = (i: number): Question => ({ site: sites[i % rooms]!, sizes: sizes(i) });
  const fresh = (i: number): Question => ({ site: siteIn(exercises[i % rooms]!), sizes: sizes(i) });
  const of = { questions: 4 * rooms, goes: 3 };
  const decided = eachUs(ready, decide, of);
  const first = eachUs(fresh, decide, { questions: rooms, goes: 3 });
  const bare = eachUs(ready, decideBare, of);
  const keys = eachUs((i) => ({ exercise: exercises[i]!, sizes: sizes(i) }), wholeKey, { questions: rooms, goes: 3 });
  const under = slopedCodes().map(opened);
  const sloped = (i: number) => ({ exercise: under[i]!, sizes: slopedNear(under[i]!, i) });
  const slopedKeys = eachUs(sloped, wholeKey, { questions: slopedRooms, goes: 3 });
  const us = { most: 60, unit: 'us' };
  const ms = { most: 5, unit: 'ms' };
  return [
    atMost('does a carcass go in, median', quantile(decided, 0.5), us),
    atMost('does a carcass go in, 99 of 100', quantile(decided, 0.99), { most: 1000, unit: 'us' }),
    { name: 'does a carcass go in, first question in a room, median', value: quantile(first, 0.5), unit: 'us' },
    atMost('  with nothing asked, anywhere from left to right, median', quantile(bare, 0.5), us),
    atMost('  with nothing asked, anywhere, 99 of 100', quantile(bare, 0.99), { most: 1000, unit: 'us' }),
    atMost('whole key with carcass and frame, room built, median', quantile(keys, 0.5) / 1000, ms),
    atMost('whole key with carcass and frame, room built, worst', quantile(keys, 1) / 1000, ms),
    atMost('whole key with a sloped carcass, room built, median', quantile(slopedKeys, 0.5) / 1000, ms),
    { name: 'whole key with a sloped carcass, room built, worst', value: quantile(slopedKeys, 1) / 1000, unit: 'ms' },
  ];
}

const rooms = 500;
const whySize = purpose('bench/size');

const slopedRooms = 200;

/** Rooms under a stair and under a roof, structures and severities by turns. */
function slopedCodes(): string[] {
  const key = drawKey('bench/sloped');
  return Array.from({ length: slopedRooms }, (_, i) => {
    const family = i % 2 === 0 ? 'under-stair' : 'roof-slope';
    const { structures } = familyOf(family);
    return writeCode({
      family,
      severity: severities[i % severities.length]!.name,
      structure: structures[(i >> 1) % structures.length]!.name,
      kit: 'site',
      seed: Math.floor(uniform(key, whySize, i) * seedCount),
    });
  });
}

/** The brief's nominal, its edge a little higher or lower. */
function slopedNear(exercise: Exercise, i: number): CarcassSizes {
  const sizes = nearNominal(exercise, i);
  const { slope } = nominalCarcass(exercise.brief);
  const off = (i % 7) - 3;
  return { ...sizes, ...(slope ? { slope: { leftMm: slope.leftMm + off, rightMm: slope.rightMm + off } } : {}) };
}

interface Question {
  readonly site: Site;
  readonly sizes: CarcassSizes;
}

function opened(code: string): Exercise {
  const exercise = openCode(code);
  if (!exercise.ok) throw new Error(exercise.error.says);
  return exercise.value;
}

function siteIn(exercise: Exercise): Site {
  return siteOf(buildRecess(exercise.spec), exercise);
}

function nearNominal(exercise: Exercise, i: number): CarcassSizes {
  const key = drawKey(exercise.code ?? '');
  const off = (index: number) => Math.round(60 * uniform(key, whySize, 3 * i + index) - 30);
  const { widthMm, heightMm, depthMm } = nominalCarcass(exercise.brief);
  return { widthMm: widthMm + off(0), heightMm: heightMm + off(1), depthMm: depthMm + off(2) };
}

/** Its place, its clearances, and what the key calls it. */
function decide({ site, sizes }: Question): number {
  const found = findCarcass(site, sizes);
  if (!found) return -1;
  return fitWord(leastSpare(site, found.clear)).length + found.clear.top.mm;
}

/** The same, and whether it goes in at all with no clearance asked. */
function decideBare({ site, sizes }: Question): number {
  const found = findCarcass(site, sizes);
  return found && goesInBare(site, found.carcass, found.walls) ? 1 : 0;
}

function wholeKey({ exercise, sizes }: { exercise: Exercise; sizes: CarcassSizes }): number {
  const { width, height } = exercise.brief.openingMm;
  const frame = { widthMm: width + 30, heightMm: height + 20 };
  const result = answerKey(buildRecess(exercise.spec), exercise, { carcass: sizes, frame });
  return result.ok ? (result.key.mouthWidthMm ?? 0) : 0;
}
