/**
 * The random learner: acts without a plan, for finding what breaks. What it does is drawn from the room's own key.
 */
import { between, type DrawKey, pick, purpose } from '../chance/keyed-draws.ts';
import { axesOf, sides } from '../recess/recess-spec.ts';
import type { Act, SurfacePlace } from '../survey/act.ts';
import type { Survey } from '../survey/survey.ts';
import { workOut } from '../survey/working-out.ts';
import { type Hand, judged, lastAct, takeInHand } from './hand.ts';
import { proposeSizes } from './proposing.ts';

const why = purpose('learners/random');
const acts = 120;

/** A stream of choices by index: each call is the next. */
interface Chance {
  one<T>(of: readonly T[]): T;
  mm(from: number, to: number): number;
}

/** Acts at random, proposes something near what it happened to book, and hands in. */
export function surveyAtRandom(start: Survey): Survey {
  const hand = takeInHand(start);
  const chance = chanceOf(start.world.exercise.spec.key);
  hand.act({ act: 'stand', xMm: chance.mm(-300, 300), yMm: chance.mm(-400, 200), heightMm: chance.mm(300, 2000) });
  hand.act({ act: 'settle' });
  for (let i = 0; i < acts; i++) {
    const outcome = hand.act(anyAct(hand, chance));
    if (outcome.ok && outcome.edgesMm) bookSomehow(hand, chance, judged(outcome.edgesMm));
  }
  const { brief } = start.world.exercise;
  const worked = Object.fromEntries(workOut(hand.now()).map((w) => [w.size, w.workshopMm]));
  const near = (size: string, otherwise: number) => Math.max(0, (worked[size] ?? otherwise) + chance.mm(-15, 15));
  proposeSizes(hand, {
    'carcass-width': near('carcass-width', brief.carcassMm.width.nominalMm),
    'carcass-height': near('carcass-height', brief.carcassMm.height.nominalMm),
    'carcass-depth': near('carcass-depth', brief.carcassMm.depth.nominalMm),
    'frame-width': near('frame-width', brief.openingMm.width + 10),
    'frame-height': near('frame-height', brief.openingMm.height + 10),
  });
  hand.act({ act: 'hand-in' });
  return hand.now();
}

function chanceOf(key: DrawKey): Chance {
  let index = 0;
  return {
    one: (of) => of[pick(key, why, { index: index++, count: of.length })] as (typeof of)[number],
    mm: (from, to) => 0 + Math.round(between(key, why, { index: index++, from, to })),
  };
}

function anyAct(hand: Hand, chance: Chance): Act {
  const place = anyPlace(hand, chance);
  const kind = chance.one([
    'read',
    'read',
    'read',
    'read',
    'span',
    'mark',
    'turn',
    'move',
    'settle',
    'aim',
    'strike',
    'stand',
  ]);
  switch (kind) {
    case 'span':
      return { act: 'span', place, to: chance.one(sides) };
    case 'mark':
      return {
        act: 'mark',
        place: { surface: place.surface, along: chance.one(['F', 'S', 'L']), zMm: chance.mm(0, 2500) },
      };
    case 'turn':
      return { act: 'turn', byMmPerM: chance.mm(-8, 8) };
    case 'move':
      return { act: 'move', byXMm: chance.mm(-20, 20), byYMm: chance.mm(-20, 20) };
    case 'settle':
      return { act: 'settle' };
    case 'aim':
      return { act: 'aim', plane: chance.one(['F', 'S']), at: { referenceXMm: chance.mm(-500, 500) } };
    case 'strike':
      return { act: 'strike', booking: Math.max(1, lastAct(hand) - chance.mm(0, 10)) };
    case 'stand':
      return { act: 'stand', xMm: chance.mm(-200, 200), yMm: chance.mm(-1500, 200), heightMm: chance.mm(300, 2000) };
    default:
      return { act: 'read', datum: chance.one(['F', 'S', 'L', 'F2', 'S2', 'L2']), place };
  }
}

function anyPlace(hand: Hand, chance: Chance): SurfacePlace {
  const { width, height, depth } = hand.now().world.exercise.brief.openingMm;
  const surface = chance.one(sides);
  const at = { x: chance.mm(-width / 2, width / 2), y: chance.mm(-60, depth), z: chance.mm(0, height) };
  const axes = axesOf(surface);
  return { surface, [`${axes.u}Mm`]: at[axes.u], [`${axes.v}Mm`]: at[axes.v] };
}

function bookSomehow(hand: Hand, chance: Chance, valueMm: number): void {
  const entry = hand.now().entries.at(-1);
  if (entry?.act.act !== 'read') return;
  const { datum, place } = entry.act;
  const slip = chance.one([0, 0, 0, 0, 10, -10, 0.5]);
  const reading = chance.one([entry.n, entry.n, entry.n, undefined]);
  hand.act({ act: 'book', what: 'offset', valueMm: valueMm + slip, datum, place, ...(reading ? { reading } : {}) });
}
