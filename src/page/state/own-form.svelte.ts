/**
 * The form of a room of one's own: what its boxes hold, the room that they tell, and what is made of it.
 *
 * Once hidden, the form is emptied: the page holds the exercise to hand out, and shows nothing of it.
 */
import {
  nearnessTo,
  type ReadingsOf,
  readOffsetTable,
  sayNearness,
  withReadings,
} from '../../exchange/offset-table.ts';
import { readOutlineLine } from '../../exchange/outline-line.ts';
import { exerciseOfRoom, takeOwnRoom } from '../../exchange/own-room-file.ts';
import type { Taken } from '../../exchange/refusal.ts';
import type { Exercise } from '../../exercise/exercise.ts';
import type { CornerName, OwnBad, OwnRoom, OwnSurface } from '../../exercise/own/own-room.ts';
import { cornerNames } from '../../exercise/own/own-surfaces.ts';
import { type OwnFamily, usualRooms } from '../../exercise/own/usual-room.ts';
import { type UncoveredRoom, uncoverRoom } from '../../marking/uncovered-room.ts';
import { buildRecess } from '../../recess/recess.ts';
import { axesOf, builtSides, type Fate, type Side, sides } from '../../recess/recess-spec.ts';
import { beginSurvey } from '../../survey/survey.ts';
import { openWorld } from '../../survey/world.ts';

/** What a form's list of bellies and humps may hold. */
export const badWords = ['belly', 'hollow', 'hump', 'dip'] as const;

/** A belly or a hump as its boxes hold it; an empty box is null. */
export interface BadBoxes {
  is: (typeof badWords)[number];
  mm: number | null;
  /** Its places along the surface's own axes, mm. */
  u: number | null;
  v: number | null;
  wide: number | null;
}

export interface SurfaceBoxes {
  corners: Partial<Record<CornerName, number | null>>;
  bad: BadBoxes[];
  uneven: number | null;
  measured: OwnSurface['measured'] | null;
}

/** A trim's boxes: whether it is there, its two sizes, and what becomes of it. */
export interface TrimBoxes {
  there: boolean;
  first: number | null;
  second: number | null;
  fate: Fate;
}

export class OwnForm {
  family: OwnFamily;
  opening: { width: number | null; height: number | null; depth: number | null };
  breast: { side: 'left' | 'right'; inFront: number | null } | null;
  slope: { low: 'left' | 'right'; lowMm: number | null; rise: number | null } | null;
  surfaces: Record<Side, SurfaceBoxes>;
  skirting: TrimBoxes;
  cornice: TrimBoxes;
  kit: string;
  /** What the last table said of how near the surfaces come to it, or why it was refused. */
  tableSays: readonly string[];
  /** The exercise that was hidden; null while the form is open. */
  hidden: Exercise | null;
  readonly room: OwnRoom;
  readonly made: Taken<Exercise>;
  /** The room as it will be uncovered; the last that could be made. */
  readonly seen: UncoveredRoom | null;

  constructor() {
    this.family = $state('alcove');
    this.opening = $state({ ...usualRooms.alcove.openingMm });
    this.breast = $state({ side: 'right', inFront: 40 });
    this.slope = $state(null);
    this.surfaces = $state(emptySurfaces());
    this.skirting = $state({ there: false, first: 120, second: 18, fate: 'stays' });
    this.cornice = $state({ there: false, first: 90, second: 130, fate: 'stays' });
    this.kit = $state('guided');
    this.tableSays = $state.raw([]);
    this.hidden = $state.raw(null);
    this.room = $derived(this.#room());
    this.made = $derived(madeOf(this.room));
    this.seen = $derived(this.made.ok ? straightWhereOpen(this.made.value) : null);
  }

  /** The sides that have a surface. */
  get there(): readonly Side[] {
    const { open } = usualRooms[this.family];
    return sides.filter((side) => (side === 'slope' ? this.slope !== null : !(open as readonly Side[]).includes(side)));
  }

  /** Takes another family, with its usual sizes; surfaces begin straight again. */
  take(family: OwnFamily): void {
    const usual = usualRooms[family];
    this.family = family;
    this.opening = { ...usual.openingMm };
    this.breast = usual.breast ? { side: usual.breast.side, inFront: usual.breast.inFrontMm } : null;
    this.slope = usual.slope ? { low: usual.slope.low, lowMm: usual.slope.lowMm, rise: usual.slope.riseMmPerM } : null;
    this.surfaces = emptySurfaces();
    this.tableSays = [];
  }

  /** Adds a belly in the middle of a surface. */
  addBad(side: Side): void {
    const { u, v } = axesOf(side);
    const middle = (axis: 'x' | 'y' | 'z') =>
      axis === 'x' ? 0 : Math.round(((axis === 'y' ? this.opening.depth : this.opening.height) ?? 0) / 2);
    this.surfaces[side].bad.push({ is: 'belly', mm: 5, u: middle(u), v: middle(v), wide: 600 });
  }

  /** Takes surfaces from a table of offsets or a line round the recess. */
  takeTable(text: string): void {
    const bare = exerciseOfRoom({ ...this.room, surfaces: {} });
    if (!bare.ok) {
      this.tableSays = [bare.says];
      return;
    }
    const { spec } = bare.value;
    const read = /surface/i.test(text.split('\n')[0] ?? '') ? readOffsetTable(text, spec) : readOutlineLine(text, spec);
    if (!read.ok) {
      this.tableSays = [`That table was not taken: ${read.says}.`];
      return;
    }
    this.#measure(read.value, withReadings(this.room, spec, read.value));
  }

  /** Covers the room: from here on nothing of it is shown, and the form is as new. */
  hide(): void {
    if (!this.made.ok) return;
    this.hidden = this.made.value;
    this.take('alcove');
  }

  #measure(readings: ReadingsOf, room: OwnRoom): void {
    for (const side of Object.keys(readings) as Side[]) {
      const { measured } = room.surfaces?.[side] ?? {};
      this.surfaces[side] = { ...emptySurface(side), uneven: this.surfaces[side].uneven, measured: measured ?? null };
    }
    this.tableSays = this.made.ok
      ? nearnessTo(buildRecess(this.made.value.spec), readings).map(sayNearness)
      : [this.made.says];
  }

  #room(): OwnRoom {
    const surfaces: Partial<Record<Side, OwnSurface>> = {};
    for (const side of this.there) {
      const told = surfaceOf(side, this.surfaces[side]);
      if (told) surfaces[side] = told;
    }
    const { skirting, cornice, breast, slope } = this;
    const { width, height, depth } = this.opening;
    return {
      format: 'offtrue-room',
      version: 1,
      family: this.family,
      openingMm: { width: width ?? 0, height: height ?? 0, depth: depth ?? 0 },
      ...(breast ? { breast: { side: breast.side, inFrontMm: breast.inFront ?? 0 } } : {}),
      ...(slope ? { slope: { low: slope.low, lowMm: slope.lowMm ?? 0, riseMmPerM: slope.rise ?? 0 } } : {}),
      surfaces,
      trims: [
        ...(skirting.there
          ? [
              {
                kind: 'skirting' as const,
                tallMm: skirting.first ?? 0,
                thickMm: skirting.second ?? 0,
                fate: skirting.fate,
              },
            ]
          : []),
        ...(cornice.there
          ? [{ kind: 'cornice' as const, dropMm: cornice.first ?? 0, outMm: cornice.second ?? 0, fate: cornice.fate }]
          : []),
      ],
      kit: this.kit,
    };
  }
}

/** Checks a room as its file would be, and makes its exercise. */
function madeOf(room: OwnRoom): Taken<Exercise> {
  const taken = takeOwnRoom(JSON.parse(JSON.stringify(room)));
  return taken.ok ? exerciseOfRoom(taken.value) : taken;
}

function emptySurfaces(): Record<Side, SurfaceBoxes> {
  return Object.fromEntries(sides.map((side) => [side, emptySurface(side)])) as Record<Side, SurfaceBoxes>;
}

function emptySurface(side: Side): SurfaceBoxes {
  const corners = Object.fromEntries(cornerNames(side).map((name) => [name, 0]));
  return { corners, bad: [], uneven: 0, measured: null };
}

/** What a surface's boxes tell; null when they tell nothing. */
function surfaceOf(side: Side, boxes: SurfaceBoxes): OwnSurface | null {
  const cornersMm = Object.fromEntries(Object.entries(boxes.corners).map(([name, mm]) => [name, mm ?? 0]));
  const moved = Object.values(cornersMm).some((mm) => mm !== 0);
  const bad = boxes.bad.map((b) => badOf(side, b));
  const surface: OwnSurface = {
    ...(moved || (bad.length > 0 && !boxes.measured) ? { cornersMm } : {}),
    ...(bad.length > 0 ? { bad } : {}),
    ...(boxes.uneven ? { unevenMm: boxes.uneven } : {}),
    ...(boxes.measured ? { measured: boxes.measured } : {}),
  };
  return Object.keys(surface).length > 0 ? surface : null;
}

const placeNames = { x: 'rightMm', y: 'inMm', z: 'upMm' } as const;

function badOf(side: Side, boxes: BadBoxes): OwnBad {
  const { u, v } = axesOf(side);
  const places = {
    ...(boxes.u === null ? {} : { [placeNames[u]]: boxes.u }),
    ...(boxes.v === null ? {} : { [placeNames[v]]: boxes.v }),
  };
  const mm = boxes.mm ?? 0;
  if (boxes.is === 'belly' || boxes.is === 'hollow') return { is: boxes.is, mm, ...places };
  return { is: boxes.is, mm, wideMm: boxes.wide ?? 0, ...places };
}

/** The room for the picture: an open side is drawn as the straight outline, for there is nothing to draw. */
function straightWhereOpen(exercise: Exercise): UncoveredRoom {
  const room = uncoverRoom(beginSurvey(openWorld(exercise)));
  const there = builtSides(exercise.spec);
  const drawn = <C extends UncoveredRoom['walls'][number]>(curve: C): C =>
    there.includes(curve.side) ? curve : { ...curve, acrossMm: curve.alongMm.map(() => curve.straightMm) };
  return { ...room, walls: room.walls.map(drawn), others: room.others.map(drawn) };
}
