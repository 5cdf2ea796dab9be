/**
 * The loupe: the rule's graduations and a line's two edges, close up. No middle is drawn: that is for the eye.
 *
 * Units are px of the loupe's own box, origin at its top left, y down.
 */

import { asWritten, graduationMm, spokenUnits } from '../recess/lengths.ts';

/**
 * How large a millimetre is in the loupe, px: in the round one small enough that a whole ten, its number uncut, is
 * always in sight.
 */
export function pxPerMm(box: LoupeBox): number {
  return box.width < 300 ? 13 : 20;
}

export interface LoupeBox {
  readonly width: number;
  readonly height: number;
}

export interface Graduation {
  readonly x: number;
  readonly length: number;
  /** Told at each centimetre and smaller at each half; or at each inch and smaller at each quarter. */
  readonly number: string | null;
  readonly small: boolean;
}

export interface LoupeLayout {
  /** Where the rule's face begins: above it is the wall or the air. */
  readonly faceY: number;
  readonly graduations: readonly Graduation[];
  readonly edges: readonly [number, number];
}

/**
 * Lays out the loupe over a reading.
 *
 * It stands where the finger is, not on the line: its own middle is off the line's by up to 3 mm, by a fixed rule from
 * the act's number, so that it says nothing.
 */
export function layoutLoupe(reading: { n: number; edgesMm: readonly [number, number] }, box: LoupeBox): LoupeLayout {
  const [low, high] = reading.edgesMm;
  const centre = Math.round((low + high) / 2) + offCentre(reading.n);
  const scale = pxPerMm(box);
  const half = box.width / 2 / scale;
  const at = (mm: number) => box.width / 2 + (mm - centre) * scale;
  const graduations: Graduation[] = [];
  const units = spokenUnits();
  const apart = graduationMm(units);
  const face = units === 'mm' ? metric : inches(units === 'in-16' ? 16 : 32);
  for (let n = Math.ceil((centre - half) / apart); n * apart <= centre + half; n++)
    graduations.push({ x: at(n * apart), ...face(n) });
  return { faceY: Math.round(box.height / 3), graduations, edges: [at(low), at(high)] };
}

/** How far the loupe's middle stands off the line's, mm: -3 to 3, never 0. */
export function offCentre(n: number): number {
  const steps = [2, -1, 3, -2, 1, -3] as const;
  return steps[n % steps.length] as number;
}

type Face = (n: number) => Omit<Graduation, 'x'>;

const metric: Face = (mm) => {
  if (mm % 10 === 0) return { length: 62, number: String(mm), small: false };
  if (mm % 5 === 0) return { length: 48, number: String(mm), small: true };
  return { length: 34, number: null, small: false };
};

/** Marked in parts of an inch: the larger the part, the longer its graduation. */
function inches(parts: 16 | 32): Face {
  return (n) => {
    const said = () => asWritten((n / parts) * 25.4);
    if (n % parts === 0) return { length: 62, number: said(), small: false };
    if (n % (parts / 4) === 0) return { length: n % (parts / 2) === 0 ? 54 : 48, number: said(), small: true };
    return { length: n % (parts / 8) === 0 ? 40 : n % (parts / 16) === 0 ? 32 : 22, number: null, small: false };
  };
}
