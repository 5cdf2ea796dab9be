/**
 * The back wall uncovered, by height, seen from the left: at the carcass's left, middle and right, with its back. px.
 */
import { closed, drawnFactor, type Px, pastShapes, px, through } from './drawn-out.ts';
import { withLetters } from './ring-letters.ts';
import type { DrawnCurve, UncoveredLayout, Uncovering } from './uncovered.ts';
import { boxOf, edgePx, topPx, uprightEnds, uprightPort } from './uncovered-walls.ts';

/** Where the carcass's front is drawn, px: its depth is not to scale. */
const frontPx = 40;
const leastDepthPx = 48;

/** Lays the section out: the face line on the left, the wall on the right. */
export function layoutBackSection(of: Uncovering, panel: { width: number; height: number }): UncoveredLayout {
  const { room, carcass } = of;
  const curves = room.others.filter((c) => c.side === 'back');
  const straightMm = curves[0]?.straightMm ?? 0;
  const { port, bottom } = uprightPort(Math.max(...curves.flatMap((c) => c.alongMm)), panel);
  const wallX = panel.width * 0.68;
  const departures = [
    ...curves.flatMap((c) => c.acrossMm.map((a) => a - straightMm)),
    ...(carcass ? [carcass.backMm - straightMm] : []),
  ];
  const factor = drawnFactor((f) =>
    departures.every((d) => {
      const x = wallX + d * f * port.scale;
      return x < panel.width - edgePx - 8 && x > frontPx + leastDepthPx;
    }),
  );
  const at = (y: number, z: number): Px => [wallX + (y - straightMm) * factor * port.scale, port.at(0, z)[1]];
  const drawn = curves.map((c) => ({
    pen: penOf(c.atMm),
    line: c.alongMm.map((z, i) => at(c.acrossMm[i] ?? straightMm, z)),
    within: c.alongMm
      .map((z, i) => ({ z, across: c.acrossMm[i] ?? straightMm }))
      .filter(({ z }) => carcass && z >= carcass.bottomMm && z <= carcass.topMm),
  }));
  const point = (y: number, z: number) => ({ x: at(y, z)[0], y: at(y, z)[1] });
  return {
    width: panel.width,
    height: bottom + topPx + 6,
    factor,
    solid: drawn
      .filter((c) => c.pen === 'right')
      .map(({ line }) =>
        closed(
          line,
          line.map(([, y]): Px => [panel.width - edgePx, y]),
        ),
      ),
    straight: [`M${px(wallX)} ${topPx}V${px(bottom)}`],
    ends: uprightEnds(panel.width, bottom),
    curves: drawn.map(({ line, pen }) => ({ d: through(line), pen, across: 'x', straightPx: wallX })),
    box: carcass ? boxOf([frontPx, at(0, carcass.topMm)[1]], at(carcass.backMm, carcass.bottomMm)) : null,
    through: carcass
      ? drawn.flatMap(({ within }) =>
          pastShapes(
            within.map(({ z, across }) => at(across, z)),
            within.map(({ z }) => at(carcass.backMm, z)),
            (i) => carcass.backMm - (within[i]?.across ?? carcass.backMm),
          ),
        )
      : [],
    readings: room.readings.filter((r) => r.side === 'back').map((r) => ({ ...point(r.yMm, r.zMm), back: true })),
    rings: withLetters(
      of.tight
        .filter((t) => t.surface === 'back')
        .map((t) => {
          const p = point(t.at.y, t.at.z);
          return { letter: t.letter, touches: t.touches, ...p, inside: [-1, p.y < panel.height / 2 ? 1 : -1] as const };
        }),
      [],
    ),
    decided: of.decided.filter((d) => d.side === 'back').map((d) => point(d.at.y, d.at.z)),
    names: [{ x: edgePx, y: bottom + 15, text: '← to the face line', anchor: 'start' }],
    places: curves.flatMap((c) =>
      c.alongMm.map((z, i) => ({ side: 'back' as const, u: c.atMm, v: z, ...point(c.acrossMm[i] ?? straightMm, z) })),
    ),
  };
}

function penOf(x: number): DrawnCurve['pen'] {
  return x < 0 ? 'left' : x > 0 ? 'right' : 'middle';
}
