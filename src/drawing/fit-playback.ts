/**
 * Fitting day played back: the carcass pushed in from the mouth, in plan and from the front, and where it stops. Units px.
 *
 * The recess is drawn straight, from its outline; what touches is told by rings. The way in is to scale.
 */

import type { Outline } from '../exercise/outline.ts';
import { sayMuch } from '../marking/fit-words.ts';
import type { PushedIn } from '../marking/push-in.ts';
import type { TightPlace } from '../marking/tight-places.ts';
import { sayWritten } from '../recess/lengths.ts';
import { goesThrough, hasFace, isThere, topLine } from './outline-shape.ts';
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
  /** What is made: how many carcasses stand side by side, or how thick a lining's boards are. */
  readonly made?: { readonly modules?: number | undefined; readonly liningMm?: number | undefined };
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
  /** The carcass's outline, its top sloped where it is; the boards of a lining inside it. */
  readonly carcass: string;
  /** Shelves and the sides of carcasses that stand beside each other: straight pieces. */
  readonly inside: string;
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
  const name = nameIn(box, {
    face,
    foot: height,
    text: `${played.made?.liningMm ? 'lining' : 'carcass'} ${sayWritten(carcass.depthMm)} deep`,
  });
  const toGo = toGoOf(pushed, { box, home });
  const flagX = (x0 + x1) / 2;
  const taken = [wordsBox(name), around(flagX, face, { width: 20, height: 20 }), ...(toGo ? [wordsBox(toGo)] : [])];
  return {
    width,
    height,
    ...planWalls(outline, { x: { left: x0, right: x1 }, back, mouth, foot: height, width }),
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
  const [left, bottom] = port.at(carcass.leftMm, carcass.bottomMm);
  const right = port.at(carcass.leftMm + carcass.widthMm, 0)[0];
  const rings = tight
    .filter((t) => t.side !== 'back')
    .map((t) => {
      const [x, y] = port.at(t.at.x, t.at.z);
      return { letter: t.letter, touches: t.touches, x, y, inside: insideOf(t.side, y < (y0 + y1) / 2) };
    });
  const ceiling = topLine(outline).map(([x, z]) => port.at(x, z));
  const opening = [`${r(x0)} ${r(y1)}`, ...ceiling.map(([x, y]) => `${r(x)} ${r(y)}`), `${r(x1)} ${r(y1)}`];
  const [out0, out1] = (['left', 'right'] as const).map((hand, i) =>
    isThere(outline, hand) ? [x0 - wallPx, x1 + wallPx][i] : [x0, x1][i],
  ) as [number, number];
  const rim = `M${r(out0)} ${r(y1)}V${r(y0 - wallPx)}H${r(out1)}V${r(y1)}H${r(x1)}`;
  return {
    width: size.width,
    height: y1 + 4,
    solid: [`${rim}L${[...opening].reverse().join('L')}Z`],
    walls: `${wallsInFront(outline, opening)}M${r(out0)} ${r(y1)}H${r(out1)}`,
    carcass: carcassShape(played, port),
    inside: insideShape(played, port),
    plinth: { x: left + 3, y: bottom, width: Math.max(0, right - left - 6), height: Math.max(0, y1 - bottom) },
    rings: withLetters(rings, []),
  };
}

/** The opening's edges that are there, from the left foot round to the right. */
function wallsInFront(outline: Outline, opening: readonly string[]): string {
  const edges = [
    isThere(outline, 'left'),
    ...topLine(outline)
      .slice(1)
      .map(([, z], i) => isThere(outline, z === topLine(outline)[i]?.[1] ? 'ceiling' : 'slope')),
    isThere(outline, 'right'),
  ];
  return edges.map((is, i) => (is ? `M${opening[i]}L${opening[i + 1]}` : '')).join('');
}

/** How high a carcass is at a place along its width, from its left, over its bottom: to its top or its sloped edge. */
function highAt({ pushed }: Played, fromLeft: number): number {
  const { heightMm, widthMm, slope } = pushed.carcass;
  if (!slope) return heightMm;
  return Math.min(heightMm, slope.leftMm + ((slope.rightMm - slope.leftMm) * fromLeft) / widthMm);
}

function carcassShape(played: Played, port: Viewport): string {
  const { carcass } = played.pushed;
  const { slope, widthMm, heightMm } = carcass;
  const at = (fromLeft: number, up: number) => {
    const [x, y] = port.at(carcass.leftMm + fromLeft, carcass.bottomMm + up);
    return `${r(x)} ${r(y)}`;
  };
  const kink = slope ? ((heightMm - slope.leftMm) / (slope.rightMm - slope.leftMm)) * widthMm : 0;
  const places = [0, ...(kink > 0 && kink < widthMm ? [kink] : []), widthMm];
  const outer = [at(0, 0), ...places.map((x) => at(x, highAt(played, x))), at(widthMm, 0)];
  const board = played.made?.liningMm;
  const inner = board
    ? `M${at(board, 0)}L${at(board, heightMm - board)}L${at(widthMm - board, heightMm - board)}L${at(widthMm - board, 0)}`
    : '';
  return `M${outer.join('L')}Z${inner}`;
}

/** Shelves at fifths of its height, as far as the carcass reaches there; the sides of carcasses side by side. */
function insideShape(played: Played, port: Viewport): string {
  const { carcass } = played.pushed;
  if (played.made?.liningMm) return '';
  const steps = Array.from({ length: 41 }, (_, i) => (carcass.widthMm * i) / 40);
  const shelves = [1, 2, 3, 4].map((i) => {
    const up = (carcass.heightMm * i) / 5;
    const under = steps.filter((x) => highAt(played, x) >= up);
    const [from, to] = [under[0], under.at(-1)];
    if (from === undefined || to === undefined || to - from < 40) return '';
    const [x0, y] = port.at(carcass.leftMm + from, carcass.bottomMm + up);
    return `M${r(x0)} ${r(y)}H${r(port.at(carcass.leftMm + to, 0)[0])}`;
  });
  const count = played.made?.modules ?? 1;
  const sides = Array.from({ length: count - 1 }, (_, i) => {
    const along = (carcass.widthMm * (i + 1)) / count;
    const [x, y] = port.at(carcass.leftMm + along, carcass.bottomMm + highAt(played, along));
    return `M${r(x)} ${r(y)}V${r(port.at(0, carcass.bottomMm)[1])}`;
  });
  return [...shelves, ...sides].join('');
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

interface PlanLines {
  readonly x: Readonly<Record<'left' | 'right', number>>;
  readonly back: number;
  readonly mouth: number;
  readonly foot: number;
  readonly width: number;
}

/** The cut walls, as the outline has them: a side runs on into the room, ends at an arris, or is open. */
function planWalls(outline: Outline, of: PlanLines): { solid: string[]; walls: string } {
  const { back, mouth, foot, width } = of;
  const solid: string[] = [];
  const through = goesThrough(outline);
  const block = (x0: number, y0: number, x1: number, y1: number) =>
    solid.push(`M${r(x0)} ${r(y0)}H${r(x1)}V${r(y1)}H${r(x0)}Z`);
  const part = (hand: 'left' | 'right'): string[] => {
    const x = of.x[hand];
    const edge = hand === 'left' ? 0 : width;
    const wall = x + (hand === 'left' ? -wallPx : wallPx);
    if (!isThere(outline, hand)) {
      block(x, back - wallPx, edge, back);
      return [`${edge} ${r(back)}`];
    }
    if (!hasFace(outline, hand)) {
      block(x, back - wallPx, wall, foot);
      return [`${r(x)} ${foot}`, `${r(x)} ${r(back)}`];
    }
    block(x, through ? back : back - wallPx, edge, mouth);
    return [
      `${edge} ${r(mouth)}`,
      `${r(x)} ${r(mouth)}`,
      `${r(x)} ${r(back)}`,
      ...(through ? [`${edge} ${r(back)}`] : []),
    ];
  };
  const [left, right] = [part('left'), part('right')];
  if (through) return { solid, walls: `M${left.join('L')}M${right.join('L')}` };
  block(of.x.left, back - wallPx, of.x.right, back);
  return { solid, walls: `M${[...left, ...right.reverse()].join('L')}` };
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
  const text = `${sayMuch(pushed.shortMm)} to go`;
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
