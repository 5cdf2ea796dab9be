/**
 * Fitting day played back: the carcass pushed in from the mouth, in plan and from the front, and where it stops. Units px.
 *
 * The recess is drawn straight, from its outline; what touches is told by rings. The way in is to scale.
 */
import type { Outline } from '../exercise/outline.ts';
import type { PushedIn } from '../marking/push-in.ts';
import type { TightPlace } from '../marking/tight-places.ts';
import { around, type Ring, type Taken, textWidth, withLetters } from './ring-letters.ts';
import { fitted, type Viewport } from './viewport.ts';

export interface Rectangle {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export interface Words {
  readonly x: number;
  readonly y: number;
  readonly text: string;
  readonly anchor: 'start' | 'middle' | 'end';
}

/** What is played back. */
export interface Played {
  readonly outline: Outline;
  readonly pushed: PushedIn;
  readonly tight: readonly TightPlace[];
  /** The frame as it is offered up; null where none was sent. */
  readonly frame: { readonly leftMm: number; readonly widthMm: number; readonly thicknessMm: number } | null;
}

export interface FitPlan {
  readonly width: number;
  readonly height: number;
  /** Cut walls: closed shapes to hatch, and the line of the walls. */
  readonly solid: readonly string[];
  readonly walls: string;
  readonly face: { readonly y: number; readonly x0: number; readonly x1: number; readonly flagX: number };
  readonly home: { readonly y: number; readonly x0: number; readonly x1: number };
  /** The carcass where it stops. */
  readonly carcass: Rectangle;
  /** How far back towards the mouth it is drawn at a share of its way, 0 at the mouth, 1 where it stops; px down. */
  backBy(share: number): number;
  readonly name: Words;
  /** How far it is short of home, with an arrow where there is room for one. */
  readonly toGo: (Words & { readonly arrow: string | null }) | null;
  readonly frame: Rectangle | null;
  readonly rings: readonly Ring[];
}

export interface FitFront {
  readonly width: number;
  readonly height: number;
  readonly solid: readonly string[];
  readonly walls: string;
  readonly carcass: Rectangle;
  readonly shelves: readonly number[];
  readonly plinth: Rectangle;
  readonly rings: readonly Ring[];
}

const wallPx = 14;
const longestFrontPx = 150;
const leastFrontPx = 76;

/** Lays out the plan: the back at the top, the mouth below, the carcass coming in from the foot. */
export function layoutFitPlan(played: Played, width: number): FitPlan {
  const { outline, pushed } = played;
  const { port, height } = planPort(played, width);
  const half = outline.openingMm.width / 2;
  const { carcass } = pushed;
  const [x0, back] = port.at(-half, outline.openingMm.depth);
  const [x1, mouth] = port.at(half, outline.mouthMm);
  const [left, stop] = port.at(carcass.leftMm, pushed.backMm);
  const [, home] = port.at(0, pushed.homeMm);
  const [, face] = port.at(0, 0);
  const box = { x: left, y: stop, width: carcass.widthMm * port.scale, height: carcass.depthMm * port.scale };
  const breastRight = outline.breastSide === 'right';
  const name = nameIn(box, { face, foot: height, text: `carcass ${carcass.depthMm} deep` });
  const toGo = toGoOf(pushed, { box, home });
  const flagX = (x0 + x1) / 2;
  const taken = [wordsBox(name), around(flagX, face, { width: 20, height: 20 }), ...(toGo ? [wordsBox(toGo)] : [])];
  return {
    width,
    height,
    solid: planSolid({ x0, x1, back, mouth, foot: height, breastRight, width }),
    walls: breastRight
      ? `M${r(x0)} ${height}V${r(back)}H${r(x1)}V${r(mouth)}H${width}`
      : `M${r(x1)} ${height}V${r(back)}H${r(x0)}V${r(mouth)}H0`,
    face: { y: face, x0, x1, flagX },
    home: { y: home, x0: left, x1: left + box.width },
    carcass: box,
    backBy: (share) => (1 - share) * (mouth - stop),
    name,
    toGo,
    frame: frameInPlan(played, port),
    rings: planRings(played, port, taken),
  };
}

/** Lays out the front: the carcass on its plinth in the opening. */
export function layoutFitFront(played: Played, size: { width: number; height: number }): FitFront {
  const { outline, pushed, tight } = played;
  const { width, height } = outline.openingMm;
  const half = width / 2;
  const wanted = { x: wallPx, y: wallPx, width: size.width - 2 * wallPx, height: size.height - wallPx - 4 };
  const scale = Math.min(wanted.width / width, wanted.height / height);
  const port = fitted({ ...wanted, x: (size.width - width * scale) / 2 }, { a: [-half, half], b: [0, height] });
  const [x0, y0] = port.at(-half, height);
  const [x1, y1] = port.at(half, 0);
  const { carcass } = pushed;
  const [left, top] = port.at(carcass.leftMm, carcass.topMm);
  const [right, bottom] = port.at(carcass.leftMm + carcass.widthMm, carcass.bottomMm);
  const box = { x: left, y: top, width: right - left, height: bottom - top };
  const rings = tight
    .filter((t) => t.side !== 'back')
    .map((t) => {
      const [x, y] = port.at(t.at.x, t.at.z);
      return { letter: t.letter, touches: t.touches, x, y, inside: insideOf(t.side, y < (y0 + y1) / 2) };
    });
  return {
    width: size.width,
    height: y1 + 4,
    solid: [
      `M${r(x0 - wallPx)} ${r(y0 - wallPx)}H${r(x1 + wallPx)}V${r(y1)}H${r(x1)}V${r(y0)}H${r(x0)}V${r(y1)}H${r(x0 - wallPx)}Z`,
    ],
    walls: `M${r(x0)} ${r(y1)}V${r(y0)}H${r(x1)}V${r(y1)}M${r(x0 - wallPx)} ${r(y1)}H${r(x1 + wallPx)}`,
    carcass: box,
    shelves: [1, 2, 3, 4].map((i) => top + (box.height * i) / 5),
    plinth: { x: left + 3, y: bottom, width: Math.max(0, box.width - 6), height: Math.max(0, y1 - bottom) },
    rings: withLetters(rings, []),
  };
}

/** About the rectangle that words take. */
export function wordsBox(w: Words, size = 12): Taken {
  const wide = textWidth(w.text, size);
  const x0 = w.anchor === 'start' ? w.x : w.anchor === 'end' ? w.x - wide : w.x - wide / 2;
  return { x0, x1: x0 + wide, y0: w.y - size, y1: w.y + 4 };
}

/** The plan's scale, and how much of the room in front is shown: enough for what stands out where it stops. */
function planPort({ outline, pushed }: Played, width: number): { port: Viewport; height: number } {
  const { openingMm, mouthMm } = outline;
  const scale = Math.min((width - 2 * wallPx - 4) / openingMm.width, 200 / openingMm.depth);
  const standsOutMm = pushed.carcass.depthMm - (pushed.backMm - mouthMm);
  const front = Math.min(Math.max(standsOutMm * scale + 24, leastFrontPx), longestFrontPx);
  const deep = (openingMm.depth - mouthMm) * scale;
  const height = Math.round(wallPx + deep + front);
  const half = openingMm.width / 2;
  const wide = openingMm.width * scale;
  const box = { x: (width - wide) / 2, y: wallPx, width: wide, height: height - wallPx };
  const port = fitted(box, { a: [-half, half], b: [openingMm.depth - (height - wallPx) / scale, openingMm.depth] });
  return { port, height };
}

/** The party wall runs on into the room; the breast ends at its face, which is the mouth. */
function planSolid(of: {
  x0: number;
  x1: number;
  back: number;
  mouth: number;
  foot: number;
  breastRight: boolean;
  width: number;
}): string[] {
  const { x0, x1, back, mouth, foot, width } = of;
  const [party, breast] = of.breastRight ? [x0, x1] : [x1, x0];
  const outer = of.breastRight ? x0 - wallPx : x1 + wallPx;
  const far = of.breastRight ? width : 0;
  return [
    `M${r(outer)} ${r(back - wallPx)}H${r(far)}V${r(mouth)}H${r(breast)}V${r(back)}H${r(party)}V${foot}H${r(outer)}Z`,
  ];
}

/** The carcass's name, inside it, clear of the face line. */
function nameIn(box: Rectangle, of: { face: number; foot: number; text: string }): Words {
  const foot = Math.min(box.y + box.height, of.foot);
  const spots = [(box.y + of.face) / 2, (of.face + foot) / 2, (box.y + foot) / 2];
  const fits = (y: number) => y > box.y + 24 && y < foot - 10 && Math.abs(y - of.face) > 20;
  const y = spots.find(fits) ?? Math.min(box.y + 28, foot - 10);
  return { x: box.x + box.width / 2, y: y + 4, text: of.text, anchor: 'middle' };
}

function toGoOf(pushed: PushedIn, { box, home }: { box: Rectangle; home: number }): FitPlan['toGo'] {
  if (!pushed.stoppedBy) return null;
  const x = box.x + box.width * 0.72;
  const gap = box.y - home;
  const short = pushed.shortMm >= 9.95 ? Math.round(pushed.shortMm) : Math.round(pushed.shortMm * 10) / 10;
  const text = `${short === 0 ? 'under 0.1' : short} to go`;
  if (gap < 22) return { x, y: box.y + 17, text, anchor: 'start', arrow: null };
  const arrow = `M${r(x - 10)} ${r(box.y - 2)}V${r(home + 4)}M${r(x - 13.5)} ${r(home + 11)}L${r(x - 10)} ${r(home + 4)}L${r(x - 6.5)} ${r(home + 11)}`;
  return { x, y: (box.y + home) / 2 + 4, text, anchor: 'start', arrow };
}

function frameInPlan({ frame }: Played, port: Viewport): Rectangle | null {
  if (!frame) return null;
  const [x, y] = port.at(frame.leftMm, frame.thicknessMm);
  return { x, y, width: frame.widthMm * port.scale, height: Math.max(5, frame.thicknessMm * port.scale) };
}

function planRings({ tight, pushed }: Played, port: Viewport, taken: readonly Taken[]): Ring[] {
  const rings = tight
    .filter((t) => t.side !== 'top')
    .map((t) => {
      // A side is never tight further in than the carcass has come; what is behind it is.
      const [x, y] = port.at(t.at.x, t.side === 'back' ? t.at.y : Math.min(t.at.y, pushed.backMm));
      return { letter: t.letter, touches: t.touches, x, y, inside: insideOf(t.side, true) };
    });
  return withLetters(rings, taken);
}

function insideOf(side: TightPlace['side'], downwards: boolean): readonly [number, number] {
  const down = downwards ? 1 : -1;
  if (side === 'left') return [1, down];
  if (side === 'right') return [-1, down];
  return [0, 1];
}

function r(px: number): number {
  return Math.round(px * 10) / 10;
}
