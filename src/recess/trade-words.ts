/**
 * A recess in trade words: every defect, trim and reference of a spec said as a fitter would say it.
 */
import { slopeHeight } from './defect-shapes.ts';
import { sayRead, saySlope, sayWritten } from './lengths.ts';
import { targetOf } from './limits/limit-spec.ts';
import {
  type Defect,
  type FamilyName,
  type Measured,
  type RecessSpec,
  type Side,
  sides,
  type Trim,
} from './recess-spec.ts';
import { severities } from './severity.ts';
import { sideName } from './side-words.ts';

/**
 * Says a spec, one line a surface that is there, then the trims and the reference.
 *
 * @returns sentences without a full stop; sizes rounded to half a millimetre, what rounds to nothing is left out
 */
export function sayRecess(spec: RecessSpec): string[] {
  const waver = sayRead(Math.max(...spec.reference.wavesMm.map(Math.abs)));
  return [
    ...sayShape(spec),
    ...sides.flatMap((side) => saySurface(spec, side)),
    ...spec.trims.map((trim) => sayTrim(spec, trim)),
    `${spec.reference.kind.replaceAll('-', ' ')}: wavers up to ${waver} either way`,
    ...sayLimits(spec),
  ];
}

/** The document that a severity draws inside, and how near. */
function sayLimits(spec: RecessSpec): string[] {
  const limits = severities.find((s) => s.name === spec.severity)?.limits;
  if (!limits) return [];
  const near = targetOf(spec.key).atLimit ? ', its worst surface near the limit' : '';
  return [`drawn inside the limits of ${limits.document}, ${limits.edition}${near}`];
}

function sayShape(spec: RecessSpec): string[] {
  const { width, height, depth } = spec.openingMm;
  const sizes = `about ${sayWritten(width)} wide, ${sayWritten(height)} high, ${sayWritten(depth)} deep`;
  const { slope } = spec;
  const rises = slope
    ? [`the slope is ${sayWritten(slope.lowMm)} up at the ${slope.low} and rises ${saySlope(slope.riseMmPerM)}`]
    : [];
  if (spec.breastSide === null) return [`${kindWords[spec.family]} ${sizes}`, ...rises];
  const party = spec.breastSide === 'left' ? 'right' : 'left';
  return [
    `${kindWords[spec.family]} ${sizes}; the breast is on the ${spec.breastSide}, the party wall on the ${party}`,
    `the breast's face stands ${sayWritten(-spec.mouthMm)} in front of the face line`,
    ...rises,
  ];
}

/** What a family is, with its article. */
export const kindWords: Readonly<Record<FamilyName, string>> = {
  alcove: 'an alcove',
  run: 'a run from wall to wall',
  reveal: 'a window reveal',
  doorway: 'a door opening',
  'under-stair': 'a space under a stair',
  'roof-slope': 'a space under a roof slope',
  'plain-wall': 'a plain wall',
  'alcove-pair': 'a pair of alcoves',
  own: 'a recess of its own shape',
};

function saySurface(spec: RecessSpec, side: Side): string[] {
  const surface = spec.surfaces[side];
  if (!surface) return [];
  const merged = mergeAlike(surface.defects);
  const said = merged
    .map((d) => sayDefect(d.kind === 'lean' ? leanOfOwn(spec, side, d) : d, side, ownOf(spec, side)))
    .filter((s) => s !== '');
  const rough = surface.wobbleMm >= 0.5 ? `uneven by up to ${sayRead(surface.wobbleMm)}` : '';
  const measured = surface.measured ? sayMeasured(surface.measured, side) : '';
  return [`${sideName(spec, side)}: ${[measured, ...said, rough].filter((s) => s !== '').join(', ') || 'true'}`];
}

/** The opening as a side has it: a side wall under a slope is as high as it stands. */
function ownOf({ openingMm, slope }: RecessSpec, side: Side): RecessSpec['openingMm'] {
  if (!slope || (side !== 'left' && side !== 'right')) return openingMm;
  const { width, height } = openingMm;
  const up = slopeHeight(slope, width, side === 'left' ? -width / 2 : width / 2);
  return { ...openingMm, height: Math.min(height, Math.round(up)) };
}

/** What a lean over the opening's height comes to over a side's own. */
function leanOfOwn(spec: RecessSpec, side: Side, d: Defect): Defect {
  return { ...d, mm: (d.mm * ownOf(spec, side).height) / spec.openingMm.height };
}

/** Adds up defects that differ in size alone, so that a lean is said once. */
function mergeAlike(defects: readonly Defect[]): Defect[] {
  const found = new Map<string, Defect>();
  for (const d of defects.map(oneWay)) {
    const key = JSON.stringify({ ...d, mm: 0 });
    const before = found.get(key);
    found.set(key, before ? { ...before, mm: before.mm + d.mm } : d);
  }
  return [...found.values()];
}

/** A fall one way is a rise the other: said towards the right or the back. */
function oneWay(d: Defect): Defect {
  if (d.kind !== 'fall' || d.towards === 'right' || d.towards === 'back') return d;
  return { ...d, towards: opposite[d.towards], mm: 0 - d.mm };
}

function sayDefect(d: Defect, side: Side, opening: RecessSpec['openingMm']): string {
  const size = sayRead(Math.abs(d.mm));
  if (size === sayRead(0)) return '';
  const into = d.mm > 0 ? 'into the recess' : 'out of the recess';
  switch (d.kind) {
    case 'lean':
      return `leans ${size} in ${sayWritten(opening.height)} ${into}`;
    case 'taper':
      return `${d.mm > 0 ? 'closes in' : 'opens out'} ${size} in ${sayWritten(opening.depth)} to the back`;
    case 'skew':
      return `${size} in ${sayWritten(opening.width)} out of square, the ${d.mm > 0 ? 'right' : 'left'} end nearer`;
    case 'fall':
      return `falls ${size} towards the ${d.mm > 0 ? d.towards : opposite[d.towards]}`;
    case 'wind':
      return `in wind, its ${farCorner[side]} corner ${size} ${into}`;
    case 'bow':
      return `${d.mm > 0 ? 'belly' : 'hollow'} ${size} ${sayCrown(d, side)}`;
    case 'hump':
      return `${d.mm > 0 ? 'hump' : 'dip'} ${size}, about ${sayWritten(Math.round(d.width))} wide, ${sayPlace(side, d)}`;
    case 'step':
      return `steps ${size} ${into} ${sayStep(d, side)}`;
  }
}

/** Says how far what was measured goes either way, and where. */
function sayMeasured(of: Measured, side: Side): string {
  const at = of.mm.flatMap((row, j) => row.map((mm, i) => ({ mm, u: of.uMm[i] ?? 0, v: of.vMm[j] ?? 0 })));
  const most = at.reduce((a, b) => (b.mm > a.mm ? b : a));
  const least = at.reduce((a, b) => (b.mm < a.mm ? b : a));
  const said = [
    most.mm >= 0.25 ? `${sayRead(most.mm)} into the recess ${sayPlace(side, most)}` : '',
    least.mm <= -0.25 ? `${sayRead(-least.mm)} out of it ${sayPlace(side, least)}` : '',
  ].filter((s) => s !== '');
  return `as measured${said.length > 0 ? `, ${said.join(', ')}` : ''}`;
}

const opposite = { left: 'right', right: 'left', front: 'back', back: 'front' } as const;

const farCorner: Record<Side, string> = {
  left: 'top back',
  right: 'top back',
  back: 'top right',
  floor: 'back right',
  ceiling: 'back right',
  slope: 'back right',
};

function sayCrown(d: Defect & { kind: 'bow' }, side: Side): string {
  const onWall = side === 'left' || side === 'right';
  const parts: string[] = [];
  if (d.crownV !== undefined)
    parts.push(side === 'floor' || side === 'ceiling' || side === 'slope' ? inward(d.crownV) : up(d.crownV));
  if (d.crownU !== undefined) parts.push(onWall ? inward(d.crownU) : sideways(d.crownU));
  return parts.length > 0 ? `at ${parts.join(', ')}` : 'all over';
}

function sayPlace(side: Side, at: { u: number; v: number }): string {
  if (side === 'left' || side === 'right') return `at ${up(at.v)}, ${inward(at.u)}`;
  if (side === 'back') return `at ${up(at.v)}, ${sideways(at.u)}`;
  return `at ${inward(at.v)}, ${sideways(at.u)}`;
}

function sayStep(d: Defect & { kind: 'step' }, side: Side): string {
  if (d.along === 'v')
    return side === 'floor' || side === 'ceiling' || side === 'slope' ? `beyond ${inward(d.at)}` : `above ${up(d.at)}`;
  return side === 'left' || side === 'right' ? `beyond ${inward(d.at)}` : `right of ${sideways(d.at)}`;
}

const up = (mm: number) => `${sayWritten(Math.round(mm))} up`;
const inward = (mm: number) => `${sayWritten(Math.round(mm))} in`;

function sideways(mm: number): string {
  const whole = Math.round(Math.abs(mm));
  if (whole === 0) return 'the middle';
  return `${sayWritten(whole)} ${mm > 0 ? 'right' : 'left'} of the middle`;
}

function sayTrim(spec: RecessSpec, trim: Trim): string {
  const most = sayRead(Math.max(...trim.profile.mm.map(([, out]) => out)));
  if (trim.kind === 'skirting') return `${trim.name}: ${sayWritten(trim.vMm[1])} tall, ${most} thick`;
  if (trim.surface === 'ceiling' || trim.surface === 'slope')
    return `${trim.name}: drops ${most} below the ${sideName(spec, trim.surface)}`;
  return `${trim.name}: stands out ${most}`;
}
