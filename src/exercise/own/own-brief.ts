/**
 * The brief of a room of one's own: sizes that are told, and for the rest what the room has space for.
 *
 * A nominal that is not told is as much smaller than the opening as the least of a few usual allowances that is enough,
 * so that it says no more of the room than roughly how far out of true it is.
 */
import { highestOver } from '../../recess/band.ts';
import { outlineRect } from '../../recess/corner-offsets.ts';
import { nominalObstruction, slopeHeight } from '../../recess/defect-shapes.ts';
import type { Recess } from '../../recess/recess.ts';
import { type Fate, isOpen, type Side } from '../../recess/recess-spec.ts';
import type { Brief } from '../brief.ts';
import { type OwnResult, type OwnRoom, refuseOwn } from './own-room.ts';
import { toldOver } from './told.ts';
import type { UsualRoom } from './usual-room.ts';

interface Making {
  readonly room: OwnRoom;
  readonly usual: UsualRoom;
  readonly fates: Readonly<Record<string, Fate>>;
}

type SizeOf = 'width' | 'height' | 'depth';
const sizesOf = ['width', 'height', 'depth'] as const;

/** Makes the brief, or says what about it cannot be. */
export function briefOf(recess: Recess, from: Making): OwnResult<Brief> {
  const told = from.room.brief ?? {};
  const { openingMm, mouthMm, reference } = recess.spec;
  const { made } = from.usual;
  const askMm = toldOver(usualAsk[made], told.clearanceMm);
  const plinthMm = told.plinthMm ?? usualPlinth(recess, from);
  if (plinthMm > openingMm.height - 100)
    return refuseOwn('own/brief', 'brief.plinthMm', `expected ${openingMm.height - 100} at most, got ${plinthMm}`);
  const carcassFrontMm = made === 'lining' ? 0 : (told.thickMm ?? 20);
  const rules = { ...from, askMm, plinthMm, carcassFrontMm };
  const free = roomFor(recess, rules);
  const carcassMm = toldOver<Record<SizeOf, number>>(free, told.carcassMm);
  const wrong = wrongWithBrief(recess, rules, carcassMm);
  if (wrong) return refuseOwn('own/brief', `brief.${wrong.field}`, wrong.says);
  if (free.slope && free.slope.lowMm >= carcassMm.height)
    return refuseOwn(
      'own/brief',
      'brief.carcassMm.height',
      `expected more than ${free.slope.lowMm}, where the carcass's sloped edge begins, got ${carcassMm.height}`,
    );
  const [leastStockMm, mostStockMm] = told.stockMm ?? [4, 40];
  const size = (name: SizeOf) => ({
    nominalMm: carcassMm[name],
    find: told.find ? told.find.includes(name) : isBounded(recess, name) && (name !== 'height' || free.flat),
  });
  const framed =
    told.find?.includes('frame') ?? told.frame ?? (made === 'carcass' && !free.slope && edgesBuilt(recess));
  return {
    ok: true,
    value: {
      openingMm,
      mouthMm,
      reference: reference.kind,
      referenceWaverMm: Math.ceil(2 * Math.max(...reference.wavesMm.map(Math.abs))) / 2,
      carcassFrontMm,
      carcassMm: { width: size('width'), height: size('height'), depth: size('depth') },
      askMm,
      plinthMm,
      frame: framed ? { thicknessMm: carcassFrontMm, leastStockMm, mostStockMm } : null,
      finishMm: [],
      fates: from.fates,
      access: accessOf(from, { height: openingMm.height - plinthMm, depth: openingMm.depth }),
      ...(free.slope ? { slope: { ...free.slope, find: !told.find || told.find.includes('height') } } : {}),
      ...(made === 'lining' ? { lining: { thicknessMm: told.thickMm ?? 28, leastStockMm, mostStockMm } } : {}),
      ...(made === 'modules' ? { modules: modulesOf(carcassMm.width, askMm) } : {}),
    },
  };
}

/** What is left all round: of a lining its packing, beside carcasses side by side the least infills. */
const usualAsk: Readonly<Record<UsualRoom['made'], Brief['askMm']>> = {
  carcass: { left: 3, right: 3, top: 6, back: 8 },
  modules: { left: 20, right: 20, top: 6, back: 8 },
  lining: { left: 4, right: 4, top: 3, back: 0 },
};

/** Carcasses of about 600, and infills that may be as wide as the widest usual allowance leaves them. */
function modulesOf(width: number, askMm: Brief['askMm']): NonNullable<Brief['modules']> {
  const count = Math.min(12, Math.max(2, Math.round(width / 600)));
  return { count, mostInfillMm: Math.max(askMm.left, askMm.right) + 60 };
}

interface Rules extends Making {
  readonly askMm: Brief['askMm'];
  readonly plinthMm: number;
  readonly carcassFrontMm: number;
}

function wrongWithBrief(
  recess: Recess,
  rules: Rules,
  carcassMm: Readonly<Record<SizeOf, number>>,
): { field: string; says: string } | null {
  const told = rules.room.brief ?? {};
  const { openingMm } = recess.spec;
  for (const name of sizesOf)
    if (carcassMm[name] < 50 || carcassMm[name] > openingMm[name])
      return {
        field: `carcassMm.${name}`,
        says: `expected 50 to the opening's ${openingMm[name]}, got ${carcassMm[name]}`,
      };
  const open = sizesOf.find((name) => told.find?.includes(name) && !isBounded(recess, name));
  if (open) return { field: 'find', says: `the ${open} cannot be found, for a side that bounds it is open` };
  if ((told.frame || told.find?.includes('frame')) && !edgesBuilt(recess))
    return { field: 'frame', says: 'a frame covers all four edges of the opening, and one of them is open' };
  if (told.frame === false && told.find?.includes('frame'))
    return { field: 'find', says: 'the frame cannot be found, for the brief says that there is none' };
  const [least, most] = told.stockMm ?? [4, 40];
  if (least >= most)
    return { field: 'stockMm', says: `expected the least and then the most, got ${least} and ${most}` };
  const bottom = rules.plinthMm + floorHigh(recess);
  const near = bandNear(recess, rules.fates, [bottom, bottom + carcassMm.height]);
  return near && { field: near.end === 0 ? 'plinthMm' : 'carcassMm.height', says: near.says };
}

/** How far an edge of a trim that stays keeps from the carcass's top and bottom, mm: nearer, and its place would count. */
const clearOfEdgesMm = 15;

function bandNear(
  recess: Recess,
  fates: Making['fates'],
  ends: readonly [number, number],
): { end: number; says: string } | null {
  for (const trim of recess.spec.trims) {
    if (fates[trim.name] !== 'stays' || trim.surface === 'ceiling') continue;
    for (const edge of trim.vMm)
      for (const [end, z] of ends.entries())
        if (Math.abs(edge - z) < clearOfEdgesMm) {
          const says = `expected the carcass's ${end === 0 ? 'bottom' : 'top'} ${clearOfEdgesMm} or more from the edge of ${trim.name} at ${edge} up, got it at ${Math.round(z)}`;
          return { end, says };
        }
  }
  return null;
}

/** The usual plinth, or the next that keeps clear of the trims. */
function usualPlinth(recess: Recess, from: Making): number {
  const high = floorHigh(recess);
  const clear = (plinth: number) => bandNear(recess, from.fates, [plinth + high, Number.POSITIVE_INFINITY]) === null;
  return [from.usual.plinthMm, 80, 100, 120, 150, 60, 180].find(clear) ?? from.usual.plinthMm;
}

/** Allowances between an opening and the nominal carcass, mm. */
const allowances = [20, 30, 45, 60, 80, 100, 130, 160, 200, 250, 300, 400, 600];

interface Room extends Record<SizeOf, number> {
  /** Whether it has a flat top to be found. */
  readonly flat: boolean;
  /** Where there is a slope: the line of the carcass's sloped edge over its bottom. */
  readonly slope?: Omit<NonNullable<Brief['slope']>, 'find'>;
}

/** A carcass that goes in: each size as large as an allowance lets it be, in whole 10 mm. */
function roomFor(recess: Recess, rules: Rules): Room {
  const { openingMm, slope } = recess.spec;
  const { askMm, plinthMm, carcassFrontMm, usual } = rules;
  const into = (side: Side) => Math.max(0, intrusion(recess, side, rules));
  const less = (whole: number, taken: number) =>
    10 * Math.floor((whole - (allowances.find((a) => a >= taken) ?? taken)) / 10);
  const width = less(openingMm.width, into('left') + into('right') + askMm.left + askMm.right);
  const under = (side: Side, high: number) => less(high - plinthMm, into(side) + floorHigh(recess) + askMm.top);
  // A lining is as deep as the wall is thick: its far edge is planed.
  const depth =
    usual.made === 'lining' ? openingMm.depth : less(openingMm.depth - carcassFrontMm, into('back') + askMm.back);
  const flat = isOpen(recess.spec, 'ceiling') ? Number.POSITIVE_INFINITY : under('ceiling', openingMm.height);
  if (!slope) return { width, height: flat, depth, flat: true };
  const at = (x: number) => under('slope', slopeHeight(slope, openingMm.width, x));
  const [lowMm, highMm] = slope.low === 'left' ? [at(-width / 2), at(width / 2)] : [at(width / 2), at(-width / 2)];
  // With no ceiling the line alone bounds it: the flat top is called as high as the line might come.
  const height = flat === Number.POSITIVE_INFINITY ? Math.min(highMm + 50, openingMm.height) : Math.min(flat, highMm);
  return { width, height, depth, flat: flat < highMm, slope: { low: slope.low, lowMm, highMm } };
}

/** How far a side with the trims that stay comes in from its straight outline, mm; 0 where it is open. */
function intrusion(recess: Recess, side: Side, rules: Rules): number {
  const { spec } = recess;
  if (isOpen(spec, side)) return 0;
  const { from, to } = outlineRect(spec, side);
  const rect = { u0: from[0], u1: to[0], v0: from[1], v1: to[1] };
  const inY = { u: side === 'left' || side === 'right', v: side === 'ceiling' || side === 'floor' || side === 'slope' };
  if (inY.u) rect.u0 = spec.mouthMm;
  if (inY.v) rect.v0 = spec.mouthMm;
  if (side === 'left' || side === 'right' || side === 'back') rect.v0 = rules.plinthMm;
  const staying = spec.trims.filter((t) => t.surface === side && rules.fates[t.name] === 'stays');
  if (side !== 'slope') return highestOver(recess.fields[side], staying, rect).value - nominalObstruction(spec, side);
  // A slope's own departure is told by its ends: its plane is taken off where it stands over the outline.
  const at = [rect.u0, (rect.u0 + rect.u1) / 2, rect.u1];
  return Math.max(
    ...at.map(
      (x) =>
        highestOver(recess.fields.slope, staying, { ...rect, u0: x, u1: x }).value - nominalObstruction(spec, side, x),
    ),
  );
}

function floorHigh(recess: Recess): number {
  const { width, depth } = recess.spec.openingMm;
  const rect = { u0: -width / 2, u1: width / 2, v0: recess.spec.mouthMm, v1: depth };
  return highestOver(recess.fields.floor, [], rect).value;
}

/** Whether the sides that a size is read to are there. */
function isBounded(recess: Recess, name: SizeOf): boolean {
  const { spec } = recess;
  if (name === 'width') return !isOpen(spec, 'left') && !isOpen(spec, 'right');
  return name === 'depth' ? !isOpen(spec, 'back') : !isOpen(spec, 'ceiling') || !isOpen(spec, 'slope');
}

function edgesBuilt(recess: Recess): boolean {
  return (['left', 'right', 'ceiling'] as const).every((side) => !isOpen(recess.spec, side));
}

/** Tall enough for the largest carcass that the opening could take, corner to corner; a told height as it is told. */
function accessOf(from: Making, most: { height: number; depth: number }): Brief['access'] {
  const told = from.room.brief?.standUpMm;
  if (told === undefined && !from.usual.stoodUp) return null;
  const diagonal = Math.sqrt(most.height * most.height + most.depth * most.depth);
  return { clearHeightMm: told ?? 10 * Math.ceil((diagonal + 60) / 10), plinthSeparate: true };
}
