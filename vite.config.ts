import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

const at = (path: string) => fileURLToPath(new URL(path, import.meta.url));

/** The command is built into one file, so that it starts quickly; the tests run on the sources. */
export default defineConfig({
  root: at('src'),
  publicDir: false,
  ssr: { noExternal: true },
  build: {
    ssr: at('src/cli/main.ts'),
    outDir: at('dist-cli'),
    emptyOutDir: true,
    target: 'node20',
    minify: false,
    rolldownOptions: { output: { entryFileNames: 'offtrue.js' } },
  },
  test: {
    root: at('.'),
    include: ['tests/**/*.test.ts'],
    testTimeout: 120_000,
  },
});
