/**
 * Rooms to draw in tests: real surveys at many stands, what is in hand, panels of every size, and looks at a layout by
 * ways of the tests' own.
 */
import type { Item, Label, PathItem } from '../../src/drawing/item.ts';
import type { RoomFocus } from '../../src/drawing/room-focus.ts';
import type { RoomPanel } from '../../src/drawing/room-frame.ts';
import type { RoomSeen } from '../../src/drawing/room-views.ts';
import type { Exercise } from '../../src/exercise/exercise.ts';
import { openCode, writeCode } from '../../src/exercise/exercise-code.ts';
import { outlineOf } from '../../src/exercise/outline.ts';
import { alcoveStructures } from '../../src/recess/families/alcove-structures.ts';
import type { Side } from '../../src/recess/recess-spec.ts';
import type { Act, SurfacePlace } from '../../src/survey/act.ts';
import { perform } from '../../src/survey/acting.ts';
import { learnerView, type SeenMark } from '../../src/survey/learner-view.ts';
import { reckon, reckonedPlace } from '../../src/survey/reckoning.ts';
import { beginSurvey, type Survey } from '../../src/survey/survey.ts';
import { openWorld } from '../../src/survey/world.ts';
import { exerciseOfShape } from './family-rooms.ts';

export const nothingInHand: RoomFocus = { place: null, surface: null, datum: null, runPlaces: [], ruleLengthMm: 0 };

/** Every size that the page has, and some between; the strip is a phone's. */
export const panels: readonly RoomPanel[] = [
  ...(['plan', 'elevation', 'section'] as const).flatMap((large) => [
    { width: 440, height: 612, large },
    { width: 350, height: 500, large },
    { width: 358, height: 170, large },
  ]),
  { width: 288, height: 166, large: 'plan' },
  { width: 390, height: 560, large: 'plan' },
  { width: 520, height: 700, large: 'elevation' },
  { width: 640, height: 400, large: 'plan' },
  { width: 700, height: 900, large: 'section' },
  { width: 900, height: 360, large: 'elevation' },
];

/** A room of a seed, surveyed so far: stood once or twice, turned, marked; every tenth has no level yet. */
export function seenRoom(seed: number): RoomSeen {
  return seenIn(surveyed(seed));
}

/** A room of a shape, surveyed so far as a room of a seed is. */
export function seenShape(name: string, seed: number): RoomSeen {
  return seenIn(actsOf(seed).reduce((survey, act) => perform(survey, act).survey, begun(exerciseOfShape(name))));
}

function begun(exercise: Exercise): Survey {
  return beginSurvey(openWorld(exercise));
}

function seenIn(survey: Survey): RoomSeen {
  const view = learnerView(survey);
  return { ...view, marks: view.marks.map((m): SeenMark => ({ ...m, at: placeOfMark(survey, m.mark, m.place) })) };
}

/** Acts in a room of a seed; what is refused leaves nothing. */
export function surveyed(seed: number, acts: readonly Act[] = actsOf(seed)): Survey {
  const structure = alcoveStructures[seed % alcoveStructures.length]?.name ?? 'closing';
  const opened = openCode(writeCode({ family: 'alcove', severity: 'old', structure, kit: 'site', seed }));
  if (!opened.ok) throw new Error(opened.error.says);
  return acts.reduce((survey, act) => perform(survey, act).survey, beginSurvey(openWorld(opened.value)));
}

/** A run in hand on a side of a room, its rule at one of its places. */
export function inHand(view: RoomSeen, surface: Side, pick: number): RoomFocus {
  const { width, height, depth } = view.outline.openingMm;
  const deep = depth - 60;
  const heights = [height - 260, 1250, 300];
  const across = [0 - width / 3, 0, width / 3].map(Math.round);
  const side = heights.flatMap((zMm): SurfacePlace[] => [
    { surface, along: 'F', zMm },
    { surface, yMm: deep, zMm },
  ]);
  const back = heights.flatMap((zMm) => across.map((xMm): SurfacePlace => ({ surface, xMm, zMm })));
  const flat = across.flatMap((xMm): SurfacePlace[] => [
    { surface, along: 'F', xMm },
    { surface, xMm, yMm: deep },
  ]);
  const said = surface === 'back' ? back : surface === 'left' || surface === 'right' ? side : flat;
  const places = said.map((place) => reckonedPlace(view.outline, view.level, place));
  return {
    place: places[pick % places.length] ?? null,
    surface,
    datum: surface === 'back' ? 'F' : surface === 'left' || surface === 'right' ? 'S' : 'L',
    runPlaces: places.map((p, i) => ({ ...p, done: i % 3 !== 0 })),
    ruleLengthMm: 200 * (1 + (pick % 5)),
  };
}

/** x, y pairs of an item; a circle's middle. */
export function pointsOf(item: Item): readonly (readonly [number, number])[] {
  if (item.kind === 'circle') return [[item.x, item.y]];
  return Array.from({ length: item.points.length / 2 }, (_, i) => [
    item.points[2 * i] as number,
    item.points[2 * i + 1] as number,
  ]);
}

/** The paths of a stroke. */
export function pathsOf(items: readonly Item[], stroke: string): readonly PathItem[] {
  return items.filter((i): i is PathItem => i.kind === 'path' && i.stroke === stroke);
}

/**
 * The box that a label's ink can fill, px, by widths of the tests' own.
 *
 * @source advance widths of Arial, thousandths of an em (from memory); flags stand on a disc of 18, a pill of 24
 */
export function inkBox(label: Label): { left: number; right: number; top: number; bottom: number; says: string } {
  const size = label.role === 'caption' ? 14 : 12;
  const thousandths: Readonly<Record<string, number>> = { ' ': 278, r: 333, i: 222, t: 278, l: 222, c: 500 };
  const text = [...label.text].reduce((sum, sign) => sum + (thousandths[sign] ?? (sign < 'a' ? 610 : 556)), 0);
  const wide = label.role === 'flag' ? (label.text.length > 1 ? 24 : 18) : (text / 1000) * size;
  const left = label.anchor === 'middle' ? label.x - wide / 2 : label.anchor === 'end' ? label.x - wide : label.x;
  const [up, down] = label.role === 'flag' ? [13.5, 4.5] : [0.75 * size, 0.22 * size];
  return { left, right: left + wide, top: label.y - up, bottom: label.y + down, says: `${label.view} ${label.text}` };
}

function actsOf(seed: number): Act[] {
  if (seed % 10 === 0) return [];
  const n = (i: number, low: number, high: number) => Math.round(low + (high - low) * share(seed * 31 + i));
  const out = seed % 3 === 0;
  const acts: Act[] = [
    { act: 'stand', xMm: n(1, -250, 250), yMm: out ? n(2, 0, 150) : n(2, -500, 160), heightMm: n(3, 500, 1700) },
    { act: 'settle' },
    {
      act: 'turn',
      byMmPerM: seed % 4 === 0 && !out ? n(4, -900, 900) : n(4, -20, 20),
      quarters: seed % 7 === 0 && !out ? 1 : 0,
    },
    { act: 'mark', place: { surface: 'left', along: 'F', zMm: n(5, 300, 2000) } },
    { act: 'mark', place: { surface: 'right', along: 'F', zMm: n(6, 300, 2000) } },
    { act: 'mark', place: { surface: 'back', along: 'S', zMm: n(7, 300, 2000) } },
    { act: 'mark', place: { surface: 'floor', along: 'S', yMm: n(8, -700, -200) } },
    { act: 'mark', place: { surface: 'back', along: 'L', xMm: n(9, -200, 200) } },
  ];
  if (out)
    acts.push(
      { act: 'stand', xMm: n(10, -300, 1200), yMm: n(11, -3000, -400), heightMm: n(12, 500, 1700) },
      { act: 'settle' },
      { act: 'turn', byMmPerM: n(13, -90, 90) },
    );
  return acts;
}

/** A share of one that a count gives, spread evenly. */
function share(count: number): number {
  const mixed = Math.imul(count ^ 0x9e3779b9, 0x85ebca6b);
  return ((mixed ^ (mixed >>> 13)) >>> 0) / 2 ** 32;
}

function placeOfMark(survey: Survey, mark: number, place: SurfacePlace) {
  const made = survey.entries.findIndex((e) => e.act.act === 'mark' && e.outcome.ok && e.outcome.mark === mark);
  const { exercise } = survey.world;
  return reckonedPlace(outlineOf(exercise), reckon(exercise, survey.entries.slice(0, made)), place);
}
