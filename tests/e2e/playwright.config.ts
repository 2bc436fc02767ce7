import { defineConfig } from '@playwright/test';
import { chromiumPath, quietArgs } from './backends.ts';

const port = process.env.E2E_PORT ?? '4174';

export default defineConfig({
  testDir: '.',
  outputDir: './results',
  timeout: 60_000,
  // A busy machine is no failed test.
  expect: { timeout: 15_000 },
  workers: 2,
  fullyParallel: true,
  forbidOnly: true,
  reporter: [
    ['line'],
    ['json', { outputFile: process.env.PLAYWRIGHT_JSON_OUTPUT_FILE ?? '../out/e2e.json' }],
  ],
  use: {
    baseURL: `http://localhost:${port}/shop/app/`,
    viewport: { width: 360, height: 740 },
    hasTouch: true,
    actionTimeout: 15_000,
    launchOptions: {
      executablePath: chromiumPath,
      args: quietArgs,
    },
  },
  webServer: {
    command: `node .ci/serve.mjs ${port}`,
    url: `http://localhost:${port}/shop/app/`,
    cwd: '../..',
    reuseExistingServer: false,
  },
});
