import { defineConfig } from '@playwright/test';
import { browserSwitches, ensureBrowser } from './ensure-browser.ts';

const port = Number(process.env['OFFTRUE_TEST_PORT'] ?? 4179);
/** Below a sub-path, as a plain static host may serve it. */
const url = `http://127.0.0.1:${port}/college/offtrue/`;

export default defineConfig({
  testDir: '.',
  outputDir: '../../test-results/browser',
  fullyParallel: true,
  workers: 2,
  forbidOnly: !!process.env['CI'],
  reporter: [['list'], ['json', { outputFile: '../../test-results/browser.json' }]],
  timeout: 60_000,
  use: {
    baseURL: url,
    viewport: { width: 1280, height: 720 },
    launchOptions: { executablePath: ensureBrowser(), args: [...browserSwitches] },
  },
  webServer: {
    command: `node ../../src/cli/serve.mjs --dir ../../dist --port ${port} --path /college/offtrue/`,
    url,
    reuseExistingServer: false,
    timeout: 20_000,
  },
});
