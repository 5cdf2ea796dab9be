/**
 * A brief in words.
 */
import type { ReferenceKind } from '../recess/recess-spec.ts';
import type { Brief } from './brief.ts';

/** Says a brief, a line an element. */
export function sayBrief(brief: Brief): string[] {
  const { openingMm, carcassMm, askMm } = brief;
  const size = (s: { nominalMm: number; find: boolean }) =>
    s.find ? `to be found (about ${s.nominalMm})` : `${s.nominalMm}, as it stands`;
  const fates = Object.entries(brief.fates);
  const said = { stays: 'stays', off: 'comes off', cut: 'may be cut' } as const;
  const sayFate = ([name, fate]: [string, keyof typeof said]) =>
    `${name} ${brief.cutOuts?.includes(name) ? 'is cut for' : said[fate]}`;
  return [
    `opening, roughly: ${openingMm.width} x ${openingMm.height}, ${openingMm.depth} deep`,
    sayFaceLine(brief),
    ...(brief.shelves
      ? sayShelves(brief.shelves)
      : [
          `carcass width ${size(carcassMm.width)}, height ${size(carcassMm.height)}, depth ${size(carcassMm.depth)}; it begins ${brief.carcassFrontMm} behind the face line`,
          `leave ${askMm.left} left, ${askMm.right} right, ${askMm.top} over, ${askMm.back} behind; plinth ${brief.plinthMm} from the high point of the floor`,
          brief.frame
            ? `face frame ${brief.frame.thicknessMm} thick, ${brief.frame.leastStockMm} to ${brief.frame.mostStockMm} to scribe off each edge`
            : 'no face frame',
        ]),
    ...(brief.modules
      ? [
          `${brief.modules.count} carcasses side by side, of equal widths: that is their width together; set them out from S by running positions, the infill at each end ${askMm.left} at its narrowest, ${brief.modules.mostInfillMm} at the most`,
        ]
      : []),
    ...(brief.cutOuts
      ? [
          `the back is cut for ${brief.cutOuts.join(', ')}: the middle of each from S and from L, with the size of the cut, ${brief.cutOutSpareMm?.least ?? 0} to ${brief.cutOutSpareMm?.most ?? 0} clear all round`,
        ]
      : []),
    ...brief.finishMm.map(({ surface, mm }) => `to come on the ${surface} before fitting: ${mm}`),
    ...(fates.length > 0 ? [fates.map(sayFate).join('; ')] : []),
    ...(brief.access
      ? [
          `it is stood up under ${brief.access.clearHeightMm}; the plinth comes ${brief.access.plinthSeparate ? 'separately' : 'on it'}`,
        ]
      : []),
  ];
}

function sayShelves(shelves: NonNullable<Brief['shelves']>): string[] {
  const { heightsMm, thicknessMm, lengthMm, leastStockMm, mostStockMm } = shelves;
  return [
    `shelves ${thicknessMm} thick and ${lengthMm} long, half of it to either side of the middle, their undersides ${heightsMm.join(', ')} up; fronts on the face line`,
    `all blanks of one depth, to be found: their backs are scribed to the wall, ${leastStockMm} to ${mostStockMm} to come off`,
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
};

function sayFaceLine(brief: Brief): string {
  const { setBackMm, mouthMm } = brief;
  const follows = `${referenceWords[brief.reference]}, which is seen to waver about ${brief.referenceWaverMm} either way`;
  const line = setBackMm
    ? `face line: ${setBackMm} behind and in line with ${follows}`
    : `face line: follows ${follows}`;
  return mouthMm < 0 ? `${line}; ${-mouthMm} behind the breast's face` : line;
}
