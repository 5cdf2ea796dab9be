/**
 * An exercise in a link: what stands after `#`, compressed, so that it is sent nowhere and needs no file.
 *
 * The exercise's JSON, deflated (RFC 1951), in the base64 alphabet for addresses (RFC 4648, section 5) without padding.
 */
import type { Exercise } from '../exercise/exercise.ts';
import { readExerciseFile } from './exercise-file.ts';
import { refuse, type Taken } from './refusal.ts';

/** More than any exercise has: a link that swells beyond it is not one. */
const mostBytes = 1_000_000;
const mostSigns = 100_000;

/**
 * Writes an exercise as the signs of a link.
 *
 * @throws {RangeError} if it is larger than any exercise
 */
export async function writeLink(exercise: Exercise): Promise<string> {
  const bytes = await through(new TextEncoder().encode(JSON.stringify(exercise)), new CompressionStream('deflate-raw'));
  if (!bytes) throw new RangeError('link: the exercise is too large for one');
  let text = '';
  for (const byte of bytes) text += String.fromCharCode(byte);
  return btoa(text).replaceAll('+', '-').replaceAll('/', '_').replace(/=+$/, '');
}

/** Reads the signs of a link, and checks what it carries as a file is checked. */
export async function readLink(signs: string): Promise<Taken<Exercise>> {
  if (!/^[A-Za-z0-9_-]+$/.test(signs)) return refuse('link: expected letters, digits, - and _ alone, got others');
  if (signs.length > mostSigns) return refuse(`link: expected ${mostSigns} signs at most, got ${signs.length}`);
  const bytes = await unpacked(signs);
  if (!bytes) return refuse('link: it does not unpack: it was cut off or changed on its way');
  return readExerciseFile(new TextDecoder().decode(bytes));
}

async function unpacked(signs: string): Promise<Uint8Array | null> {
  try {
    const text = atob(signs.replaceAll('-', '+').replaceAll('_', '/'));
    return await through(
      Uint8Array.from(text, (sign) => sign.charCodeAt(0)),
      new DecompressionStream('deflate-raw'),
    );
  } catch {
    return null;
  }
}

/** What comes out of a stream, whole; null when it is more than an exercise is. */
async function through(
  bytes: Uint8Array<ArrayBuffer>,
  stream: CompressionStream | DecompressionStream,
): Promise<Uint8Array | null> {
  const reader = new Blob([bytes]).stream().pipeThrough(stream).getReader();
  const parts: Uint8Array[] = [];
  let size = 0;
  for (let next = await reader.read(); !next.done; next = await reader.read()) {
    parts.push(next.value);
    size += next.value.length;
    if (size > mostBytes) {
      await reader.cancel();
      return null;
    }
  }
  const whole = new Uint8Array(size);
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}
