import { playwright } from '@vitest/browser-playwright';
import { VitePWA } from 'vite-plugin-pwa';
import { defineConfig } from 'vitest/config';
import { againIfItFails } from './.ci/again.mjs';

const home = import.meta.dirname;

/** The system's Chromium: a browser of the test tool's own is never downloaded. */
const chromium = playwright({
  launchOptions: {
    executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
    args: ['--no-sandbox', '--disable-gpu', '--disable-background-networking', '--disable-sync'],
  },
});

export default defineConfig({
  root: `${home}/src`,
  publicDir: `${home}/public`,
  // Relative, so that the app runs from any folder of any static host.
  base: './',
  build: {
    outDir: `${home}/dist`,
    emptyOutDir: true,
    target: 'es2022',
    // No polyfill: it is an inline script, which the content policy forbids. Only the page itself says
    // what it needs at once; for the rest the service worker has every file.
    modulePreload: {
      polyfill: false,
      resolveDependencies: (_, files, { hostType }) => (hostType === 'html' ? files : []),
    },
    rolldownOptions: {
      output: {
        codeSplitting: {
          // Few files: what a page pays for is how many it asks the worker for, far more than how long they are
          // (half the processor time of a start, measured). `first` is the first load; `desk` all that a first page
          // of the desk needs, without a chain; `shared` what several pages use.
          groups: [
            { name: 'first', tags: ['$initial'], priority: 3 },
            { name: 'desk', test: /app.(Screen|frame)|screens.start.StartScreen/, priority: 2 },
            {
              name: 'shared',
              test: /src.(ui|calc|store|model|live|platform|screens)|d3-array/,
              minShareCount: 2,
              priority: 1,
            },
          ],
        },
      },
    },
    // One sheet for all screens: a late screen needs no second file.
    cssCodeSplit: false,
  },
  css: { modules: { generateScopedName: '[hash:base64:5]' } },
  worker: { format: 'es' },
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  optimizeDeps: {
    include: [
      'preact',
      'preact/hooks',
      'preact/jsx-runtime',
      'preact/jsx-dev-runtime',
      'preact/test-utils',
      'idb',
      'zod/mini',
      'uuid',
      'papaparse',
      '@scure/bip39/wordlists/english.js',
      'axe-core',
      'fast-check',
    ],
  },
  plugins: [
    {
      // While developing, vite puts styles in the page; the built app has none inline and keeps the strict policy.
      name: 'relax-styles-in-development',
      apply: 'serve',
      transformIndexHtml: (html) =>
        html
          .replace("style-src 'self'", "style-src 'self' 'unsafe-inline'")
          .replace("connect-src 'self'", "connect-src 'self' ws:"),
    },
    againIfItFails(),
    VitePWA({
      // The app asks before it takes an update, and never in a running session: platform/updates.ts.
      registerType: 'prompt',
      injectRegister: null,
      filename: 'sw.js',
      // No `id`: it would be resolved against the origin, not against the folder.
      manifest: {
        name: 'Warmshot',
        short_name: 'Warmshot',
        description: 'The shop logbook of a person who casts soft plastic baits.',
        lang: 'en-GB',
        display: 'standalone',
        orientation: 'any',
        start_url: '.',
        scope: '.',
        background_color: '#f1eee6',
        theme_color: '#f1eee6',
        icons: [
          { src: 'icon-192.png', sizes: '192x192', type: 'image/png', purpose: 'any' },
          { src: 'icon-512.png', sizes: '512x512', type: 'image/png', purpose: 'any' },
          {
            src: 'icon-maskable-512.png',
            sizes: '512x512',
            type: 'image/png',
            purpose: 'maskable',
          },
        ],
      },
      workbox: {
        cleanupOutdatedCaches: true,
        clientsClaim: false,
        inlineWorkboxRuntime: true,
        navigateFallback: 'index.html',
        ignoreURLParametersMatching: [/.*/],
        globPatterns: ['**/*.{js,css,html,svg,png,webmanifest,bin}'],
      },
    }),
  ],
  test: {
    root: home,
    projects: [
      {
        extends: true,
        test: {
          name: 'node',
          maxWorkers: 2,
          include: ['tests/{calc,model,copy}/**/*.test.ts', 'tests/*.test.ts'],
          setupFiles: ['tests/hands/same-draws.ts'],
          // A busy machine is no failed test.
          testTimeout: 60_000,
        },
      },
      {
        extends: true,
        test: {
          // Prints ratios and is no part of `npm test`.
          name: 'bench',
          include: ['tests/bench/**/*.bench.ts'],
          testTimeout: 300_000,
          browser: {
            enabled: true,
            headless: true,
            screenshotFailures: false,
            provider: chromium,
            instances: [{ browser: 'chromium' }],
          },
        },
      },
      {
        extends: true,
        test: {
          name: 'chromium',
          maxWorkers: 2,
          include: ['tests/{store,live,platform,ui,screens}/**/*.test.{ts,tsx}'],
          setupFiles: ['tests/hands/drawn.ts'],
          testTimeout: 60_000,
          expect: { poll: { timeout: 10_000 } },
          browser: {
            enabled: true,
            headless: true,
            screenshotFailures: false,
            provider: chromium,
            instances: [{ browser: 'chromium', viewport: { width: 390, height: 844 } }],
          },
        },
      },
    ],
  },
});
