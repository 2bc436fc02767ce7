import { defineConfig } from '@playwright/test';

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
    baseURL: 'http://localhost:4174/shop/app/',
    viewport: { width: 360, height: 740 },
    hasTouch: true,
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
    command: 'node .ci/serve.mjs 4174',
    url: 'http://localhost:4174/shop/app/',
    cwd: '../..',
    reuseExistingServer: false,
  },
});
