/**
 * A recess in trade words: every defect, trim and reference of a spec said as a fitter would say it.
 */
import type { Defect, RecessSpec, Side, Trim } from './recess-spec.ts';

const sideName: Record<Side, string> = {
  left: 'left wall',
  right: 'right wall',
  back: 'back wall',
  floor: 'floor',
  ceiling: 'ceiling',
};

/**
 * Says a spec, one line a surface, then the trims and the reference.
 *
 * @returns sentences without a full stop; sizes rounded to half a millimetre, what rounds to nothing is left out
 */
export function sayRecess(spec: RecessSpec): string[] {
  const { width, height, depth } = spec.openingMm;
  const party = spec.breastSide === 'left' ? 'right' : 'left';
  return [
    `an alcove about ${width} wide, ${height} high, ${depth} deep; the breast is on the ${spec.breastSide}, the party wall on the ${party}`,
    `the breast's face stands ${-spec.mouthMm} in front of the face line`,
    ...(['left', 'right', 'back', 'floor', 'ceiling'] as const).map((side) => saySurface(spec, side)),
    ...spec.trims.map(sayTrim),
    `cornice return: wavers up to ${half(Math.max(...spec.reference.wavesMm.map(Math.abs)))} either way`,
  ];
}

function saySurface(spec: RecessSpec, side: Side): string {
  const surface = spec.surfaces[side];
  const merged = mergeAlike(surface.defects);
  const said = merged.map((d) => sayDefect(d, side, spec.openingMm)).filter((s) => s !== '');
  const rough = surface.wobbleMm >= 0.5 ? `uneven by up to ${half(surface.wobbleMm)}` : '';
  return `${sideName[side]}: ${[...said, rough].filter((s) => s !== '').join(', ') || 'true'}`;
}

/** Adds up defects that differ in size alone, so that a lean is said once. */
function mergeAlike(defects: readonly Defect[]): Defect[] {
  const found = new Map<string, Defect>();
  for (const d of defects) {
    const key = JSON.stringify({ ...d, mm: 0 });
    const before = found.get(key);
    found.set(key, before ? { ...before, mm: before.mm + d.mm } : d);
  }
  return [...found.values()];
}

function sayDefect(d: Defect, side: Side, opening: RecessSpec['openingMm']): string {
  const size = half(Math.abs(d.mm));
  if (size === '0') return '';
  const into = d.mm > 0 ? 'into the recess' : 'out of the recess';
  switch (d.kind) {
    case 'lean':
      return `leans ${size} in ${opening.height} ${into}`;
    case 'taper':
      return `${d.mm > 0 ? 'closes in' : 'opens out'} ${size} in ${opening.depth} to the back`;
    case 'skew':
      return `${size} in ${opening.width} out of square, the ${d.mm > 0 ? 'right' : 'left'} end nearer`;
    case 'fall':
      return `falls ${size} towards the ${d.mm > 0 ? d.towards : opposite[d.towards]}`;
    case 'wind':
      return `in wind, its ${farCorner[side]} corner ${size} ${into}`;
    case 'bow':
      return `${d.mm > 0 ? 'belly' : 'hollow'} ${size} ${sayCrown(d, side)}`;
    case 'hump':
      return `${d.mm > 0 ? 'hump' : 'dip'} ${size}, about ${Math.round(d.width)} wide, ${sayPlace(side, d)}`;
    case 'step':
      return `steps ${size} ${into} ${sayStep(d, side)}`;
  }
}

const opposite = { left: 'right', right: 'left', front: 'back', back: 'front' } as const;

const farCorner: Record<Side, string> = {
  left: 'top back',
  right: 'top back',
  back: 'top right',
  floor: 'back right',
  ceiling: 'back right',
};

function sayCrown(d: Defect & { kind: 'bow' }, side: Side): string {
  const onWall = side === 'left' || side === 'right';
  const parts: string[] = [];
  if (d.crownV !== undefined) parts.push(side === 'floor' || side === 'ceiling' ? inward(d.crownV) : up(d.crownV));
  if (d.crownU !== undefined) parts.push(onWall ? inward(d.crownU) : sideways(d.crownU));
  return parts.length > 0 ? `at ${parts.join(', ')}` : 'all over';
}

function sayPlace(side: Side, at: { u: number; v: number }): string {
  if (side === 'left' || side === 'right') return `at ${up(at.v)}, ${inward(at.u)}`;
  if (side === 'back') return `at ${up(at.v)}, ${sideways(at.u)}`;
  return `at ${inward(at.v)}, ${sideways(at.u)}`;
}

function sayStep(d: Defect & { kind: 'step' }, side: Side): string {
  if (d.along === 'v') return side === 'floor' || side === 'ceiling' ? `beyond ${inward(d.at)}` : `above ${up(d.at)}`;
  return side === 'left' || side === 'right' ? `beyond ${inward(d.at)}` : `right of ${sideways(d.at)}`;
}

const up = (mm: number) => `${Math.round(mm)} up`;
const inward = (mm: number) => `${Math.round(mm)} in`;

function sideways(mm: number): string {
  const whole = Math.round(Math.abs(mm));
  if (whole === 0) return 'the middle';
  return `${whole} ${mm > 0 ? 'right' : 'left'} of the middle`;
}

function sayTrim(trim: Trim): string {
  const most = Math.max(...trim.profile.mm.map(([, out]) => out));
  return trim.kind === 'skirting'
    ? `${trim.name}: ${trim.vMm[1]} tall, ${half(most)} thick`
    : `${trim.name}: drops ${half(most)} below the ceiling`;
}

/** A length to the half millimetre, without a trailing nought. */
function half(mm: number): string {
  return String(Math.round(mm * 2) / 2);
}
