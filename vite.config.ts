import { fileURLToPath } from 'node:url';
import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig } from 'vitest/config';

const at = (path: string) => fileURLToPath(new URL(path, import.meta.url));

/**
 * Two builds: the page (static files that work below any path) and, with `--mode cli`, the command in one file, so that
 * it starts quickly. The tests run on the sources.
 */
export default defineConfig(({ mode }) => {
  const command = mode === 'cli';
  return {
    root: command ? at('src') : at('src/page'),
    base: './',
    publicDir: command ? false : at('public'),
    plugins: command ? [] : [svelte({ configFile: false })],
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
