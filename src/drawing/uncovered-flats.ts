/**
 * Floor and ceiling uncovered, by width: at the face line and at the back. A ceiling under which a staying trim hangs is
 * drawn at two levels; what lies between the levels, and between ceiling and floor, is left out. px.
 */
import { sayWritten } from '../recess/lengths.ts';
import { closed, drawnFactor, type Px, px, through } from './drawn-out.ts';
import { withLetters } from './ring-letters.ts';
import type { DrawnCurve, UncoveredLayout, Uncovering } from './uncovered.ts';
import { fitted } from './viewport.ts';

const sidePx = 12;
const reachPx = 46;
const namePx = 18;
/** Further from a level than this, a surface belongs to another, mm. */
const ofLevelMm = 30;

interface Level {
  readonly name: string;
  readonly side: 'floor' | 'ceiling';
  /** The straight height there, mm, and where it is drawn, px. */
  readonly mm: number;
  readonly y: number;
}

/** Lays the section out. */
export function layoutFlatsSection(of: Uncovering, panel: { width: number; height: number }): UncoveredLayout {
  const { room, carcass, plinthMm } = of;
  const curves = room.others.filter((c) => c.side === 'floor' || c.side === 'ceiling');
  const levels = levelsOf(of, panel.height);
  const levelOf = (side: string, z: number) => nearestLevel(levels, side, z);
  const along = curves.flatMap((c) => c.alongMm);
  const wide = panel.width - 2 * sidePx;
  const port = fitted(
    { x: sidePx, y: 0, width: wide, height: wide },
    { a: [Math.min(...along), Math.max(...along)], b: [0, 1] },
  );
  const over = of.tight.find((t) => t.surface === 'ceiling');
  const ends = carcass && {
    top: { mm: carcass.topMm, level: levelOf('ceiling', over?.at.z ?? carcass.topMm) },
    foot: { mm: carcass.bottomMm - plinthMm, level: levels.find((l) => l.side === 'floor') ?? null },
  };
  const departures = [
    ...curves.flatMap((c) => c.acrossMm.map((z) => ({ mm: z, level: levelOf(c.side, z) }))),
    ...(ends ? [ends.top, ends.foot] : []),
  ];
  const factor = drawnFactor((f) =>
    departures.every(({ mm, level }) => !level || Math.abs(mm - level.mm) * f * port.scale <= reachPx),
  );
  const yOf = (level: Level, z: number) => level.y - (z - level.mm) * factor * port.scale;
  const at = (level: Level, x: number, z: number): Px => [port.at(x, 0)[0], yOf(level, z)];
  const drawn = curves.flatMap((c) =>
    runsOf(c, levelOf).map(({ level, points }) => ({
      level,
      line: points.map(([x, z]) => at(level, x, z)),
      pen: (c.atMm > 0 ? 'back' : 'front') as DrawnCurve['pen'],
    })),
  );
  const half = Math.max(...curves.map((c) => c.atMm)) / 2;
  const point = (side: string, p: { x: number; z: number }) => {
    const level = levelOf(side, p.z);
    return level ? [{ x: port.at(p.x, 0)[0], y: yOf(level, p.z) }] : [];
  };
  const hatched = (d: (typeof drawn)[number]) =>
    d.pen === 'back' || !drawn.some((o) => o.level === d.level && o.pen === 'back');
  return {
    width: panel.width,
    height: panel.height,
    factor,
    solid: drawn.filter(hatched).map(({ level, line }) => {
      const beyond = level.y + (level.side === 'ceiling' ? -reachPx : reachPx);
      return closed(
        line,
        line.map(([x]): Px => [x, beyond]),
      );
    }),
    straight: levels.map((l) => `M${sidePx} ${px(l.y)}H${px(panel.width - sidePx)}`),
    ends: [],
    curves: drawn.map(({ level, line, pen }) => ({ d: through(line), pen, across: 'y', straightPx: level.y })),
    box:
      carcass && ends?.top.level && ends.foot.level
        ? {
            x: port.at(carcass.leftMm, 0)[0],
            y: yOf(ends.top.level, ends.top.mm),
            width: carcass.widthMm * port.scale,
            height: yOf(ends.foot.level, ends.foot.mm) - yOf(ends.top.level, ends.top.mm),
          }
        : null,
    through: [],
    readings: room.readings.flatMap((r) =>
      point(r.side, { x: r.xMm, z: r.zMm }).map((p) => ({ ...p, back: r.yMm > half })),
    ),
    rings: withLetters(
      of.tight.flatMap((t) =>
        point(t.surface, t.at).map((p) => ({
          letter: t.letter,
          touches: t.touches,
          ...p,
          inside: [0, 1] as const,
        })),
      ),
      [],
    ),
    decided: of.decided.flatMap((d) => point(d.side, d.at)),
    names: levels.map((l) => ({
      x: sidePx,
      y: l.side === 'ceiling' ? l.y - reachPx - 6 : l.y + reachPx + 14,
      text: l.name,
      anchor: 'start',
    })),
    places: curves.flatMap((c) =>
      c.alongMm.flatMap((x, i) =>
        point(c.side, { x, z: c.acrossMm[i] ?? c.straightMm }).map((p) => ({ side: c.side, u: x, v: c.atMm, ...p })),
      ),
    ),
  };
}

/** The levels from the top down: the ceiling, what hangs under it, the floor. */
function levelsOf(of: Uncovering, height: number): Level[] {
  const straightMm = (side: string) => of.room.others.find((c) => c.side === side)?.straightMm ?? 0;
  const drops = [...new Set(of.dropsMm)].sort((a, b) => a - b);
  const band = 2 * reachPx + namePx + 6;
  const over = of.room.others.some((c) => c.side === 'ceiling') ? [0, ...drops] : [];
  const ceilings = over.map(
    (drop, i): Level => ({
      name: drop === 0 ? 'ceiling' : `under the cornice, ${sayWritten(drop)} lower`,
      side: 'ceiling',
      mm: straightMm('ceiling') - drop,
      y: namePx + reachPx + i * band,
    }),
  );
  const last = ceilings.at(-1)?.y ?? 0 - band + namePx + reachPx;
  const y = Math.max(height - reachPx - namePx, last + band);
  return [...ceilings, { name: 'floor', side: 'floor', mm: straightMm('floor'), y }];
}

function nearestLevel(levels: readonly Level[], side: string, z: number): Level | null {
  let best: Level | null = null;
  for (const l of levels) {
    if (l.side !== side || Math.abs(z - l.mm) > ofLevelMm) continue;
    if (!best || Math.abs(z - l.mm) < Math.abs(z - best.mm)) best = l;
  }
  return best;
}

/** The stretches of a curve, two points and more, that keep to one level. */
function runsOf(
  c: Uncovering['room']['others'][number],
  levelOf: (side: string, z: number) => Level | null,
): { level: Level; points: [number, number][] }[] {
  const runs: { level: Level; points: [number, number][] }[] = [];
  let open: { level: Level; points: [number, number][] } | null = null;
  c.alongMm.forEach((x, i) => {
    const z = c.acrossMm[i] ?? c.straightMm;
    const level = levelOf(c.side, z);
    if (level && open?.level === level) open.points.push([x, z]);
    else {
      open = level ? { level, points: [[x, z]] } : null;
      if (open) runs.push(open);
    }
  });
  return runs.filter((run) => run.points.length > 1);
}
