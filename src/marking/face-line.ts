/**
 * Where the face line that was used truly runs, against the reference that the brief names.
 */
import { datumParts } from '../survey/act.ts';
import type { Survey } from '../survey/survey.ts';

/** How far the face line lies behind the reference at the ends of the opening, mm; < 0 in front of it. */
export interface FaceLineOff {
  readonly datum: string;
  readonly leftMm: number;
  readonly rightMm: number;
}

/**
 * Gives how far the face line runs off: the F that depths were read from, else the last one thrown.
 *
 * @returns null when none was thrown, or when it runs nearer to square than along the face line
 */
export function faceLineOff(survey: Survey): FaceLineOff | null {
  const read = survey.readings.filter((r) => datumParts(r.datum).kind === 'F' && r.side === 'back').at(-1);
  const last = Object.keys(survey.planes)
    .filter((d) => datumParts(d).kind === 'F')
    .at(-1);
  const datum = read?.datum ?? last;
  const plane = read?.plane ?? (datum === undefined ? undefined : survey.planes[datum]);
  if (datum === undefined || !plane || Math.abs(plane.ny) < 0.5) return null;
  const half = survey.world.exercise.brief.openingMm.width / 2;
  const { reference } = survey.world.exercise.spec;
  const back = survey.world.exercise.brief.setBackMm ?? 0;
  const at = (x: number) => (plane.c - plane.nx * x - plane.nz * reference.heightMm) / plane.ny + back;
  return { datum, leftMm: at(-half), rightMm: at(half) };
}
