/**
 * Contrast of the palette, computed from the style sheet's own tokens.
 *
 * @source WCAG 2.2: relative luminance and contrast ratio; 1.4.3 text 4.5:1, 1.4.11 lines and focus 3:1
 */
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, test } from 'vitest';

const css = readFileSync(resolve(import.meta.dirname, '../../src/page/app.css'), 'utf8');

function tokensOf(block: string): Record<string, string> {
  const body = css.slice(css.indexOf(block)).split('}')[0] ?? '';
  return Object.fromEntries([...body.matchAll(/--([\w]+):\s*(#[0-9a-fA-F]{6})/g)].map((m) => [m[1], m[2]]));
}

function luminance(hex: string): number {
  const channel = (at: number) => {
    const c = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  };
  return 0.2126 * channel(1) + 0.7152 * channel(3) + 0.0722 * channel(5);
}

function contrast(a: string, b: string): number {
  const [dark, light] = [luminance(a), luminance(b)].sort((x, y) => x - y) as [number, number];
  return (light + 0.05) / (dark + 0.05);
}

test('the ratio is that of the standard: black on white is 21, a published grey pair is 4.54', () => {
  expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 6);
  // #767676 on white is the lightest grey that passes 4.5:1, as is widely published.
  expect(contrast('#767676', '#ffffff')).toBeCloseTo(4.54, 2);
});

test('the dark theme has the same tokens by device and by class', () => {
  expect(tokensOf(':root:not(.paper) {')).toEqual(tokensOf(':root.bench {'));
});

describe.each([
  ['paper', tokensOf(':root {')],
  ['bench', tokensOf(':root.bench {')],
])('%s', (_theme, t) => {
  const grounds = ['paper', 'sheet'] as const;
  const of = (name: string) => t[name] as string;
  test.each(['ink', 'soft', 'graphite', 'hand'])('text in %s is at least 4.5:1', (name) => {
    for (const ground of grounds) expect(contrast(of(name), of(ground))).toBeGreaterThanOrEqual(4.5);
  });
  test.each(['F', 'S', 'L', 'edge'])('lines in %s are at least 3:1', (name) => {
    for (const ground of grounds) expect(contrast(of(name), of(ground))).toBeGreaterThanOrEqual(3);
  });
  test('the main act is legible', () => {
    expect(contrast(of('paper'), of('hand'))).toBeGreaterThanOrEqual(4.5);
    expect(contrast(of('hand'), of('wash'))).toBeGreaterThanOrEqual(4.5);
    expect(contrast(of('ink'), of('wood'))).toBeGreaterThanOrEqual(4.5);
  });
});
