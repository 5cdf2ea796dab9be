/**
 * Sizes in words: `carcass width`.
 */
import type { SizeName } from '../survey/size.ts';

export const sizeWords: Record<SizeName, string> = {
  'carcass-width': 'carcass width',
  'carcass-height': 'carcass height',
  'carcass-depth': 'carcass depth',
  'frame-width': 'frame width',
  'frame-height': 'frame height',
  'run-left': 'left end of the run',
  'run-right': 'right end of the run',
  'shelf-depth': 'shelf depth',
  'lining-width': 'lining width',
  'lining-height': 'lining height',
  'lining-depth': 'lining depth',
  'slope-low': 'low end of the sloped edge',
  'slope-high': 'high end of the sloped edge',
};
