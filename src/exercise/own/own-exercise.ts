/**
 * From a room of one's own to an exercise: the family's usual values where nothing is said, then checked for sense.
 */
import { drawKey } from '../../chance/keyed-draws.ts';
import { drawWaves } from '../../recess/families/small-defects.ts';
import { noSpaceIn, sayNoSpace } from '../../recess/free-space.ts';
import { buildRecess } from '../../recess/recess.ts';
import type { RecessSpec, Side, SurfaceSpec } from '../../recess/recess-spec.ts';
import type { Exercise } from '../exercise.ts';
import { usualHeadings } from '../headings.ts';
import { presets } from '../kit.ts';
import { briefOf } from './own-brief.ts';
import { type OwnResult, type OwnRoom, refuseOwn } from './own-room.ts';
import { withOwnSurfaces } from './own-surfaces.ts';
import { trimsOf } from './own-trims.ts';
import { toldOver } from './told.ts';
import { type UsualRoom, usualRooms } from './usual-room.ts';

/** Makes the exercise of a room, or says what about it is no room. */
export function ownExercise(room: OwnRoom): OwnResult<Exercise> {
  if (room.family === 'alcove-pair')
    return refuseOwn('own/family', 'family', 'a pair of alcoves is not made by hand: make each of them an alcove');
  const usual = usualRooms[room.family];
  const outlined = outlineSpec(room, usual);
  if (!outlined.ok) return outlined;
  const surfaced = withOwnSurfaces(outlined.value, room);
  if (!surfaced.ok) return surfaced;
  const made = trimsOf(surfaced.value, room.trims);
  if (!made.ok) return made;
  const spec = { ...surfaced.value, trims: [...made.value.trims] };
  const recess = buildRecess(spec);
  const none = noSpaceIn(recess);
  if (none) return refuseOwn('own/space', `surfaces.${none.side}`, sayNoSpace(none));
  const brief = briefOf(recess, { room, usual, fates: made.value.fates });
  if (!brief.ok) return brief;
  const preset = presets.find((p) => p.name === (room.kit ?? 'guided')) ?? presets[0];
  if (!preset) throw new RangeError('own: there is no kit');
  return {
    ok: true,
    value: {
      format: 'offtrue-exercise',
      version: 1,
      code: null,
      find: null,
      assessed: preset.assessed,
      spec,
      brief: brief.value,
      kit: preset.kit,
      aids: preset.aids,
      headings: usualHeadings,
    },
  };
}

const trueSurface: SurfaceSpec = { offsetMm: 0, wobbleMm: 0, defects: [] };

/** The spec with straight surfaces and no trims. */
function outlineSpec(room: OwnRoom, usual: UsualRoom): OwnResult<RecessSpec> {
  const openingMm = toldOver(usual.openingMm, room.openingMm);
  const limits = { width: [400, 5000], height: [400, 3200], depth: [80, 1200] } as const;
  for (const name of ['width', 'height', 'depth'] as const) {
    const [least, most] = limits[name];
    if (openingMm[name] < least || openingMm[name] > most)
      return refuseOwn('own/family', `openingMm.${name}`, `expected ${least} to ${most}, got ${openingMm[name]}`);
  }
  const breast = room.breast ?? usual.breast;
  if (breast && breast.inFrontMm > 300)
    return refuseOwn('own/family', 'breast.inFrontMm', `expected 0 to 300, got ${breast.inFrontMm}`);
  const slope = room.slope ?? usual.slope;
  const wrong = slope && wrongWithSlope(slope, openingMm.height);
  if (wrong) return refuseOwn('own/family', 'slope', wrong);
  const open: readonly Side[] = room.open ?? usual.open;
  const breastOpen = breast && open.includes(breast.side);
  if (breastOpen)
    return refuseOwn('own/family', 'open', `the breast stands on the ${breast.side}, so that is not open`);
  const there = (['left', 'right', 'back', 'ceiling'] as const).filter((side) => !open.includes(side));
  const seed = room.seed ?? 1;
  return {
    ok: true,
    value: {
      format: 'offtrue-spec',
      version: 1,
      family: room.family,
      structure: 'own',
      severity: 'own',
      openingMm,
      mouthMm: breast ? 0 - breast.inFrontMm : 0,
      breastSide: breast?.side ?? null,
      key: [...drawKey(`offtrue/own/${seed}`)],
      surfaces: {
        floor: trueSurface,
        ...Object.fromEntries(there.map((side) => [side, trueSurface])),
        ...(slope ? { slope: trueSurface } : {}),
      },
      ...(slope ? { slope } : {}),
      trims: [],
      reference: referenceOf(room, { usual, height: openingMm.height, seed }),
    },
  };
}

function wrongWithSlope(slope: NonNullable<OwnRoom['slope']>, heightMm: number): string | null {
  if (slope.lowMm < 100 || slope.lowMm > 3000) return `expected lowMm 100 to 3000, got ${slope.lowMm}`;
  if (slope.lowMm >= heightMm) return `expected lowMm under the opening's height of ${heightMm}, got ${slope.lowMm}`;
  if (slope.riseMmPerM < 100 || slope.riseMmPerM > 1500)
    return `expected riseMmPerM 100 to 1500, got ${slope.riseMmPerM}`;
  return null;
}

/** The reference, its waves as far from straight as told. */
function referenceOf(room: OwnRoom, of: { usual: UsualRoom; height: number; seed: number }): RecessSpec['reference'] {
  const kind = room.reference?.kind ?? of.usual.reference;
  const waverMm = room.reference?.waverMm ?? 1;
  const waves = drawWaves('own', drawKey(`offtrue/own/${of.seed}`), 1);
  const most = Math.max(...waves.map(Math.abs));
  const overhead = kind === 'cornice-return' || kind === 'best-fit';
  return {
    kind,
    heightMm: overhead ? of.height - 90 : kind === 'breast-face' || kind === 'square-to-wall' ? of.height / 2 : 0,
    wavesMm: waves.map((w) => 0 + Math.round((most > 0 ? (w * waverMm) / most : 0) * 1024) / 1024),
  };
}
