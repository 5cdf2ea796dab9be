/**
 * Exercise codes: twelve signs that a person can read out over a phone.
 *
 * Signs: 2 4 6 7 9 D F H K M R W Y. No two look alike (no 0 O Q, 1 I L, 5 S, 8 B, 2 Z, U V) and no two sound alike (of
 * the letters that rhyme with "three", D alone; of A H J K 8, H and K; of F S X, F; of M N, M; of I Y 5 9, Y and 9,
 * which end differently). Thirteen is a prime, so the check is a weighted sum over that field: sign i, counted from 1,
 * is weighed by i, and the twelve must sum to 0 modulo 13. Every change of one sign and every swap of two signs,
 * neighbours or not, alters the sum.
 *
 *     version family severity structure | preset seed seed seed | seed seed seed check
 *
 * The structure is masked by a permutation keyed by the rest, so that it cannot be read off. Each digit is written a
 * fixed step on for its place, so that a code is not mostly one sign.
 *
 * @source weights 1 to n modulo a prime greater than n: the ISBN-10 construction, ISO 2108:1992 (from memory)
 */
import { drawKey, purpose, shuffled } from '../chance/keyed-draws.ts';
import { families, familyOf } from '../recess/families/families.ts';
import { limitSpec } from '../recess/limits/limit-spec.ts';
import type { RecessSpec } from '../recess/recess-spec.ts';
import { severities } from '../recess/severity.ts';
import { drawBrief } from './briefs/briefs.ts';
import { roundIn } from './briefs/in-inches.ts';
import type { Exercise } from './exercise.ts';
import { usualHeadings } from './headings.ts';
import { presets, unitsOf } from './kit.ts';

export const codeSigns = '24679DFHKMRWY';
const base = codeSigns.length;
const codeLength = 12;
const seedSigns = 6;
const steps = [5, 11, 3, 8, 1, 9, 6, 12, 2, 10, 4];

/** Seeds of a code run from 0 to one less than this. */
export const seedCount = 4_826_809;

/** What a code carries, by name. */
export interface CodeParts {
  readonly family: string;
  readonly severity: string;
  readonly structure: string;
  readonly kit: string;
  readonly seed: number;
}

export interface CodeError {
  readonly code:
    | 'code/length'
    | 'code/sign'
    | 'code/check'
    | 'code/version'
    | 'code/family'
    | 'code/severity'
    | 'code/structure'
    | 'code/kit';
  readonly says: string;
}

export type CodeResult<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly error: CodeError };

/**
 * Writes a code, in three groups of four.
 *
 * @throws {RangeError} if a name is unknown or the seed is not a whole number from 0 to {@link seedCount} - 1
 */
export function writeCode(parts: CodeParts): string {
  if (!Number.isInteger(parts.seed) || parts.seed < 0 || parts.seed >= seedCount)
    throw new RangeError(`code: seed must be a whole number from 0 to ${seedCount - 1}, got ${parts.seed}`);
  const family = placeOf(families, parts.family, 'family');
  const severity = placeOf(severities, parts.severity, 'severity');
  const structure = placeOf(familyOf(parts.family).structures, parts.structure, 'structure');
  const preset = placeOf(presets, parts.kit, 'kit');
  const mask = maskOf({ family, severity, seed: parts.seed });
  const data = [0, family, severity, mask[structure] as number, preset, ...seedDigits(parts.seed)];
  const written = data.map((d, i) => (d + (steps[i] as number)) % base);
  // The check's own weight is 12, which is -1 modulo 13: it is the sum of the others itself.
  const signs = [...written, weighedSum(written)].map((d) => codeSigns[d]).join('');
  return `${signs.slice(0, 4)}-${signs.slice(4, 8)}-${signs.slice(8)}`;
}

/** Reads a code. Small letters, spaces and dashes are let through. */
export function readCode(text: string): CodeResult<CodeParts> {
  const signs = [...text.toUpperCase().replace(/[\s-]/g, '')];
  for (let i = 0; i < signs.length; i++)
    if (!codeSigns.includes(signs[i] as string))
      return refused('code/sign', `sign ${i + 1} is ${JSON.stringify(signs[i])}, but a code has only ${codeSigns}`);
  if (signs.length !== codeLength)
    return refused('code/length', `a code has ${codeLength} signs, this one has ${signs.length}`);
  const digits = signs.map((s) => codeSigns.indexOf(s));
  if (weighedSum(digits) !== 0)
    return refused('code/check', 'its signs do not agree with each other: one is wrong or two are swapped');
  return partsOf(digits.map((d, i) => (d + base - (steps[i] ?? 0)) % base));
}

/** Opens the exercise that a code stands for. The same code is the same room for ever. */
export function openCode(text: string): CodeResult<Exercise> {
  const parts = readCode(text);
  return parts.ok ? { ok: true, value: exerciseOf(parts.value) } : parts;
}

/** Gives the spec of the room that a code's parts stand for: all of them but the kit. */
export function specOf(parts: Omit<CodeParts, 'kit'>): RecessSpec {
  const severity = severities[placeOf(severities, parts.severity, 'severity')];
  if (!severity) throw new RangeError('code: unknown severity');
  const drawn = familyOf(parts.family).draw({ key: roomKey(parts), structure: parts.structure, severity });
  return limitSpec(drawn, severity.limits);
}

function exerciseOf(parts: CodeParts): Exercise {
  const preset = presets[placeOf(presets, parts.kit, 'kit')];
  if (!preset) throw new RangeError(`code: unknown kit ${parts.kit}`);
  const spec = specOf(parts);
  return {
    format: 'offtrue-exercise',
    version: 1,
    code: writeCode(parts),
    find: null,
    assessed: preset.assessed,
    spec,
    brief: roundIn(unitsOf(preset.kit), drawBrief(spec)),
    kit: preset.kit,
    aids: preset.aids,
    headings: usualHeadings,
  };
}

function roomKey(parts: Omit<CodeParts, 'kit'>) {
  return drawKey(`offtrue/1/${parts.family}/${parts.severity}/${parts.structure}/${parts.seed}`);
}

function partsOf(digits: readonly number[]): CodeResult<CodeParts> {
  const [version, family, severity, masked, preset] = digits as [number, number, number, number, number];
  if (version !== 0) return refused('code/version', 'it is of a newer version than this program knows');
  const seed = digits.slice(5, 5 + seedSigns).reduce((sum, d) => sum * base + d, 0);
  const named = { family: families[family], severity: severities[severity], preset: presets[preset] };
  if (!named.family) return refused('code/family', 'it names a kind of recess that this program does not know');
  if (!named.severity) return refused('code/severity', 'it names a severity that this program does not know');
  if (!named.preset) return refused('code/kit', 'it names a kit that this program does not know');
  const structure = named.family.structures[maskOf({ family, severity, seed }).indexOf(masked)];
  if (!structure) return refused('code/structure', 'it names a structure that this program does not know');
  const { family: kind, severity: how, preset: kit } = named;
  return { ok: true, value: { family: kind.name, severity: how.name, structure: structure.name, kit: kit.name, seed } };
}

/** The permutation that hides a structure: mask[structure] is the digit written. */
function maskOf(from: { family: number; severity: number; seed: number }): readonly number[] {
  const rest = (from.family * base + from.severity) * seedCount + from.seed;
  const key = [rest | 0, Math.floor(rest / 4294967296) | 0, 0x0ff7, 0x10e5] as const;
  return shuffled(key, whyMask, base);
}

const whyMask = purpose('exercise/mask');

function seedDigits(seed: number): number[] {
  const digits: number[] = [];
  for (let i = 0, left = seed; i < seedSigns; i++, left = Math.floor(left / base)) digits.unshift(left % base);
  return digits;
}

function weighedSum(digits: readonly number[]): number {
  return digits.reduce((sum, d, i) => sum + (i + 1) * d, 0) % base;
}

function placeOf(list: readonly { readonly name: string }[], name: string, what: string): number {
  const at = list.findIndex((item) => item.name === name);
  if (at < 0) throw new RangeError(`code: no ${what} is named ${JSON.stringify(name)}`);
  return at;
}

function refused(code: CodeError['code'], says: string): { ok: false; error: CodeError } {
  return { ok: false, error: { code, says } };
}
