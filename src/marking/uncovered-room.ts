/**
 * The true room for showing after hand-in: sections of the surfaces, and the learner's readings on them.
 */
import type { Exercise } from '../exercise/exercise.ts';
import { heightAt } from '../geometry/height-field.ts';
import type { Plane } from '../geometry/plane.ts';
import { obstructionAt } from '../recess/band.ts';
import { nominalObstruction, slopeHeight } from '../recess/defect-shapes.ts';
import { isOpen, type Side, trueOf } from '../recess/recess-spec.ts';
import { sayRecess } from '../recess/trade-words.ts';
import { eachBay } from '../survey/in-bay.ts';
import { sizesSent } from '../survey/sent.ts';
import type { Survey } from '../survey/survey.ts';
import { findCarcass } from './answer-key.ts';
import type { PlacedCarcass } from './carcass-fit.ts';
import { domainSource } from './domain.ts';
import { type Edge, edges, type OpeningEdges } from './opening.ts';
import { type PushedIn, pushIn } from './push-in.ts';
import { type Site, siteOf } from './site.ts';

/** A curve of true room coordinates, mm: along is the running coordinate, across the surface's own. */
export interface TrueCurve {
  readonly side: Side;
  /** Where the section is taken: y for side walls and flats' x-runs, x for the back. */
  readonly atMm: number;
  readonly alongMm: readonly number[];
  readonly acrossMm: readonly number[];
  /** The straight outline's coordinate across. */
  readonly straightMm: number;
}

export interface UncoveredRoom {
  readonly words: readonly string[];
  /** Side walls by height, at the mouth's face and at the back of the carcass. */
  readonly walls: readonly TrueCurve[];
  /** Floor and ceiling by width at the face and the back; the back wall by height at left, middle, right. */
  readonly others: readonly TrueCurve[];
  /** The carcass as sent, where it would stand; null where none was sent or it leaves the recess. */
  readonly carcass: PlacedCarcass | null;
  /** How far it goes in; null where none was sent or it leaves the recess. */
  readonly pushed: PushedIn | null;
  /** Where each reading truly ended. */
  readonly readings: readonly {
    readonly n: number;
    readonly side: Side;
    readonly xMm: number;
    readonly yMm: number;
    readonly zMm: number;
  }[];
  /** Every datum as it was last thrown: nx x + ny y + nz z = c. */
  readonly lines: readonly (Plane & { readonly datum: string })[];
  /** The bare walls at the face line, between the trims that stay: what a frame's blank has to cover. */
  readonly faceEdges: readonly FaceEdge[];
  /** The bare wall behind each shelf, in the brief's order; none where the brief has no shelves. */
  readonly shelfEdges: readonly ShelfEdge[];
  /** The right-hand recess of a pair, in its own frame. */
  readonly second?: UncoveredRoom;
}

/** A stretch of an edge of the opening, mm: along runs up for left and right, to the right for top and bottom. */
export interface FaceEdge {
  readonly edge: Edge;
  readonly alongMm: readonly number[];
  readonly acrossMm: readonly number[];
}

/** The wall at half a shelf's thickness, over the shelf's length, mm: x along, y across. */
export interface ShelfEdge {
  /** The shelf's underside. */
  readonly upMm: number;
  readonly alongMm: readonly number[];
  readonly acrossMm: readonly number[];
}

const stepMm = 20;

/** Uncovers the room of a survey; of a pair, the right recess stands in `second`. */
export function uncoverRoom(survey: Survey): UncoveredRoom {
  const [first, second] = eachBay(survey).map((b) => uncoverOne(b.survey));
  if (!first) throw new RangeError('uncovered: a survey has no recess');
  return second ? { ...first, second } : first;
}

function uncoverOne(survey: Survey): UncoveredRoom {
  const { exercise, recess } = survey.world;
  const site = siteOf(recess, exercise);
  const { nominal, edges: found } = domainSource(site);
  // The room is shown as it was surveyed; the carcass stands as it will, finish and all.
  const surveyed: Site = { ...site, recess };
  const { width, height } = exercise.brief.openingMm;
  const backMm = nominal.carcass.backMm;
  const said = sizesSent(survey);
  const sent = said ? findCarcass(site, said) : null;
  const tall = steps(0, height);
  const wide = steps(-width / 2, width / 2);
  const half = nominal.carcass.widthMm / 2;
  const there = (side: Side) => !isOpen(exercise.spec, side);
  return {
    words: sayRecess(exercise.spec),
    walls: (['left', 'right'] as const).filter(there).flatMap((side) => {
      const along = steps(0, topOver(exercise, side));
      return [0, backMm].map((at) => wall(surveyed, side, { at, along }));
    }),
    others: [
      ...(['floor', 'ceiling'] as const)
        .filter(there)
        .flatMap((side) => [0, backMm].map((at) => flat(surveyed, side, { at, along: wide }))),
      ...(there('back') ? [-half, 0, half] : []).map((at) => back(surveyed, { at, along: tall })),
      ...(there('slope') ? [0, backMm] : []).map((at) => slope(surveyed, { at, along: wide })),
    ],
    carcass: sent?.carcass ?? null,
    pushed: said ? pushIn(site, said) : null,
    readings: survey.readings.flatMap((r) =>
      r.side ? [{ n: r.n, side: r.side, xMm: r.point.x, yMm: r.point.y, zMm: r.point.z }] : [],
    ),
    lines: Object.entries(survey.planes).map(([datum, plane]) => ({ datum, ...plane })),
    faceEdges: faceEdges(site, found),
    shelfEdges: shelfEdges(site),
  };
}

function shelfEdges(site: Site): ShelfEdge[] {
  const { shelves } = site.brief;
  if (!shelves) return [];
  const { heightsMm, lengthMm, thicknessMm } = shelves;
  const alongMm = steps(0 - lengthMm / 2, lengthMm / 2);
  const at = (x: number, z: number) => trueOf('back', heightAt(site.recess.fields.back, x, z + thicknessMm / 2));
  return heightsMm.map((upMm) => ({ upMm, alongMm, acrossMm: alongMm.map((x) => at(x, upMm)) }));
}

function faceEdges(site: Site, found: OpeningEdges | null): FaceEdge[] {
  if (!found) return [];
  return edges.flatMap((edge) => {
    return found[edge].parts.map(({ side, stretch: [from, to] }): FaceEdge => {
      const alongMm = steps(from, to);
      const upright = side === 'left' || side === 'right';
      const at = (a: number) => heightAt(site.recess.fields[side], upright ? 0 : a, upright ? a : 0);
      return { edge, alongMm, acrossMm: alongMm.map((a) => trueOf(side, at(a))) };
    });
  });
}

function wall(site: Site, side: 'left' | 'right', run: { at: number; along: readonly number[] }): TrueCurve {
  return curve(site, side, { ...run, place: (z) => ({ u: run.at, v: z }) });
}

function flat(site: Site, side: 'floor' | 'ceiling', run: { at: number; along: readonly number[] }): TrueCurve {
  return curve(site, side, { ...run, place: (x) => ({ u: x, v: run.at }) });
}

/** How high a side wall stands: to the ceiling, or to the slope. */
function topOver({ spec, brief }: Exercise, side: 'left' | 'right'): number {
  const { width, height } = brief.openingMm;
  const x = (side === 'left' ? -1 : 1) * (width / 2);
  return spec.slope ? Math.min(height, slopeHeight(spec.slope, width, x)) : height;
}

/** The slope laid level: how far it stands off its plane, + over it, where it is lower than the ceiling. */
function slope(site: Site, run: { at: number; along: readonly number[] }): TrueCurve {
  const { spec } = site.recess;
  const { width, height } = spec.openingMm;
  const plane = (x: number) => (spec.slope ? slopeHeight(spec.slope, width, x) : 0);
  const along = run.along.filter((x) => plane(x) < height);
  const level = curve(site, 'slope', { at: run.at, along, place: (x) => ({ u: x, v: run.at }) });
  return { ...level, acrossMm: level.acrossMm.map((z, i) => z - plane(along[i] ?? 0)), straightMm: 0 };
}

function back(site: Site, run: { at: number; along: readonly number[] }): TrueCurve {
  return curve(site, 'back', { ...run, place: (z) => ({ u: run.at, v: z }) });
}

function curve(
  site: Site,
  side: Side,
  run: { at: number; along: readonly number[]; place: (along: number) => { u: number; v: number } },
): TrueCurve {
  const field = site.recess.fields[side];
  const staying = site.staying[side];
  const at = (along: number) => {
    const place = run.place(along);
    return staying.length > 0 ? obstructionAt(field, staying, place) : heightAt(field, place.u, place.v);
  };
  return {
    side,
    atMm: run.at,
    alongMm: run.along,
    acrossMm: run.along.map((a) => trueOf(side, at(a))),
    straightMm: trueOf(side, nominalObstruction(site.recess.spec, side)),
  };
}

function steps(from: number, to: number): number[] {
  const count = Math.max(1, Math.ceil((to - from) / stepMm));
  return Array.from({ length: count + 1 }, (_, i) => from + ((to - from) * i) / count);
}
