/**
 * Causes of a set-up that goes wrong, planted one at a time in recesses of other kinds: pairs, doorways, reveals, runs. The
 * level stands where plain arithmetic says, every place of the careful plan is read from it, and nothing else goes wrong.
 */
import { baysOf } from '../../../src/exercise/bays.ts';
import type { Exercise } from '../../../src/exercise/exercise.ts';
import type { Kit } from '../../../src/exercise/kit.ts';
import { handsByBay, proposeTogether } from '../../../src/learners/bay-hand.ts';
import { clearWhatComesOff, takeReading } from '../../../src/learners/careful.ts';
import { type Hand as LearnersHand, takeInHand } from '../../../src/learners/hand.ts';
import { proposeWorked } from '../../../src/learners/proposing.ts';
import { carefulDensity, planReadings } from '../../../src/learners/reading-plan.ts';
import type { SetUpCause } from '../../../src/marking/stood.ts';
import type { Act } from '../../../src/survey/act.ts';
import { datumParts } from '../../../src/survey/act.ts';
import { beginSurvey, type Survey } from '../../../src/survey/survey.ts';
import { workOut } from '../../../src/survey/working-out.ts';
import { openWorld } from '../../../src/survey/world.ts';
import type { Draws } from '../draws.ts';
import { NotTaken, toHand } from './hand.ts';
import { noFaults, type OwnFaults, type OwnLevel, ownOffset, ownTurned } from './own-level.ts';

export interface FamilyPlant {
  readonly name: string;
  readonly says: string;
  /** Null: nothing goes wrong. */
  readonly cause: SetUpCause | null;
  /** How the level stands, what its kit has, and what is done after a knock. */
  level(draws: Draws): Planted;
}

interface Planted {
  readonly off?: { readonly y: number; readonly turn: number };
  readonly faults?: OwnFaults;
  readonly knock?: Exclude<Kit['level']['knock'], 'drawn' | undefined>;
  /** By how much the level is moved, turned and raised again where a knock has fallen. */
  readonly back?: { readonly x: number; readonly y: number; readonly z: number; readonly turn: number };
}

const knock = (draws: Draws) => ({
  afterReadings: 8 + draws.pick(12),
  byXMm: draws.between(-4, 4),
  byYMm: draws.between(-4, 4),
  byZMm: draws.between(-2, 2),
  turnMmPerM: draws.sign() * draws.between(1, 6),
  leanMmPerM: 0,
});

export const familyPlants: readonly FamilyPlant[] = [
  {
    name: 'knock',
    says: 'a door slams, and the rest is read from there',
    cause: 'knock',
    level: (draws) => ({ knock: knock(draws) }),
  },
  {
    name: 'knock, brought back',
    says: 'a door slams; the level is brought back, not quite',
    cause: 'knock',
    level: (draws) => {
      const off = (most: number) => draws.sign() * draws.between(0.2, most);
      const back = { x: off(2), y: off(2), z: off(1), turn: off(2) / 1000 };
      return { knock: knock(draws), back };
    },
  },
  {
    name: 'line-up',
    says: 'F beside the reference, and turned off it',
    cause: 'line-up',
    level: (draws) => ({ off: { y: draws.between(-5, 5), turn: (draws.sign() * draws.between(1, 6)) / 1000 } }),
  },
  {
    name: 'squareness',
    says: 'S not square to F',
    cause: 'squareness',
    level: (draws) => ({ faults: { ...noFaults, square: (draws.sign() * draws.between(1, 8)) / 1000 } }),
  },
  {
    name: 'faults',
    says: 'L rises, F and S lean',
    cause: 'faults',
    level: (draws) => {
      const fault = () => (draws.sign() * draws.between(0.5, 4)) / 1000;
      return { faults: { fore: fault(), side: fault(), plumbF: fault(), plumbS: fault(), square: 0 } };
    },
  },
  { name: 'none', says: 'nothing goes wrong', cause: null, level: () => ({}) },
];

/** Surveys a room of a family with one cause planted; throws where the level could not stand so. */
export function surveyPlanted(exercise: Exercise, plant: FamilyPlant, draws: Draws): Survey {
  const planted = plant.level(draws);
  const hand = takeInHand(beginSurvey(openWorld(withKit(exercise, planted))));
  const hands = handsByBay(hand);
  hands.forEach((own, i) => {
    clearWhatComesOff(own);
    const atXMm = baysOf(exercise)[i]?.atXMm ?? 0;
    const level = standing(hand, draws, { planted, atXMm });
    stand(hand, level);
    readFrom(hand, own, { level, planted });
    proposeWorked(own, workOut(own.now()));
  });
  proposeTogether(hand, hands);
  hand.act({ act: 'hand-in' });
  return hand.now();
}

/** The rule, the hand and the pencil are without error; what could only be cut comes off instead. */
function withKit(exercise: Exercise, { faults, knock: said }: Planted): Exercise {
  const { kit } = exercise;
  const set = faults ?? noFaults;
  const level: Kit['level'] = {
    ...kit.level,
    faults: [
      {
        levelForeMmPerM: 1000 * set.fore,
        levelSideMmPerM: 1000 * set.side,
        plumbFMmPerM: 1000 * set.plumbF,
        plumbSMmPerM: 1000 * set.plumbS,
        squareMmPerM: 1000 * set.square,
      },
    ],
    ...(said ? { knock: said } : {}),
  };
  return { ...exercise, code: null, kit: { ...kit, level, rule: { ...kit.rule, errors: false } } };
}

/** On the face line before the middle of a recess, and off it by what is planted. F is lined up where the reference is. */
function standing(hand: LearnersHand, draws: Draws, of: { planted: Planted; atXMm: number }): OwnLevel {
  const { brief, spec } = hand.now().world.exercise;
  const { off, faults = noFaults } = of.planted;
  const z = brief.openingMm.height * draws.between(0.4, 0.5);
  const y = (off?.y ?? 0) - (brief.setBackMm ?? 0) - faults.plumbF * (spec.reference.heightMm - z);
  const level = { at: { x: of.atXMm + draws.between(-30, 30), y, z }, facing: { x: 0, y: 1 }, faults };
  return ownTurned(level, off?.turn ?? 0);
}

function stand(hand: LearnersHand, { at, facing: f }: OwnLevel): void {
  const p = toHand(hand.now().world, at);
  must(hand, { act: 'stand', xMm: p.x, yMm: p.y, heightMm: p.z });
  must(hand, { act: 'settle' });
  const { x: c, y: s } = hand.now().world.hand.xAxis;
  must(hand, { act: 'turn', byMmPerM: (1000 * (-s * f.y - c * f.x)) / (c * f.y - s * f.x) });
}

/** Reads the plan; as soon as a knock has fallen the level is brought back, where that is planted. */
function readFrom(hand: LearnersHand, own: LearnersHand, of: { level: OwnLevel; planted: Planted }): void {
  const { brief } = own.now().world.exercise;
  const { knock: said, back } = of.planted;
  let level = of.level;
  for (const reading of planReadings(brief, carefulDensity)) {
    const before = hand.now().readings.length;
    takeReading(own, reading);
    hold(hand, level, before);
    if (!said || hand.now().readings.length < said.afterReadings || before >= said.afterReadings) continue;
    const turn = said.turnMmPerM / 1000;
    level = ownTurned({ ...level, at: moved(level.at, said) }, turn);
    if (back) level = bringBack(hand, level, { back, turn });
  }
}

function moved(at: OwnLevel['at'], by: { byXMm: number; byYMm: number; byZMm: number }): OwnLevel['at'] {
  return { x: at.x + by.byXMm, y: at.y + by.byYMm, z: at.z + by.byZMm };
}

function bringBack(
  hand: LearnersHand,
  level: OwnLevel,
  of: { back: NonNullable<Planted['back']>; turn: number },
): OwnLevel {
  const { back, turn } = of;
  const by = toHand(hand.now().world, { x: level.at.x + back.x, y: level.at.y + back.y, z: 0 });
  const from = toHand(hand.now().world, { ...level.at, z: 0 });
  must(hand, { act: 'move', byXMm: by.x - from.x, byYMm: by.y - from.y });
  must(hand, { act: 'raise', byMm: back.z });
  must(hand, { act: 'settle' });
  const slope = back.turn - turn;
  must(hand, { act: 'turn', byMmPerM: 1000 * slope });
  const at = { x: level.at.x + back.x, y: level.at.y + back.y, z: level.at.z + back.z };
  return ownTurned({ ...level, at }, slope);
}

/** Holds every new reading against plain arithmetic: the level stands where it is meant to. */
function hold(hand: LearnersHand, level: OwnLevel, from: number): void {
  for (const r of hand.now().readings.slice(from)) {
    const own = Math.abs(ownOffset(level, datumParts(r.datum).kind, r.point));
    const seen = (r.edgesMm[0] + r.edgesMm[1]) / 2;
    if (Math.abs(seen - own) > 1e-6) throw new Error(`${r.side}: ${seen} was seen, ${own} by plain arithmetic`);
  }
}

function must(hand: LearnersHand, act: Act): void {
  const outcome = hand.act(act);
  if (!outcome.ok) throw new NotTaken(`${act.act}: ${outcome.error.code}`);
}
