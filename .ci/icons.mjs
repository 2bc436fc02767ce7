// Draws the app's icons from public/icon.svg. Run it after changing the drawing; its output is kept.
import { readFileSync, writeFileSync } from 'node:fs';
import { chromium } from '@playwright/test';

const svg = readFileSync('public/icon.svg', 'utf8');
const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu'],
});

/** The drawing at `size` px; `inset` keeps it inside the circle that a launcher may cut. */
async function draw(name, size, inset) {
  const page = await browser.newPage({ viewport: { width: size, height: size } });
  const side = size - 2 * inset;
  const uri = `data:image/svg+xml;base64,${Buffer.from(svg).toString('base64')}`;
  await page.setContent(
    `<body style="margin:0;background:#10151a"><img src="${uri}" style="display:block;margin:${inset}px;width:${side}px;height:${side}px">`,
  );
  writeFileSync(`public/${name}`, await page.screenshot({ omitBackground: false }));
  await page.close();
}

await draw('icon-192.png', 192, 0);
await draw('icon-512.png', 512, 0);
await draw('icon-maskable-512.png', 512, 64);
await draw('apple-touch-icon.png', 180, 0);
await browser.close();
