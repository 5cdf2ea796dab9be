/**
 * The slope uncovered, by width, laid level: how far it stands off its plane at the face line and at the back. px.
 */
import { slopeHeight } from '../recess/defect-shapes.ts';
import { closed, drawnFactor, type Px, px, through } from './drawn-out.ts';
import { withLetters } from './ring-letters.ts';
import type { DrawnCurve, UncoveredLayout, Uncovering } from './uncovered.ts';
import { fitted } from './viewport.ts';

const sidePx = 12;
const reachPx = 60;
const straightY = 96;

/** Lays the section out; nothing is drawn where there is no slope. */
export function layoutSlopeSection(of: Uncovering, panel: { width: number; height: number }): UncoveredLayout {
  const curves = of.room.others.filter((c) => c.side === 'slope');
  const along = curves.flatMap((c) => c.alongMm);
  const wide = panel.width - 2 * sidePx;
  const extent = { a: [Math.min(0, ...along), Math.max(1, ...along)] as const, b: [0, 1] as const };
  const port = fitted({ x: sidePx, y: 0, width: wide, height: wide }, extent);
  const most = Math.max(1, ...curves.flatMap((c) => c.acrossMm.map(Math.abs)));
  const factor = drawnFactor((f) => most * f * port.scale <= reachPx);
  const at = (x: number, offMm: number): Px => [port.at(x, 0)[0], straightY - offMm * factor * port.scale];
  const drawn = curves.map((c) => ({
    pen: (c.atMm > 0 ? 'back' : 'front') as DrawnCurve['pen'],
    line: c.alongMm.map((x, i) => at(x, c.acrossMm[i] ?? 0)),
  }));
  const half = Math.max(0, ...curves.map((c) => c.atMm)) / 2;
  const point = ({ x, z }: { x: number; z: number }) => {
    const [px, py] = at(x, z - (of.slope ? slopeHeight(of.slope.spec, of.slope.widthMm, x) : z));
    return { x: px, y: py };
  };
  return {
    width: panel.width,
    height: straightY + reachPx + 30,
    factor,
    solid: drawn
      .filter((d) => d.pen === 'back')
      .map(({ line }) =>
        closed(
          line,
          line.map(([x]): Px => [x, straightY - reachPx - 14]),
        ),
      ),
    straight: [`M${sidePx} ${px(straightY)}H${px(panel.width - sidePx)}`],
    ends: [],
    curves: drawn.map(({ line, pen }) => ({ d: through(line), pen, across: 'y', straightPx: straightY })),
    box: null,
    through: [],
    readings: of.room.readings
      .filter((r) => r.side === 'slope')
      .map((r) => ({ ...point({ x: r.xMm, z: r.zMm }), back: r.yMm > half })),
    rings: withLetters(
      of.tight
        .filter((t) => t.surface === 'slope')
        .map((t) => ({ letter: t.letter, touches: t.touches, ...point(t.at), inside: [0, 1] as const })),
      [],
    ),
    decided: of.decided.filter((d) => d.side === 'slope').map((d) => point(d.at)),
    names: [{ x: sidePx, y: straightY + reachPx + 22, text: 'the slope, laid level', anchor: 'start' }],
    places: curves.flatMap((c) =>
      c.alongMm.map((x, i) => {
        const [px, py] = at(x, c.acrossMm[i] ?? 0);
        return { side: 'slope' as const, u: x, v: c.atMm, x: px, y: py };
      }),
    ),
  };
}
