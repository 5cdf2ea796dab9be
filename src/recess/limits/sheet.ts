/**
 * A surface as it is measured: how far it stands off its straight nominal, over the part that is seen, also as a table.
 *
 * A slope is measured square to itself and along itself; all other surfaces stand level or upright.
 */
import { type HeightField, heightAt } from '../../geometry/height-field.ts';
import { nominalObstruction } from '../defect-shapes.ts';
import type { RecessSpec, Side } from '../recess-spec.ts';
import type { SeenPart } from './seen-part.ts';

export interface Sheet {
  readonly side: Side;
  readonly part: SeenPart;
  /** A millimetre of u is this long along the surface. */
  readonly stretchU: number;
  /** mm into the free space, square to the surface. */
  offAt(u: number, v: number): number;
}

/** Off values over a part: eighths of cells of 128 mm at most, index j * countU + i. */
export interface Table {
  readonly cellsU: number;
  readonly cellsV: number;
  readonly countU: number;
  readonly stepU: number;
  readonly stepV: number;
  readonly off: Float64Array;
}

const cellMm = 128;
export const eighths = 8;

/** Gives the sheet of a built side. */
export function sheetOf(spec: RecessSpec, side: Side, built: { field: HeightField; part: SeenPart }): Sheet {
  const { field, part } = built;
  if (side !== 'slope' || !spec.slope) {
    const straight = nominalObstruction(spec, side);
    return { side, part, stretchU: 1, offAt: (u, v) => heightAt(field, u, v) - straight };
  }
  const pitch = spec.slope.riseMmPerM / 1000;
  const stretchU = Math.sqrt(1 + pitch * pitch);
  return {
    side,
    part,
    stretchU,
    offAt: (u, v) => (heightAt(field, u, v) - nominalObstruction(spec, 'slope', u)) / stretchU,
  };
}

/** Works out the table of a sheet. */
export function tableOf(sheet: Sheet): Table {
  const { u, v } = sheet.part;
  const cellsU = Math.ceil((u[1] - u[0]) / cellMm);
  const cellsV = Math.ceil((v[1] - v[0]) / cellMm);
  const countU = eighths * cellsU + 1;
  const countV = eighths * cellsV + 1;
  const stepU = (u[1] - u[0]) / (eighths * cellsU);
  const stepV = (v[1] - v[0]) / (eighths * cellsV);
  const off = new Float64Array(countU * countV);
  for (let j = 0, k = 0; j < countV; j++) {
    const at = Math.min(v[0] + j * stepV, v[1]);
    for (let i = 0; i < countU; i++, k++) off[k] = sheet.offAt(Math.min(u[0] + i * stepU, u[1]), at);
  }
  return { cellsU, cellsV, countU, stepU, stepV, off };
}

/** Looks a table up, straight between its places. */
export function offIn(table: Table, part: SeenPart, u: number, v: number): number {
  const { countU, stepU, stepV, off } = table;
  const x = Math.max((u - part.u[0]) / stepU, 0);
  const y = Math.max((v - part.v[0]) / stepV, 0);
  const i = Math.min(Math.floor(x), countU - 2);
  const j = Math.min(Math.floor(y), off.length / countU - 2);
  const k = j * countU + i;
  const low = (off[k] as number) + (x - i) * ((off[k + 1] as number) - (off[k] as number));
  const [a, b] = [off[k + countU] as number, off[k + countU + 1] as number];
  return low + (y - j) * (a + (x - i) * (b - a) - low);
}
