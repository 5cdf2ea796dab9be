/**
 * Causes of a set-up that goes wrong, planted one at a time, and what each does to the lines, in plain arithmetic.
 */
import type { Kit } from '../../../src/exercise/kit.ts';
import type { SetUpCause } from '../../../src/marking/stood.ts';
import type { Survey } from '../../../src/survey/survey.ts';
import type { Draws } from '../draws.ts';
import { datumOf, type Ground, overMade, ruled, type Term } from './ground.ts';
import { bookAt, clearAll, type Hand, NotTaken, readAt, takeHand, toHand } from './hand.ts';
import { noFaults, type OwnFaults, type OwnLevel, ownOffset, ownTurned, standAs } from './own-level.ts';
import type { PlainSize } from './plain-room.ts';

export interface PlantedSetUp {
  readonly survey: Survey;
  /** What the set-up line comes to, and which one part must tell all of it, for each size. */
  readonly expected: Readonly<Partial<Record<PlainSize, { readonly mm: number; readonly cause: SetUpCause }>>>;
  /** What causes that are told apart to first order may leave to second: a slope squared, over the opening's width. */
  readonly slackMm?: number;
}

export interface SetUpPlant {
  readonly name: string;
  readonly says: string;
  plant(ground: Ground, draws: Draws): PlantedSetUp;
}

export const setUpPlants: readonly SetUpPlant[] = [
  { name: 'line-up', says: 'F turned off the reference, and left in front of or behind it', plant: plantLineUp },
  { name: 'line-up on marks', says: 'F2 left beside the marks that it is lined up on', plant: plantMissedMarks },
  { name: 'marks', says: 'the face line’s marks slipped, F2 lined up on them', plant: plantMarks },
  { name: 'baseline', says: 'the farther of two close marks slipped, S2 read beyond the nearer', plant: plantBaseline },
  { name: 'squareness', says: 'S not square to F', plant: plantSquareness },
  { name: 'faults', says: 'L rises, F and S lean', plant: plantFaults },
  { name: 'knock', says: 'a door slams after some readings', plant: plantKnock },
];

/** Where the level stands, true. */
function trueLevel(ground: Ground, faults: OwnFaults = noFaults): OwnLevel {
  return { at: ground.stand, facing: { x: 0, y: 1 }, faults };
}

function plantLineUp(ground: Ground, draws: Draws): PlantedSetUp {
  const by = draws.sign() * draws.between(0, 6);
  const start = trueLevel(ground);
  const level = ownTurned({ ...start, at: { ...start.at, y: by } }, (draws.sign() * draws.between(1, 8)) / 1000);
  const hand = begin(ground, { faults: [{}] });
  standAs(hand, level);
  read(hand, ground.terms, { level, suffix: '' });
  return finish(hand, ground, { far: () => level, cause: 'line-up' });
}

function plantMarks(ground: Ground, draws: Draws): PlantedSetUp {
  const slip = () => draws.sign() * draws.between(0.3, 2.5);
  return onFaceMarks(ground, draws, { slips: [slip(), slip()], misses: [0, 0], cause: 'marks' });
}

function plantMissedMarks(ground: Ground, draws: Draws): PlantedSetUp {
  const miss = () => draws.sign() * draws.between(0.3, 2.5);
  return onFaceMarks(ground, draws, { slips: [0, 0], misses: [miss(), miss()], cause: 'line-up' });
}

/** A true face line is marked on both walls; F2 is lined up on the marks and everything is read from there. */
function onFaceMarks(
  ground: Ground,
  draws: Draws,
  of: { slips: readonly [number, number]; misses: readonly [number, number]; cause: SetUpCause },
): PlantedSetUp {
  const hand = begin(ground, { faults: [{}] });
  standAs(hand, trueLevel(ground));
  const height = toHand(hand.world, { x: 0, y: 0, z: ground.stand.z * draws.between(0.6, 1.4) }).z;
  (['left', 'right'] as const).forEach((surface, i) => {
    // On a side wall the first of its own coordinates is y.
    const handUm = [1000 * (of.slips[i] ?? 0), 0];
    hand.act({ act: 'mark', place: { surface, along: 'F', zMm: height } }, (done) => ({ ...done, handUm }));
  });
  const [left, right] = hand.survey().marks.map((m) => m.point);
  if (!left || !right) throw new NotTaken('a mark is missing');
  const slope = (right.y + of.misses[1] - left.y - of.misses[0]) / (right.x - left.x);
  const x = draws.between(-60, 60);
  const at = { x, y: left.y + of.misses[0] + slope * (x - left.x), z: ground.stand.z };
  const level = ownTurned({ at, facing: { x: 0, y: 1 }, faults: noFaults }, slope);
  standAs(hand, level);
  read(hand, ground.terms, { level, suffix: '2' });
  return finish(hand, ground, { far: () => level, cause: of.cause });
}

/** Two marks on the floor in front of the mouth, the farther one slipped: beyond the nearer the line runs off. */
function plantBaseline(ground: Ground, draws: Draws): PlantedSetUp {
  const hand = begin(ground, { faults: [{}] });
  standAs(hand, trueLevel(ground));
  const near = ground.exercise.brief.mouthMm - draws.between(60, 200);
  const levers = ground.terms.filter((t) => t.size === 'carcass-depth').map((t) => Math.abs(t.u - ground.stand.x));
  const ys = [near - Math.max(450, ...levers) - draws.between(20, 450), near];
  const slip = draws.sign() * draws.between(0.5, 3);
  ys.forEach((y, i) => {
    const said = toHand(hand.world, { x: ground.stand.x, y, z: 0 });
    const handUm = [i === 0 ? 1000 * slip : 0, 0];
    hand.act({ act: 'mark', place: { surface: 'floor', along: 'S', yMm: said.y } }, (done) => ({ ...done, handUm }));
  });
  const [far, close] = hand.survey().marks.map((m) => m.point);
  if (!far || !close) throw new NotTaken('a mark is missing');
  // The line through the marks, met again on the true face line.
  const run = (close.x - far.x) / (close.y - far.y);
  const at = { x: close.x - run * close.y, y: 0, z: ground.stand.z };
  const level = ownTurned({ at, facing: { x: 0, y: 1 }, faults: noFaults }, -run);
  standAs(hand, level);
  read(hand, ground.terms, { level, suffix: '2' });
  const planted = finish(hand, ground, { far: () => level, cause: 'baseline' });
  // From F2, square to the line, what is read lies within a lever as long as the marks are apart: they were put that far.
  const depth = planted.expected['carcass-depth'];
  const expected = depth ? { 'carcass-depth': { ...depth, cause: 'marks' as const } } : {};
  const slackMm = run * run * ground.exercise.brief.openingMm.width;
  return { ...planted, expected: { ...planted.expected, ...expected }, slackMm };
}

function plantSquareness(ground: Ground, draws: Draws): PlantedSetUp {
  const square = (draws.sign() * draws.between(0.5, 8)) / 1000;
  const level = trueLevel(ground, { ...noFaults, square });
  const hand = begin(ground, { faults: [{ squareMmPerM: 1000 * square }] });
  standAs(hand, level);
  read(hand, ground.terms, { level, suffix: '' });
  return finish(hand, ground, { far: () => level, cause: 'squareness' });
}

function plantFaults(ground: Ground, draws: Draws): PlantedSetUp {
  const fault = () => (draws.sign() * draws.between(0.2, 4)) / 1000;
  const faults = { fore: fault(), side: fault(), plumbF: fault(), plumbS: fault(), square: 0 };
  const { z } = ground.stand;
  // F leans, and is lined up where the reference is.
  const y = -faults.plumbF * (ground.exercise.spec.reference.heightMm - z);
  const level = { ...trueLevel(ground, faults), at: { ...ground.stand, y } };
  const hand = begin(ground, {
    faults: [
      {
        levelForeMmPerM: 1000 * faults.fore,
        levelSideMmPerM: 1000 * faults.side,
        plumbFMmPerM: 1000 * faults.plumbF,
        plumbSMmPerM: 1000 * faults.plumbS,
      },
    ],
  });
  standAs(hand, level);
  read(hand, ground.terms, { level, suffix: '' });
  return finish(hand, ground, { far: () => level, cause: 'faults' });
}

function plantKnock(ground: Ground, draws: Draws): PlantedSetUp {
  const afterReadings = 1 + draws.pick(ground.terms.length - 1);
  const by = { x: draws.between(-4, 4), y: draws.between(-4, 4), z: draws.between(-3, 3) };
  const turn = (draws.sign() * draws.between(1, 6)) / 1000;
  const hand = begin(ground, {
    knock: { afterReadings, byXMm: by.x, byYMm: by.y, byZMm: by.z, turnMmPerM: 1000 * turn, leanMmPerM: 0 },
  });
  const before = trueLevel(ground);
  const { at } = before;
  const after = ownTurned({ ...before, at: { x: at.x + by.x, y: at.y + by.y, z: at.z + by.z } }, turn);
  standAs(hand, before);
  read(hand, ground.terms.slice(0, afterReadings), { level: before, suffix: '' });
  read(hand, ground.terms.slice(afterReadings), { level: after, suffix: '' });
  const far = (t: Term) => (ground.terms.indexOf(t) < afterReadings ? before : after);
  return finish(hand, ground, { far, cause: 'knock' });
}

function begin(ground: Ground, level: Partial<Kit['level']>): Hand {
  const { kit } = ground.exercise;
  const hand = takeHand({ ...ground.exercise, kit: { ...kit, level: { ...kit.level, ...level } } });
  clearAll(hand);
  return hand;
}

function read(hand: Hand, terms: readonly Term[], from: { level: OwnLevel; suffix: string }): void {
  for (const term of terms) {
    const kind = datumOf(term.size);
    const seen = readAt(hand, `${kind}${from.suffix}`, term);
    const own = Math.abs(ownOffset(from.level, kind, term.point));
    if (Math.abs(seen.mm - own) > 1e-6)
      throw new Error(`${term.side} for ${term.size}: ${seen.mm} was seen, ${own} by plain arithmetic`);
    const words = { for: [term.size], reading: seen.act };
    bookAt(hand, { datum: `${kind}${from.suffix}`, place: seen.place, mm: seen.mm, words });
  }
}

function finish(hand: Hand, ground: Ground, of: { far: (t: Term) => OwnLevel; cause: SetUpCause }): PlantedSetUp {
  const { brief } = ground.exercise;
  const terms = (size: PlainSize) => ground.terms.filter((t) => t.size === size);
  const asSetUp = (size: PlainSize) =>
    ruled(size, terms(size), (t) => Math.abs(ownOffset(of.far(t), datumOf(size), t.point)));
  const made = (size: PlainSize) => asSetUp(size) - overMade(brief, size);
  const carcass = (name: 'width' | 'height' | 'depth') => {
    const { find, nominalMm } = brief.carcassMm[name];
    return find ? made(`carcass-${name}`) : nominalMm;
  };
  const frame = brief.frame ? { frameMm: { width: made('frame-width'), height: made('frame-height') } } : {};
  hand.act({
    act: 'propose',
    carcassMm: { width: carcass('width'), height: carcass('height'), depth: carcass('depth') },
    ...frame,
  });
  hand.act({ act: 'hand-in' });
  const expected = Object.fromEntries(
    ground.sizes.map((size) => {
      const mm = asSetUp(size) - ruled(size, terms(size), (t) => t.offset);
      return [size, { mm, cause: of.cause }];
    }),
  );
  return { survey: hand.survey(), expected };
}
