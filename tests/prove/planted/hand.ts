/**
 * A hand that knows the true room: it goes to the very place that it wants, through the same door as everyone.
 *
 * All that it is told is in the room's frame, mm; it turns it into the hand's by plain arithmetic of its own.
 */
import type { Exercise } from '../../../src/exercise/exercise.ts';
import type { Point } from '../../../src/geometry/plane.ts';
import type { Act, SurfacePlace } from '../../../src/survey/act.ts';
import { fold, perform } from '../../../src/survey/acting.ts';
import type { Done, Outcome } from '../../../src/survey/outcome.ts';
import type { RuleErrors } from '../../../src/survey/rule.ts';
import { beginSurvey, type Survey } from '../../../src/survey/survey.ts';
import { openWorld, type World } from '../../../src/survey/world.ts';
import type { OwnPlace, PlainSize } from './plain-room.ts';

/** An act that the room would not let be done: the place cannot be read without loss. */
export class NotTaken extends Error {}

/** A level as it stands and faces, by the hand's own account. */
export interface Stand {
  readonly at: Point;
  /** Where its face line's normal points: (0, 1) when it is square. */
  readonly facing: { readonly x: number; readonly y: number };
}

/** What was seen at a place, and the act that it was seen in. */
export interface Seen {
  readonly mm: number;
  readonly act: number;
  readonly place: SurfacePlace;
}

export interface Hand {
  readonly world: World;
  survey(): Survey;
  /** Acts; what comes of it may be changed before it is folded in. */
  act(act: Act, change?: (outcome: Done) => Done): Done;
  /** Tries an act and leaves it undone. */
  couldAct(act: Act): boolean;
}

/** Takes an exercise in hand; its rule may be given errors of its own, which alone are then not 0. */
export function takeHand(exercise: Exercise, rule?: RuleErrors): Hand {
  const opened = openWorld(exercise);
  const world = rule ? { ...opened, rule } : opened;
  let survey = beginSurvey(world);
  return {
    world,
    survey: () => survey,
    act: (act, change = (outcome) => outcome) => {
      const { outcome } = perform(survey, act);
      const taken = done(act, outcome);
      survey = fold(survey, act, change(taken));
      return taken;
    },
    couldAct: (act) => perform(survey, act).outcome.ok,
  };
}

/** Takes down what comes off. */
export function clearAll(hand: Hand): void {
  const { spec, brief } = hand.world.exercise;
  for (const { name } of spec.trims) if (brief.fates[name] === 'off') hand.act({ act: 'clear', trim: name });
}

/** Stands the level at a place, square to the face line. */
export function standSquare(hand: Hand, at: Point): Stand {
  const p = toHand(hand.world, at);
  hand.act({ act: 'stand', xMm: p.x, yMm: p.y, heightMm: p.z });
  hand.act({ act: 'settle' });
  // It faces along the hand's y axis, (-s, c) in the room: -s/c is the tangent of the way back to (0, 1).
  const { x: c, y: s } = hand.world.hand.xAxis;
  hand.act({ act: 'turn', byMmPerM: (1000 * -s) / c });
  return { at, facing: { x: 0, y: 1 } };
}

/** Turns the level from square by a slope, anticlockwise seen from above. */
export function turnBy(hand: Hand, stand: Stand, slope: number): Stand {
  hand.act({ act: 'turn', byMmPerM: 1000 * slope });
  const length = Math.sqrt(1 + slope * slope);
  const { x, y } = stand.facing;
  return { ...stand, facing: { x: (x - slope * y) / length, y: (y + slope * x) / length } };
}

/** How far a point lies from a plane that a level throws: the plane's normal by hand, nothing of the survey's. */
export function farFrom(stand: Stand, datum: 'F' | 'S' | 'L', p: Point): number {
  const { at, facing } = stand;
  if (datum === 'L') return Math.abs(p.z - at.z);
  const [nx, ny] = datum === 'F' ? [facing.x, facing.y] : [facing.y, -facing.x];
  return Math.abs(nx * (p.x - at.x) + ny * (p.y - at.y));
}

/** Reads from a datum to a place. */
export function readAt(hand: Hand, datum: string, at: OwnPlace, change?: (outcome: Done) => Done): Seen {
  const place = saidPlace(hand.world, at);
  const outcome = hand.act({ act: 'read', datum, place }, change);
  const seen = change ? change(outcome) : outcome;
  const [low, high] = seen.edgesMm as readonly [number, number];
  return { mm: (low + high) / 2, act: hand.survey().entries.length, place };
}

export interface Words {
  readonly for: readonly PlainSize[];
  readonly check?: boolean;
  /** Left out: the reading that was seen. */
  readonly reading?: number | null;
}

/** Books a value as an offset of a place. */
export function bookAt(hand: Hand, of: { datum: string; place: SurfacePlace; mm: number; words: Words }): number {
  const { words } = of;
  hand.act({
    act: 'book',
    what: 'offset',
    valueMm: of.mm,
    datum: of.datum,
    place: of.place,
    for: [...words.for],
    ...(typeof words.reading === 'number' ? { reading: words.reading } : {}),
    ...(words.check ? { check: true } : {}),
  });
  return hand.survey().entries.length;
}

/** Gives how a place on a surface is said, so that it is found where it is wanted. */
export function saidPlace(world: World, at: OwnPlace): SurfacePlace {
  const { shift, xAxis } = world.hand;
  const { x: c, y: s } = xAxis;
  const { width, depth } = world.exercise.spec.openingMm;
  const { side: surface, u, v } = at;
  if (surface === 'floor' || surface === 'ceiling') {
    const p = toHand(world, { x: u, y: v, z: 0 });
    return { surface, xMm: p.x, yMm: p.y };
  }
  const zMm = v - shift.z;
  // On the outline's straight walls the hand's x is known and its y wanted; on its back, the other way about.
  if (surface === 'back') return { surface, xMm: (u - shift.x + s * depth) / c, zMm };
  const x = surface === 'left' ? -width / 2 : width / 2;
  return { surface, yMm: (u - shift.y - s * x) / c, zMm };
}

/** Turns a place of the room into the hand's frame. */
export function toHand(world: World, p: Point): Point {
  const { shift, xAxis } = world.hand;
  const [dx, dy] = [p.x - shift.x, p.y - shift.y];
  return { x: xAxis.x * dx + xAxis.y * dy, y: xAxis.x * dy - xAxis.y * dx, z: p.z - shift.z };
}

function done(act: Act, outcome: Outcome): Done {
  if (!outcome.ok) throw new NotTaken(`${act.act}: ${outcome.error.code} ${outcome.error.by ?? ''}`);
  return outcome;
}
