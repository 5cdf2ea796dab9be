/**
 * Boxes on the field sheet: each with its edges from S and from L, as a sketch. Units px, y down, 360 wide.
 */
import { sayWritten } from '../recess/lengths.ts';
import type { SheetLayout, SheetText, Slot } from './field-sheet.ts';

const blockHeight = 136;
/** Where a block's parts stand, for a box that lies right of S: the square line, the box, the two upright arrows. */
const at = { s: 40, left: 126, right: 228, top: 46, foot: 88, footArrow: 246, topArrow: 288 } as const;

type Figures = (slot: Slot, at: { x: number; y: number; across: number }) => SheetLayout['figures'];

/**
 * Lays the boxes out, a block each in the order in which they are named.
 *
 * @param levelMm - how high L is reckoned to run; a box that lies under it is drawn under it
 */
export function layoutBoxes(
  slots: readonly Slot[],
  of: { width: number; levelMm: number; datums: { S: string; L: string }; figures: Figures },
): SheetLayout {
  const boxes = new Map<string, Slot[]>();
  for (const slot of slots) {
    const key = `${slot.place.xMm ?? slot.place.yMm ?? 0}/${slot.place.zMm ?? 0}`;
    boxes.set(key, [...(boxes.get(key) ?? []), slot]);
  }
  const blocks = [...boxes.values()].map((own, i) => blockOf(own, { ...of, y: 8 + i * blockHeight }));
  return {
    width: of.width,
    height: Math.max(60, 16 + blocks.length * blockHeight),
    dotted: blocks.flatMap((b) => b.dotted),
    outline: blocks.map((b) => b.outline),
    arrows: blocks.flatMap((b) => b.arrows),
    flags: blocks.flatMap((b) => b.flags),
    figures: blocks.flatMap((b) => b.figures),
    texts: blocks.map((b) => b.text),
    slot: blocks.find((b) => b.slot)?.slot ?? null,
  };
}

interface Block {
  readonly dotted: readonly string[];
  readonly outline: string;
  readonly arrows: SheetLayout['arrows'];
  readonly flags: SheetLayout['flags'];
  readonly figures: SheetLayout['figures'];
  readonly text: SheetText;
  readonly slot: SheetLayout['slot'];
}

function blockOf(
  own: readonly Slot[],
  of: { width: number; levelMm: number; datums: { S: string; L: string }; figures: Figures; y: number },
): Block {
  const place = own[0]?.place;
  const across = place?.xMm ?? 0;
  const up = place?.zMm ?? 0;
  const x = (px: number) => (across < 0 ? of.width - px : px);
  const under = up < of.levelMm;
  const levelY = of.y + (under ? 22 : 116);
  const [top, foot] = [of.y + at.top, of.y + at.foot];
  const [left, right] = across < 0 ? [x(at.right), x(at.left)] : [at.left, at.right];
  const nearS = across < 0 ? 'right' : 'left';
  const figures: SheetLayout['figures'][number][] = [];
  const arrows: SheetLayout['arrows'][number][] = [];
  let slotAt: SheetLayout['slot'] = null;
  const put = (slot: Slot, where: { x: number; y: number }) => {
    figures.push(...of.figures(slot, { ...where, across: 46 }));
    if (slot.now) slotAt = where;
  };
  for (const slot of own) {
    const { edge } = slot.place;
    if (edge === 'left' || edge === 'right') {
      const y = edge === nearS ? top + 8 : foot + 16;
      const to = edge === 'left' ? left : right;
      arrows.push({ path: level(x(at.s), to, y), now: slot.now });
      put(slot, { x: (x(at.s) + (edge === nearS ? to : (left + right) / 2)) / 2, y: y - 4 });
    } else {
      const to = edge === 'top' ? top : foot;
      const atX = x(edge === 'top' ? at.topArrow : at.footArrow);
      arrows.push({ path: upright(atX, levelY, to), now: slot.now });
      put(slot, { x: atX + (across < 0 ? -22 : 22), y: (levelY + to) / 2 + 5 });
    }
  }
  const wobble = `M${left} ${top - 1}C${left + 25} ${top + 0.5} ${right - 20} ${top - 1} ${right} ${top}L${right + 0.5} ${foot}C${right - 20} ${foot + 1} ${left + 20} ${foot - 0.5} ${left} ${foot}Z`;
  return {
    dotted: [`M${x(at.s)} ${of.y + 8}V${of.y + 126}`, `M${x(at.s + 60)} ${levelY}H${x(336)}`],
    outline: wobble,
    arrows,
    flags: [
      { x: x(at.s), y: of.y + 8, datum: of.datums.S },
      { x: x(348), y: levelY, datum: of.datums.L },
    ],
    figures,
    text: {
      text: `${sayWritten(Math.abs(across))} ${across < 0 ? 'left' : 'right'}, ${sayWritten(up)} up`,
      x: (left + right) / 2,
      y: (top + foot) / 2 + 4,
      anchor: 'middle',
      small: true,
    },
    slot: slotAt,
  };
}

function level(from: number, to: number, y: number): string {
  const back = to > from ? -7 : 7;
  return `M${from} ${y}H${to}m${back} -3.5l${-back} 3.5l${back} 3.5`;
}

function upright(x: number, from: number, to: number): string {
  const back = to > from ? -7 : 7;
  return `M${x} ${from}V${to}m-3.5 ${back}l3.5 ${-back}l3.5 ${back}`;
}
