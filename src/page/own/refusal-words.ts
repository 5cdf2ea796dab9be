/**
 * Why a room of one's own is none, by the words that its boxes have.
 */

const words: Readonly<Record<string, string>> = {
  room: '',
  openingMm: '',
  surfaces: '',
  cornersMm: '',
  left: 'left wall',
  right: 'right wall',
  back: 'back wall',
  mm: 'size',
  upMm: 'up from the floor',
  inMm: 'in from the face line',
  rightMm: 'right of the middle',
  wideMm: 'width',
  inFrontMm: 'in front of the face line',
  lowMm: 'height there',
  riseMmPerM: 'rise in a metre',
  unevenMm: 'uneven by up to',
  tallMm: 'tall',
  thickMm: 'thick',
  dropMm: 'drop',
  outMm: 'out from the wall',
  bad: 'belly or hump',
};

/** Says a refusal of a room's file with the names of fields as the page has them. */
export function sayOwnRefusal(says: string): string {
  const [, path, what] = /^room, ([\w.-]+): ([\s\S]*)$/.exec(says) ?? [];
  if (path === undefined || what === undefined) return says.replace(/^room[,:] /, '');
  const named = path
    .split('.')
    .map((part) => (/^\d+$/.test(part) ? String(Number(part) + 1) : (words[part] ?? spaced(part))));
  const where = named
    .filter((word) => word !== '')
    .join(', ')
    .replace(/, (\d)/g, ' $1');
  const plain = what.replace(/, got 0$/, ', and the box is empty or has 0');
  return where === '' ? plain : `${where}: ${plain}`;
}

function spaced(name: string): string {
  return name.replace(/([A-Z])/g, (letter) => ` ${letter.toLowerCase()}`);
}
