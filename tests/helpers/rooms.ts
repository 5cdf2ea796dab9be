/**
 * Rooms for tests: a true one to put defects on, and drawn ones by seed.
 */
import { drawKey, pick, purpose } from '../../src/chance/keyed-draws.ts';
import type { Brief } from '../../src/exercise/brief.ts';
import type { Exercise } from '../../src/exercise/exercise.ts';
import { type CodeParts, openCode, seedCount, writeCode } from '../../src/exercise/exercise-code.ts';
import { usualHeadings } from '../../src/exercise/headings.ts';
import { type Kit, presets } from '../../src/exercise/kit.ts';
import { alcoveStructures } from '../../src/recess/families/alcove-structures.ts';
import type { Defect, RecessSpec, Side, SurfaceSpec, Trim } from '../../src/recess/recess-spec.ts';
import { severities } from '../../src/recess/severity.ts';

/** The sides that an alcove has. */
export const alcoveSides = ['left', 'right', 'back', 'floor', 'ceiling'] as const;
export type AlcoveSide = (typeof alcoveSides)[number];

/** What a true room is to have beside its straight surfaces. */
export interface RoomWith {
  readonly openingMm?: RecessSpec['openingMm'];
  readonly mouthMm?: number;
  readonly breastSide?: 'left' | 'right' | null;
  readonly seed?: string;
  readonly defects?: Partial<Record<Side, readonly Defect[]>>;
  readonly offsets?: Partial<Record<Side, number>>;
  readonly wobbleMm?: number;
  readonly trims?: readonly Trim[];
  readonly wavesMm?: readonly number[];
}

/** A true room of 1000 x 2400 x 500, its breast on the right, with what is asked for put on. */
export function roomSpec(having: RoomWith = {}): RecessSpec {
  const surface = (side: Side): SurfaceSpec => ({
    offsetMm: having.offsets?.[side] ?? 0,
    wobbleMm: having.wobbleMm ?? 0,
    defects: [...(having.defects?.[side] ?? [])],
  });
  const openingMm = having.openingMm ?? { width: 1000, height: 2400, depth: 500 };
  return {
    format: 'offtrue-spec',
    version: 1,
    family: 'alcove',
    structure: 'own',
    severity: 'settled',
    openingMm,
    mouthMm: having.mouthMm ?? -40,
    breastSide: having.breastSide === undefined ? 'right' : having.breastSide,
    key: [...drawKey(having.seed ?? 'room')],
    surfaces: {
      left: surface('left'),
      right: surface('right'),
      back: surface('back'),
      floor: surface('floor'),
      ceiling: surface('ceiling'),
    },
    trims: [...(having.trims ?? [])],
    reference: {
      kind: 'cornice-return',
      heightMm: openingMm.height - 90,
      wavesMm: [...(having.wavesMm ?? [0, 0, 0, 0, 0, 0, 0])],
    },
  };
}

/** A brief for a room: a carcass 60 less than the opening each way, to be found, 3 asked at the sides, a frame. */
export function briefFor(spec: RecessSpec, change: Partial<Brief> = {}): Brief {
  const { width, height, depth } = spec.openingMm;
  return {
    openingMm: { width, height, depth },
    mouthMm: spec.mouthMm,
    reference: 'cornice-return',
    referenceWaverMm: 0,
    carcassFrontMm: 20,
    carcassMm: {
      width: { nominalMm: width - 60, find: true },
      height: { nominalMm: height - 100 - 60, find: true },
      depth: { nominalMm: depth - 20 - 60, find: true },
    },
    askMm: { left: 3, right: 3, top: 6, back: 8 },
    plinthMm: 100,
    frame: { thicknessMm: 20, leastStockMm: 4, mostStockMm: 40 },
    finishMm: [],
    fates: Object.fromEntries(spec.trims.map((t) => [t.name, 'stays' as const])),
    access: { clearHeightMm: 2600, plinthSeparate: true },
    ...change,
  };
}

/** What an exercise for tests is to have. Rule, hand and pencil are without error unless `errors` is put on. */
export interface ExerciseWith {
  readonly brief?: Partial<Brief>;
  readonly errors?: boolean;
  readonly aids?: Exercise['aids'];
  /** What the kit has beside the usual one. */
  readonly level?: Partial<Kit['level']>;
  readonly rule?: Partial<Kit['rule']>;
  readonly tools?: Kit['tools'];
}

/** An exercise in a room. */
export function exerciseIn(spec: RecessSpec, having: ExerciseWith = {}): Exercise {
  const { kit } = presets[0]!;
  return {
    format: 'offtrue-exercise',
    version: 1,
    code: null,
    find: null,
    assessed: false,
    spec,
    brief: briefFor(spec, having.brief),
    kit: {
      ...kit,
      level: { ...kit.level, ...having.level },
      rule: { ...kit.rule, errors: having.errors ?? false, ...having.rule },
      ...(having.tools ? { tools: having.tools } : {}),
    },
    aids: having.aids ?? { readsRule: false, seenInMm: true },
    headings: usualHeadings,
  };
}

/** The severities that are invented: rooms are as drawn, kept inside no document's limits. */
export const inventedSeverities = severities.filter((severity) => !severity.limits);

/** Drawn parts of codes, all structures, severities and kits among them. */
export function drawnParts(seed: string, count: number, from = severities): CodeParts[] {
  const key = drawKey(seed);
  const of = <T>(index: number, list: readonly T[], why: string): T =>
    list[pick(key, purpose(why), { index, count: list.length })]!;
  return Array.from({ length: count }, (_, i) => ({
    family: 'alcove',
    severity: of(i, from, 'test/severity').name,
    structure: of(i, alcoveStructures, 'test/structure').name,
    kit: of(i, presets, 'test/kit').name,
    seed: pick(key, purpose('test/seed'), { index: i, count: seedCount }),
  }));
}

/** The exercise that a code's parts stand for. */
export function exerciseOf(parts: CodeParts): Exercise {
  const opened = openCode(writeCode(parts));
  if (!opened.ok) throw new Error(opened.error.says);
  return opened.value;
}
