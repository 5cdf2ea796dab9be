/**
 * The one-way arrows between layers, the packages that each may use, and what is banned below `exchange`.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join, relative, resolve } from 'node:path';
import { describe, expect, test } from 'vitest';

const src = resolve(import.meta.dirname, '../src');

/** What each layer may lean on, and which packages it may use. */
const layers: Readonly<Record<string, { readonly on: readonly string[]; readonly packages: readonly string[] }>> = {
  geometry: { on: [], packages: [] },
  chance: { on: [], packages: ['seedrandom'] },
  recess: { on: ['geometry', 'chance'], packages: ['valibot'] },
  exercise: { on: ['geometry', 'chance', 'recess'], packages: ['valibot'] },
  survey: { on: ['geometry', 'chance', 'recess', 'exercise'], packages: ['valibot'] },
  marking: { on: ['geometry', 'chance', 'recess', 'exercise', 'survey'], packages: ['valibot'] },
  learners: { on: ['geometry', 'chance', 'recess', 'exercise', 'survey'], packages: [] },
  course: {
    on: ['geometry', 'recess', 'exercise', 'survey', 'marking', 'learners'],
    packages: ['valibot', 'yaml', 'mdast', 'mdast-util-from-markdown'],
  },
  drawing: { on: ['geometry', 'recess', 'exercise', 'survey', 'marking'], packages: [] },
  exchange: {
    on: ['geometry', 'chance', 'recess', 'exercise', 'survey', 'marking', 'learners', 'course', 'drawing'],
    packages: ['valibot', '@noble/hashes'],
  },
  page: {
    on: ['geometry', 'chance', 'recess', 'exercise', 'survey', 'marking', 'learners', 'course', 'drawing', 'exchange'],
    packages: ['svelte', 'pixi.js', 'idb'],
  },
  cli: {
    on: ['geometry', 'chance', 'recess', 'exercise', 'survey', 'marking', 'learners', 'course', 'drawing', 'exchange'],
    packages: ['commander', 'valibot', '@valibot/to-json-schema'],
  },
};

/** Layers whose arithmetic must be the same in every engine, and that know no clock and no screen. */
const pure = ['geometry', 'chance', 'recess', 'exercise', 'survey', 'marking', 'learners', 'course', 'drawing'];

const banned: readonly (readonly [what: string, pattern: RegExp])[] = [
  [
    'a Math function that differs between engines or by chance',
    /\bMath\.(?!sqrt|abs|min|max|floor|ceil|round|trunc|sign|imul|fround|clz32)\w+/,
  ],
  ['**', /\*\*/],
  ['Date', /\bDate\b/],
  ['performance', /\bperformance\b/],
  ['a timer', /\b(setTimeout|setInterval|requestAnimationFrame|queueMicrotask)\b/],
  ['console', /\bconsole\b/],
];

interface Source {
  readonly path: string;
  readonly layer: string;
  readonly imports: readonly string[];
  readonly code: string;
}

/** An import or export from somewhere, a bare import, or one that is loaded when it is wanted. */
const importing = /^\s*(?:import|export)\b[^'";]*?\bfrom\s+'([^']+)'|^\s*import\s+'([^']+)'|\bimport\('([^']+)'\)/gm;

const sources = readdirSync(src, { recursive: true, encoding: 'utf8' })
  .filter((path) => /\.(ts|svelte|mjs)$/.test(path))
  .map((path) => readSource(path));

function readSource(path: string): Source {
  const text = readFileSync(join(src, path), 'utf8');
  const imports = [...text.matchAll(importing)].map((m) => (m[1] ?? m[2] ?? m[3]) as string);
  return { path, layer: path.split(/[\\/]/)[0] as string, imports, code: withoutComments(text) };
}

/** Code without comments and strings, so that words in them count for nothing. */
function withoutComments(text: string): string {
  return text
    .replace(/\/\*[\s\S]*?\*\//g, '')
    .replace(/(^|[^:])\/\/.*$/gm, '$1')
    .replace(/'(?:[^'\\\n]|\\.)*'/g, "''")
    .replace(/`(?:[^`\\]|\\.)*`/g, '``');
}

function layerOf(source: Source, imported: string): string {
  return relative(src, resolve(src, source.path, '..', imported)).split(/[\\/]/)[0] as string;
}

function packageOf(imported: string): string {
  const parts = imported.split('/');
  return imported.startsWith('@') ? parts.slice(0, 2).join('/') : (parts[0] as string);
}

describe('layers', () => {
  test('every folder of src is a layer', () => {
    expect(sources.length).toBeGreaterThan(50);
    expect([...new Set(sources.map((s) => s.layer))].filter((l) => !(l in layers))).toEqual([]);
  });

  test('no import goes up', () => {
    const up = sources.flatMap((s) =>
      s.imports
        .filter((i) => i.startsWith('.'))
        .map((i) => ({ from: s.path, layer: layerOf(s, i), i }))
        .filter(({ layer }) => layer !== s.layer && layer !== '..' && !layers[s.layer]?.on.includes(layer))
        .map(({ from, i }) => `${from} imports ${i}`),
    );
    expect(up).toEqual([]);
  });

  test('each layer uses only its packages', () => {
    const foreign = sources.flatMap((s) =>
      s.imports
        .filter((i) => !i.startsWith('.') && !(i.startsWith('node:') && s.layer === 'cli'))
        .filter((i) => !layers[s.layer]?.packages.includes(packageOf(i)))
        .map((i) => `${s.path} imports ${i}`),
    );
    expect(foreign).toEqual([]);
  });

  test('only the canvas draws with Pixi', () => {
    const wrong = sources.filter(
      (s) => s.imports.some((i) => i.startsWith('pixi.js')) && !s.path.startsWith('page/canvas/'),
    );
    expect(wrong.map((s) => s.path)).toEqual([]);
  });

  test.each(banned)('below exchange there is no %s', (_what, pattern) => {
    const found = sources.filter((s) => pure.includes(s.layer) && pattern.test(s.code)).map((s) => s.path);
    expect(found).toEqual([]);
  });

  test('the checks see what they look for', () => {
    const bad = "/* Math.sin */ const a = Math.sin(1); // Date\nconst b = 'console'; const c = a ** 2;";
    const hits = banned.filter(([, pattern]) => pattern.test(withoutComments(bad))).map(([what]) => what);
    expect(hits).toEqual([banned[0]?.[0], '**']);
  });
});
