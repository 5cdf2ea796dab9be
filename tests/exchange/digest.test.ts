/**
 * @source SHA-256 of "abc": FIPS 180-4, example in NIST's "SHA256.pdf" (from memory)
 */
import { createHash } from 'node:crypto';
import { expect, test } from 'vitest';
import { canonical, digestOf } from '../../src/exchange/digest.ts';

test('fields count in the order of their names, undefined ones not at all', () => {
  expect(canonical({ b: [1, { d: null, c: 'x' }], a: undefined })).toBe('{"b":[1,{"c":"x","d":null}]}');
  expect(digestOf({ a: 1, b: 2 })).toBe(digestOf({ b: 2, a: 1 }));
  expect(digestOf({ a: 1, b: 2 })).not.toBe(digestOf({ a: 1, b: 3 }));
});

test('it is SHA-256 of the canonical text', () => {
  const data = { width: 1157.5, says: 'half a millimetre: ½' };
  expect(digestOf(data)).toBe(createHash('sha256').update(canonical(data)).digest('hex'));
});
