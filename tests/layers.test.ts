/**
 * The one-way arrows between layers, the packages that each may use, and what is banned below `exchange`.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join, relative, resolve } from 'node:path';
import ts from 'typescript';
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
  making: {
    on: ['geometry', 'chance', 'recess', 'exercise', 'survey', 'marking', 'learners'],
    packages: [],
  },
  course: {
    on: ['geometry', 'recess', 'exercise', 'survey', 'marking', 'learners'],
    packages: ['valibot', 'yaml', 'mdast', 'mdast-util-from-markdown'],
  },
  drawing: { on: ['geometry', 'recess', 'exercise', 'survey', 'marking'], packages: [] },
  exchange: {
    on: ['geometry', 'chance', 'recess', 'exercise', 'survey', 'marking', 'learners', 'course', 'drawing'],
    packages: ['valibot', '@noble/hashes', 'papaparse'],
  },
  page: {
    on: ['geometry', 'chance', 'recess', 'exercise', 'survey', 'marking', 'learners', 'course', 'drawing', 'exchange'],
    packages: ['svelte', 'pixi.js', 'idb'],
  },
  cli: {
    on: [
      'geometry',
      'chance',
      'recess',
      'exercise',
      'survey',
      'marking',
      'learners',
      'making',
      'course',
      'drawing',
      'exchange',
    ],
    packages: ['commander', 'valibot', '@valibot/to-json-schema'],
  },
};

/** Layers whose arithmetic must be the same in every engine, and that know no clock and no screen. */
const pure = 'geometry chance recess exercise survey marking learners making course drawing'.split(' ');

/** The one import that no text names: the command's starter loads what is built. */
const builtCommand = 'what pathToFileURL(builtCommand).href names';

/** Functions of Math that give the same bits in every engine. */
const exact = 'sqrt abs min max floor ceil round trunc sign imul fround clz32'.split(' ');
const clocks = 'Date performance setTimeout setInterval setImmediate requestAnimationFrame queueMicrotask'.split(' ');
const surroundings = 'console globalThis window document navigator process crypto Intl'.split(' ');
const byPlace = /^(localeCompare|toLocale\w+)$/;

interface Source {
  readonly path: string;
  readonly layer: string;
  readonly imports: readonly string[];
  /** What it uses that is banned below `exchange`. */
  readonly banned: readonly string[];
}

const sources = readdirSync(src, { recursive: true, encoding: 'utf8' })
  .filter((path) => /\.(ts|svelte|mjs)$/.test(path))
  .map((path) => readSource(path, readFileSync(join(src, path), 'utf8')));

function readSource(path: string, text: string): Source {
  const code = path.endsWith('.svelte') ? scriptsOf(text) : text;
  const tree = ts.createSourceFile('a.ts', code, ts.ScriptTarget.Latest, true);
  const imports: string[] = [];
  const banned: string[] = [];
  const visit = (node: ts.Node): void => {
    const imported = importedBy(node);
    if (imported !== null) imports.push(imported);
    const what = bannedAt(node);
    if (what !== null) banned.push(what);
    ts.forEachChild(node, visit);
  };
  visit(tree);
  return { path, layer: path.split(/[\\/]/)[0] as string, imports, banned };
}

function scriptsOf(svelte: string): string {
  return [...svelte.matchAll(/<script[^>]*>([\s\S]*?)<\/script>/g)].map((m) => m[1]).join('\n');
}

/** What a node imports: an import or export from somewhere, one that is loaded when it is wanted, or one of a type. */
function importedBy(node: ts.Node): string | null {
  const named =
    ts.isImportDeclaration(node) || ts.isExportDeclaration(node)
      ? node.moduleSpecifier
      : ts.isCallExpression(node) && node.expression.kind === ts.SyntaxKind.ImportKeyword
        ? node.arguments[0]
        : ts.isImportTypeNode(node) && ts.isLiteralTypeNode(node.argument)
          ? node.argument.literal
          : undefined;
  if (named === undefined) return null;
  return ts.isStringLiteralLike(named) ? named.text : `what ${named.getText()} names`;
}

function bannedAt(node: ts.Node): string | null {
  if (node.kind === ts.SyntaxKind.AsteriskAsteriskToken) return '**';
  if (node.kind === ts.SyntaxKind.AsteriskAsteriskEqualsToken) return '**=';
  if (!ts.isIdentifier(node)) return null;
  const { text, parent } = node;
  if (byPlace.test(text)) return text;
  if ((ts.isPropertyAccessExpression(parent) || ts.isPropertyAssignment(parent)) && parent.name === node) return null;
  if ((ts.isPropertySignature(parent) || ts.isMethodSignature(parent)) && parent.name === node) return null;
  if ([...clocks, ...surroundings].includes(text)) return text;
  if (text !== 'Math') return null;
  const used = ts.isPropertyAccessExpression(parent) ? parent.name.text : null;
  return used !== null && exact.includes(used) ? null : `Math.${used ?? '?'}`;
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
        .filter((i) => !i.startsWith('.') && !(s.layer === 'cli' && (i.startsWith('node:') || i === builtCommand)))
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

  test('below exchange nothing differs between engines, places and times', () => {
    const found = sources.filter((s) => pure.includes(s.layer)).flatMap((s) => s.banned.map((b) => `${s.path}: ${b}`));
    expect(found).toEqual([]);
  });

  test.each([
    ['Math.sin(1)', 'Math.sin'],
    ['Math.random()', 'Math.random'],
    ["Math['log'](2)", 'Math.?'],
    ['const { exp } = Math;', 'Math.?'],
    [`\`\${Math.hypot(3, 4)}\``, 'Math.hypot'],
    ['"wall\'s" + Math.cos(2) + "floor\'s"', 'Math.cos'],
    ['let a = 2 ** 3;', '**'],
    ['a **= 2;', '**='],
    ['new Date()', 'Date'],
    ['globalThis.Date.now()', 'globalThis'],
    ['performance.now()', 'performance'],
    ['setTimeout(f)', 'setTimeout'],
    ['console.log(1)', 'console'],
    ['document.title', 'document'],
    ["'a'.localeCompare('b')", 'localeCompare'],
    ['(1).toLocaleString()', 'toLocaleString'],
  ])('%s is seen', (code, what) => {
    expect(readSource('recess/a.ts', code).banned).toEqual([what]);
  });

  test('words in comments, texts and names of fields are not', () => {
    const code = [
      '/* Math.sin */ // Date 2 ** 3',
      `const said = 'console' + \`Math.sin \${Math.sqrt(2)}\`;`,
      'interface Run { readonly performance: number }',
      'const run = { performance: 1 }; run.performance;',
    ].join('\n');
    expect(readSource('recess/a.ts', code).banned).toEqual([]);
  });

  test('an import is seen in each of its forms', () => {
    const code = [
      "import { a } from './a.ts';",
      "import type { B } from './b.ts';",
      "import './c.ts';",
      "export { d } from './d.ts';",
      "const e = await import('./e.ts');",
      "type F = import('./f.ts').F;",
      'import {',
      '  g,',
      "} from './g.ts';",
    ].join('\n');
    const all = ['./a.ts', './b.ts', './c.ts', './d.ts', './e.ts', './f.ts', './g.ts'];
    expect(readSource('page/a.ts', code).imports).toEqual(all);
    const svelte = `<script lang="ts" module>\nimport './m.ts';\n</script>\n<script lang="ts">\n${code}\n</script>\n<p>import './no.ts'</p>`;
    expect(readSource('page/A.svelte', svelte).imports).toEqual(['./m.ts', ...all]);
  });
});
