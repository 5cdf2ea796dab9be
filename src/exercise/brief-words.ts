/**
 * A brief in words.
 */

import { sayWritten } from '../recess/lengths.ts';
import type { ReferenceKind } from '../recess/recess-spec.ts';
import { usualSideNames } from '../recess/side-words.ts';
import { baysOf } from './bays.ts';
import type { Brief } from './brief.ts';
import type { Exercise } from './exercise.ts';

/** Says what is to be made in every recess of an exercise, from left to right. */
export function sayBriefs(exercise: Exercise): string[] {
  const bays = baysOf(exercise);
  if (bays.length === 1) return sayBrief(exercise.brief);
  return bays.flatMap(({ bay, exercise: { brief } }) => [
    `${bay === 1 ? 'left' : 'right'} recess:`,
    ...sayBrief(brief).map((line) => `  ${line}`),
  ]);
}

/** Says the brief of one recess, a line an element. */
export function sayBrief(brief: Brief): string[] {
  const { openingMm, askMm } = brief;
  const fates = Object.entries(brief.fates);
  const said = { stays: 'stays', off: 'comes off', cut: 'may be cut' } as const;
  const sayFate = ([name, fate]: [string, keyof typeof said]) =>
    `${name} ${brief.cutOuts?.includes(name) ? 'is cut for' : said[fate]}`;
  return [
    `opening, roughly: ${sayWritten(openingMm.width)} x ${sayWritten(openingMm.height)}, ${sayWritten(openingMm.depth)} deep`,
    sayFaceLine(brief),
    ...(brief.shelves ? sayShelves(brief.shelves) : brief.lining ? sayLining(brief, brief.lining) : sayCarcass(brief)),
    ...(brief.modules
      ? [
          `${brief.modules.count} carcasses side by side, of equal widths: that is their width together; set them out from S by running positions, the infill at each end ${sayWritten(askMm.left)} at its narrowest, ${sayWritten(brief.modules.mostInfillMm)} at the most`,
        ]
      : []),
    ...(brief.cutOuts
      ? [
          `the back is cut for ${brief.cutOuts.join(', ')}: the middle of each from S and from L, with the size of the cut, ${sayWritten(brief.cutOutSpareMm?.least ?? 0)} to ${sayWritten(brief.cutOutSpareMm?.most ?? 0)} clear all round`,
        ]
      : []),
    ...brief.finishMm.map(
      ({ surface, mm }) => `to come on the ${usualSideNames[surface]} before fitting: ${sayWritten(mm)}`,
    ),
    ...(fates.length > 0 ? [fates.map(sayFate).join('; ')] : []),
    ...(brief.access ? sayAccess(brief.access) : []),
  ];
}

function sayShelves(shelves: NonNullable<Brief['shelves']>): string[] {
  const { heightsMm, thicknessMm, lengthMm, leastStockMm, mostStockMm } = shelves;
  return [
    `shelves ${sayWritten(thicknessMm)} thick and ${sayWritten(lengthMm)} long, half of it to either side of the middle, their undersides ${heightsMm.map((mm) => sayWritten(mm)).join(', ')} up; fronts on the face line`,
    `all blanks of one depth, to be found: their backs are scribed to the wall, ${sayWritten(leastStockMm)} to ${sayWritten(mostStockMm)} to come off`,
  ];
}

/** What a face line follows, in words. */
export const referenceWords: Readonly<Record<ReferenceKind, string>> = {
  'cornice-return': 'the cornice return over the mouth',
  'breast-face': 'the face of the breast',
  'floor-joint': 'a joint of the floor boards',
  'tile-joint': 'a joint of the tiles',
  'opposite-wall': 'the opposite wall',
  'existing-front': 'the existing front beside it',
  'square-to-wall': 'square to one side wall',
  'best-fit': 'the best fit between the side walls',
  'wall-face': 'the face of the wall',
};

function sayFaceLine(brief: Brief): string {
  const { setBackMm, mouthMm } = brief;
  const follows = `${referenceWords[brief.reference]}, which is seen to waver about ${sayWritten(brief.referenceWaverMm)} either way`;
  const line = setBackMm
    ? `face line: ${sayWritten(setBackMm)} behind and in line with ${follows}`
    : `face line: follows ${follows}`;
  if (mouthMm === 0) return line;
  const isBreast = brief.reference === 'cornice-return' || brief.reference === 'breast-face' || setBackMm !== undefined;
  return `${line}; ${sayWritten(-mouthMm)} behind ${isBreast ? "the breast's face" : 'the mouth'}`;
}

function saySize(s: { nominalMm: number; find: boolean }): string {
  return s.find ? `to be found (about ${sayWritten(s.nominalMm)})` : `${sayWritten(s.nominalMm)}, as it stands`;
}

function sayCarcass(brief: Brief): string[] {
  const { carcassMm, askMm } = brief;
  return [
    `carcass width ${saySize(carcassMm.width)}, height ${saySize(carcassMm.height)}, depth ${saySize(carcassMm.depth)}; it begins ${sayWritten(brief.carcassFrontMm)} behind the face line`,
    ...sayTop(brief),
    `leave ${sayWritten(askMm.left)} left, ${sayWritten(askMm.right)} right, ${sayWritten(askMm.top)} over, ${sayWritten(askMm.back)} behind; plinth ${sayWritten(brief.plinthMm)} from the high point of the floor`,
    brief.frame
      ? `face frame ${sayWritten(brief.frame.thicknessMm)} thick, ${sayWritten(brief.frame.leastStockMm)} to ${sayWritten(brief.frame.mostStockMm)} to scribe off each edge`
      : 'no face frame',
  ];
}

/** A top that slopes, a corner that is cut out. */
function sayTop({ slope, notch }: Brief): string[] {
  const ends = (s: NonNullable<Brief['slope']>) =>
    s.find
      ? `low on the ${s.low}, both ends of its edge to be found (about ${sayWritten(s.lowMm)} and ${sayWritten(s.highMm)})`
      : `from ${sayWritten(s.lowMm)} on the ${s.low} to ${sayWritten(s.highMm)}`;
  return [
    ...(slope ? [`its top slopes, ${ends(slope)}`] : []),
    ...(notch
      ? [`its upper ${notch.side} corner is cut out, ${sayWritten(notch.widthMm)} x ${sayWritten(notch.heightMm)}`]
      : []),
  ];
}

function sayLining(brief: Brief, lining: NonNullable<Brief['lining']>): string[] {
  const { carcassMm, askMm } = brief;
  return [
    `lining of boards ${sayWritten(lining.thicknessMm)} thick, outside width ${saySize(carcassMm.width)}, height ${saySize(carcassMm.height)}, depth through the wall ${saySize(carcassMm.depth)}; its near edge is on the face line`,
    `packing: ${sayWritten(askMm.left)} left, ${sayWritten(askMm.right)} right, ${sayWritten(askMm.top)} over it${brief.plinthMm > 0 ? `, ${sayWritten(brief.plinthMm)} under it` : ''}; it stands over the high point of the floor`,
    `${sayWritten(lining.leastStockMm)} to ${sayWritten(lining.mostStockMm)} to plane off its far edge`,
  ];
}

function sayAccess(access: NonNullable<Brief['access']>): string[] {
  const { door, turn } = access;
  return [
    `it is stood up under ${sayWritten(access.clearHeightMm)}; the plinth comes ${access.plinthSeparate ? 'separately' : 'on it'}`,
    ...(door
      ? [`the narrowest door on the way in is ${sayWritten(door.widthMm)} by ${sayWritten(door.heightMm)} clear`]
      : []),
    ...(turn
      ? [
          `the stair turns by a right angle: ${sayWritten(turn.beforeMm)} clear before the turn, ${sayWritten(turn.afterMm)} after it, ${sayWritten(turn.heightMm)} over it`,
        ]
      : []),
  ];
}
