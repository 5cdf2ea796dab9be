/**
 * Trims of a room of one's own: a kind and a size, made into bands.
 */
import { type BreastSide, extentsOf, type Fate, isOpen, type RecessSpec, type Trim } from '../../recess/recess-spec.ts';
import { type OwnResult, type OwnRoom, type OwnTrim, refuseOwn } from './own-room.ts';

export interface MadeTrims {
  readonly trims: readonly Trim[];
  readonly fates: Readonly<Record<string, Fate>>;
}

type Wall = 'left' | 'right' | 'back';
type Base = Pick<RecessSpec, 'openingMm' | 'mouthMm' | 'breastSide' | 'surfaces'>;

/** Makes the bands of the trims that a room tells, and what becomes of each. */
export function trimsOf(spec: Base, told: OwnRoom['trims']): OwnResult<MadeTrims> {
  const trims: Trim[] = [];
  const fates: Record<string, Fate> = {};
  for (const [i, own] of (told ?? []).entries()) {
    const made = bandsOf(spec, own);
    if (typeof made === 'string') return refuseOwn('own/trim', `trims.${i}`, made);
    for (const band of made) {
      const name = freeName(band.name, fates);
      trims.push({ ...band, name });
      fates[name] = own.fate ?? usualFate(own.kind);
    }
  }
  if (trims.length > 16) return refuseOwn('own/trim', 'trims', `expected 16 bands at most, got ${trims.length}`);
  return { ok: true, value: { trims, fates } };
}

/** Rails are taken off before anything is built against them; all else stays. */
function usualFate(kind: OwnTrim['kind']): Fate {
  return kind === 'picture-rail' || kind === 'dado-rail' ? 'off' : 'stays';
}

function freeName(name: string, taken: Readonly<Record<string, Fate>>): string {
  if (!(name in taken)) return name;
  let n = 2;
  while (`${name} ${n}` in taken) n++;
  return `${name} ${n}`;
}

function bandsOf(spec: Base, own: OwnTrim): readonly Trim[] | string {
  switch (own.kind) {
    case 'skirting':
      return onWalls(spec, own, (side) => skirting(spec, side, own));
    case 'cornice':
    case 'coving':
      if (isOpen(spec, 'ceiling')) return `a ${own.kind} hangs from the ceiling, and there is none`;
      return onWalls(spec, own, (side) => cornice(spec, side, own));
    case 'picture-rail':
    case 'dado-rail':
      return (
        strayStretch('upMm', [own.upMm, own.upMm + own.tallMm], [0, spec.openingMm.height]) ??
        onWalls(spec, own, (side) => rail(spec, side, own))
      );
    case 'beam':
      return isOpen(spec, 'ceiling') ? 'a beam hangs from the ceiling, and there is none' : beam(spec, own);
    default:
      return patch(spec, own);
  }
}

function onWalls(
  spec: Base,
  own: { readonly kind: string; readonly on?: readonly Wall[] | undefined },
  make: (side: Wall) => Trim,
): readonly Trim[] | string {
  const open = own.on?.find((side) => isOpen(spec, side));
  if (open) return `a ${own.kind} stands on a wall, and the ${open} is open`;
  const on = own.on ?? (['left', 'right', 'back'] as const).filter((side) => !isOpen(spec, side));
  return [...new Set(on)].map(make);
}

/** How far along a wall its trims run: from the breast's arris on its side, else all along. */
function alongOf(spec: Base, side: Wall): [number, number] {
  const { x, y } = extentsOf(spec);
  if (side === 'back') return [x[0], x[1]];
  return [side === (spec.breastSide as BreastSide | null) ? spec.mouthMm : y[0], y[1]];
}

function skirting(spec: Base, side: Wall, own: Extract<OwnTrim, { kind: 'skirting' }>): Trim {
  const { z } = extentsOf(spec);
  const { tallMm, thickMm } = own;
  const bevel = Math.min(20, tallMm / 2);
  return {
    name: `skirting ${side}`,
    kind: 'skirting',
    surface: side,
    uMm: alongOf(spec, side),
    vMm: [z[0], tallMm],
    profile: {
      along: 'v',
      mm: [
        [z[0], thickMm],
        [tallMm - bevel, thickMm],
        [tallMm, Math.ceil(thickMm / 2)],
      ],
    },
  };
}

function rail(spec: Base, side: Wall, own: Extract<OwnTrim, { kind: 'picture-rail' | 'dado-rail' }>): Trim {
  const [from, to] = [own.upMm, own.upMm + own.tallMm];
  return {
    name: `${own.kind} ${side}`,
    kind: own.kind,
    surface: side,
    uMm: alongOf(spec, side),
    vMm: [from, to],
    profile: {
      along: 'v',
      mm: [
        [from, own.thickMm],
        [to, own.thickMm],
      ],
    },
  };
}

/** Fixed to the ceiling, so that it falls with it: along the wall a cornice rises to a thin lip, a coving all the way. */
function cornice(spec: Base, side: Wall, own: Extract<OwnTrim, { kind: 'cornice' | 'coving' }>): Trim {
  const { x, y } = extentsOf(spec);
  const { width, depth } = spec.openingMm;
  const lip = own.kind === 'coving' ? Math.max(1, own.outMm - 10) : Math.min(25, own.outMm / 2);
  const down: readonly [number, number][] = [
    [0, Math.min(10, own.dropMm)],
    [lip, own.dropMm],
  ];
  const name = `${own.kind} ${side}`;
  const band = { name, kind: own.kind, surface: 'ceiling' as const };
  if (side === 'left') {
    const edge = own.outMm - width / 2;
    const mm = down.map(([at, drop]): [number, number] => [edge - at, drop]).reverse();
    return { ...band, uMm: [x[0], edge], vMm: [y[0], y[1]], profile: { along: 'u', mm: [[x[0], own.dropMm], ...mm] } };
  }
  const edge = (side === 'back' ? depth : width / 2) - own.outMm;
  const end = side === 'back' ? y[1] : x[1];
  const mm: [number, number][] = [...down.map(([at, drop]): [number, number] => [edge + at, drop]), [end, own.dropMm]];
  return side === 'back'
    ? { ...band, uMm: [x[0], x[1]], vMm: [edge, end], profile: { along: 'v', mm } }
    : { ...band, uMm: [edge, end], vMm: [y[0], y[1]], profile: { along: 'u', mm } };
}

function patch(spec: Base, own: Extract<OwnTrim, { outMm: number; alongMm: unknown }>): readonly Trim[] | string {
  const { on, outMm } = own;
  if (isOpen(spec, on)) return `a ${own.kind} stands on a wall, and the ${on} is open`;
  const { x, y, z } = extentsOf(spec);
  const wrong = strayStretch('alongMm', own.alongMm, on === 'back' ? x : y) ?? strayStretch('upMm', own.upMm, z);
  if (wrong) return wrong;
  const [from, to] = own.upMm;
  return [
    {
      name: `${own.kind} ${on}`,
      kind: own.kind,
      surface: on,
      uMm: [...own.alongMm],
      vMm: [from, to],
      profile: {
        along: 'v',
        mm: [
          [from, outMm],
          [to, outMm],
        ],
      },
    },
  ];
}

function beam(spec: Base, own: Extract<OwnTrim, { kind: 'beam' }>): readonly Trim[] | string {
  const { x, y } = extentsOf(spec);
  const across = own.runs === 'side-to-side';
  const wrong = strayStretch('fromMm to toMm', [own.fromMm, own.toMm], across ? y : x);
  if (wrong) return wrong;
  const between: [number, number] = [own.fromMm, own.toMm];
  return [
    {
      name: 'beam',
      kind: 'beam',
      surface: 'ceiling',
      uMm: across ? [x[0], x[1]] : between,
      vMm: across ? between : [y[0], y[1]],
      profile: {
        along: across ? 'v' : 'u',
        mm: [
          [own.fromMm, own.dropMm],
          [own.toMm, own.dropMm],
        ],
      },
    },
  ];
}

function strayStretch(name: string, [from, to]: readonly number[], range: readonly [number, number]): string | null {
  if (from === undefined || to === undefined || from >= to)
    return `${name}: expected a smaller place and then a larger, got ${from} and ${to}`;
  if (from < range[0] || to > range[1]) return `${name}: expected ${range[0]} to ${range[1]}, got ${from} to ${to}`;
  return null;
}
