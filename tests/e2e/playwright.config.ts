import { defineConfig } from '@playwright/test';

const port = process.env.E2E_PORT ?? '4174';

export default defineConfig({
  testDir: '.',
  outputDir: './results',
  timeout: 60_000,
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
      executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
      args: [
        '--no-sandbox',
        '--disable-gpu',
        '--disable-quic',
        '--no-first-run',
        '--disable-background-networking',
        '--disable-component-update',
        '--disable-sync',
      ],
    },
  },
  webServer: {
    command: `node .ci/serve.mjs ${port}`,
    url: `http://localhost:${port}/shop/app/`,
    cwd: '../..',
    reuseExistingServer: false,
  },
});
