/**
 * The line of the room that is looked at, by name.
 */
import type { ReferenceKind } from '../recess/recess-spec.ts';

/** What a thrown line is seen to run along or off, with its article. */
export const referenceNames: Readonly<Record<ReferenceKind, string>> = {
  'cornice-return': 'the cornice return',
  'breast-face': "the breast's face",
  'floor-joint': 'the joint of the floorboards',
  'tile-joint': 'the joint of the tiles',
  'opposite-wall': 'the wall opposite',
  'existing-front': 'the front that is there already',
  'square-to-wall': 'a line square to one wall',
  'best-fit': 'the best fit between the walls',
  'wall-face': 'the face of the wall',
};
