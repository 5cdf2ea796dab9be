import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { svelte } from '@sveltejs/vite-plugin-svelte';
import type { Plugin } from 'vite';
import { defineConfig } from 'vitest/config';
import { readLesson } from './src/course/lesson-file.ts';

const at = (path: string) => fileURLToPath(new URL(path, import.meta.url));

const { version } = JSON.parse(readFileSync(at('package.json'), 'utf8')) as { version: string };

/** A lesson is read when the page is built: what reaches the page is its header and its blocks of text. */
function lessonText(): Plugin {
  return {
    name: 'lesson-text',
    transform(code, id) {
      const name = /\/lessons\/([^/]+)\/lesson\.md$/.exec(id)?.[1];
      return name ? `export default ${JSON.stringify(readLesson(name, code))};` : null;
    },
  };
}

/** The built page carries a strict policy: its own files, nothing inline, nothing from elsewhere. */
function strictPolicy(): Plugin {
  const policy =
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; connect-src 'self'; manifest-src 'self'; base-uri 'none'; form-action 'none'";
  return {
    name: 'strict-policy',
    apply: 'build',
    transformIndexHtml: () => [
      { tag: 'meta', attrs: { 'http-equiv': 'Content-Security-Policy', content: policy }, injectTo: 'head-prepend' },
    ],
  };
}

/**
 * Two builds: the page (static files that work below any path) and, with `--mode cli`, the command in one file, so that
 * it starts quickly. The tests run on the sources.
 */
export default defineConfig(({ mode }) => {
  const command = mode === 'cli';
  return {
    root: command ? at('src') : at('src/page'),
    base: './',
    define: { __VERSION__: JSON.stringify(version) },
    publicDir: command ? false : at('public'),
    plugins: command ? [] : [svelte({ configFile: false }), lessonText(), strictPolicy()],
    ...(command ? { ssr: { noExternal: true } } : {}),
    ...(process.env['VITEST'] ? { resolve: { conditions: ['browser'] } } : {}),
    build: command
      ? {
          ssr: at('src/cli/main.ts'),
          outDir: at('dist-cli'),
          emptyOutDir: true,
          target: 'node20',
          minify: false,
          rolldownOptions: { output: { entryFileNames: 'offtrue.js' } },
        }
      : {
          outDir: at('dist'),
          emptyOutDir: true,
          target: 'es2022',
          assetsInlineLimit: 0,
          modulePreload: { polyfill: false },
        },
    test: {
      root: at('.'),
      include: ['tests/**/*.test.ts'],
      testTimeout: 120_000,
    },
  };
});
