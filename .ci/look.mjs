// npm run look: every screen of the built app, at every size and in both palettes, on one sheet.
// npm run look -- 740x360 360x740 lamp: those sizes alone, in that palette; chalk, the light one, unless told.
// npm run look -- readme: the two pictures of the README.
import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { chromium } from '@playwright/test';
import { serve } from './serve.mjs';

const readme = process.argv[2] === 'readme';
const out = 'tests/out/look';
rmSync(out, { recursive: true, force: true });
mkdirSync(out, { recursive: true });
mkdirSync('demo', { recursive: true });
const asked = process.argv.slice(2).filter((word) => /^\d+x\d+$/.test(word));
const every = ['320x568', '360x740', '412x915', '740x360', '915x412', '768x1024', '1024x768'];
const sizes = (readme ? ['360x740'] : asked.length > 0 ? asked : every).map((size) =>
  size.split('x').map(Number),
);
const told = ['chalk', 'lamp'].filter((palette) => process.argv.includes(palette));
const few = told.length > 0 ? told : ['chalk'];
const palettes = readme ? ['chalk'] : asked.length > 0 ? few : ['chalk', 'lamp'];

const { server, url } = await serve({ port: 0 });
const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu'],
});
const page = await browser.newPage({
  viewport: { width: 360, height: 740 },
  deviceScaleFactor: readme ? 2 : 1,
  timezoneId: 'Europe/Berlin',
});
const shots = [];

/** The page as it stands now, at every size and in every palette. */
async function look(name, glasses = sizes) {
  // A screen is fetched after the first paint: without this, a slow machine would have it look blank.
  await page.locator('h1:visible, main *:visible').first().waitFor();
  for (const [width, height] of glasses) {
    await page.setViewportSize({ width, height });
    for (const palette of palettes) {
      await page.evaluate((theme) => {
        document.documentElement.dataset.theme = theme;
      }, palette);
      await page.waitForTimeout(120);
      const file = `${name}-${width}x${height}-${palette}.png`;
      await page.screenshot({ path: `${out}/${file}` });
      shots.push({ name, size: `${width}x${height}`, palette, file });
    }
  }
  await page.setViewportSize({ width: 360, height: 740 });
  await page.evaluate(() => {
    document.documentElement.dataset.theme = 'chalk';
  });
}

const wait = (ms = 450) => page.waitForTimeout(ms);
const press = async (name) => {
  await page.getByRole('button', { name }).first().click();
  await wait();
};
const pass = (ms) => page.clock.fastForward(ms);
const go = async (hash) => {
  await page.goto(`${url}#/${hash}`);
  await wait(250);
};
const addMould = async (name, across, down) => {
  await go('mould-facts/new');
  await page.getByLabel('Name').fill(name);
  const steps = async (word, by) => {
    for (let step = 0; step < Math.abs(by); step += 1) {
      await page.getByRole('button', { name: `One ${word} ${by > 0 ? 'more' : 'less'}` }).click();
    }
  };
  await steps('across', across - 2);
  await steps('down', down - 4);
  await page.getByRole('button', { name: 'Add this mould' }).click();
  await wait(250);
};
const addColour = async (name, swatches) => {
  await go('colour-facts/new');
  await page.getByLabel('Name').fill(name);
  if (swatches.length > 1) {
    await page.getByRole('button', { name: 'Two sides' }).click();
    await page.getByLabel('Side A, left').fill(name.split('/')[0]);
    await page.getByLabel('Side B, right').fill(name.split('/')[1]);
  }
  const inputs = page.locator('input[type=color]');
  for (const [index, swatch] of swatches.entries()) await inputs.nth(index).fill(swatch);
  await page.getByRole('button', { name: 'Add this colour' }).click();
  await wait(250);
};

/** The desk pages of the demo shop: four months of numbers on each. */
async function lookRoundTheDemo() {
  await page.goto(`${url}?demo#/moulds`);
  await page.getByText('Grub 50').first().waitFor();
  await wait();
  await look('demo-moulds');
  const turnTo = async (place) => {
    await page.evaluate((hash) => {
      window.location.hash = hash;
    }, `#/${place}`);
    await wait(900);
  };
  const follow = async (name) => {
    await page.getByRole('link', { name }).first().click();
    await wait(900);
  };
  const below = async (name) => {
    await page.evaluate(() => window.scrollTo(0, 600));
    await look(name);
  };
  await follow(/^Grub 50|Which cavity/);
  await look('demo-mould');
  await below('demo-mould-below');
  await turnTo('yields');
  await look('demo-yields');
  for (const place of ['pour', 'line-up', 'colours']) {
    await turnTo(place);
    await look(`demo-${place}`);
  }
  await follow(/Ink\/rust/);
  await look('demo-laminate');
  await turnTo('colours');
  await follow(/Peat brown/);
  await look('demo-colour');
  await below('demo-colour-below');
  await follow(/^Change the doses/);
  await look('demo-mix-facts');
  await page.goBack();
  await wait(900);
  await follow(/^Share this mix/);
  await look('demo-share');
  for (const place of ['ideas', 'shelf']) {
    await turnTo(place);
    await look(`demo-${place}`);
  }
  await page.locator('main a[href^="#/material/"]').first().click();
  await wait(900);
  await look('demo-material');
  for (const place of [
    'bait-cost',
    'material-facts/new',
    'keep',
    'open-copy',
    'tables',
    'workshop',
  ]) {
    await turnTo(place);
    await look(`demo-${place.replace('/', '-')}`);
  }
}

/** The table as it is seldom seen: main key left, large keys, a mould in parts, several pots, layers, the glass asleep. */
async function lookAtRareTables() {
  await addMould('Wide', 6, 8);
  await addMould('Cup 4', 2, 2);
  await go('workshop');
  await press('Swap');
  await go('line-up');
  for (const name of [/^Grub 50/, /^Wide/, /^Cup 4/]) await press(name);
  await press(/^Start pouring/);
  await wait(600);
  await look('table-swapped');
  await press(/^Filled/);
  await press(/^Open now, Wide/);
  await press(/^Mark bad, Wide/);
  await look('table-parts');
  await press(/^Back/);
  for (const pot of ['Side B', 'Side A']) {
    await press(/^Pot:/);
    await press(/^Another pot/);
    await press(/^New colour/);
    if (pot === 'Side B') await look('table-make');
    await press(/^Mixed/);
    await look(`table-pots-${pot === 'Side B' ? 2 : 3}`);
  }
  await press(/^Wipe/);
  await look('table-wipe', [[360, 740]]);
  await pass(9_000);
  await wait(400);
  for (const size of ['Large', 'Largest']) {
    await go('glove-check');
    await page.getByRole('button', { name: size, exact: true }).click();
    await wait();
    await go('table');
    await wait(600);
    await look(`table-${size.toLowerCase()}`);
  }
}

/** A hand pour at the table, layer by layer out of three pots; then a table that can sound no bell. */
async function lookAtLayers() {
  const facts = async (name) => {
    await go('moulds');
    await page.getByRole('link', { name }).first().click();
    await page.getByRole('link', { name: 'Change its facts' }).click();
  };
  await press(/^Table/);
  await press(/^Finish/);
  await go('workshop');
  await press('Swap');
  await go('glove-check');
  await press('Usual');
  await facts(/^Cup 4/);
  await press('Open, by hand');
  await press('Save the changes');
  await go('line-up');
  await press(/^Cup 4/);
  await press('Peat brown');
  await press(/^Start pouring/);
  await press(/^Pot:/);
  await press(/^Another pot/);
  await press(/^Pearl.*, mix/);
  await press(/^Filled/);
  await pass(42_000);
  await wait();
  await look('table-layers');
  await press(/^Pot:/);
  await look('table-layers-pots');
  await press(/^Pot:/);
  await press(/^Layer 2/);
  await press(/^Last layer/);
  await go('sound-check');
  await press('No music');
  await press("I'll watch instead");
  await go('table');
  await wait(600);
  await look('table-muted');
}

/** The one line over the round line, in all that it says. */
async function lookAtNotices() {
  await pass(215_000);
  await wait(700);
  await press(/^All good [A-Z]/);
  await wait(700);
  // It is said for ten seconds: each glass has a return of its own.
  for (const glass of sizes) {
    await press(/^Filled/);
    await wait();
    // A shot that had one layer makes the next one end with its first.
    if (await page.getByRole('button', { name: /^Last layer/ }).isVisible()) {
      await press(/^Last layer/);
    }
    await go('moulds');
    await pass(215_000);
    await go('table');
    await page
      .getByText(/was ready/)
      .first()
      .waitFor();
    await look('table-was-ready', [glass]);
    await press(/^All good [A-Z]/);
    await wait(700);
  }
  await go('moulds');
  await pass(40 * 60_000);
  await go('table');
  await page.getByText('Still pouring?').first().waitFor();
  await look('table-still-pouring');
  await press(/^Carry on/);
  // Another hour on the phone's own clock: it is said until the next press.
  await page.clock.setSystemTime(await page.evaluate(() => Date.now() + 3_600_000));
  await page
    .getByText(/lock jumped/)
    .first()
    .waitFor();
  await look('table-clock-jumped');
  await page.evaluate(() => {
    for (const write of ['add', 'put']) {
      IDBObjectStore.prototype[write] = () => {
        throw new DOMException('no room', 'QuotaExceededError');
      };
    }
  });
  await press(/^Filled/);
  await page
    .getByText(/^Not saving/)
    .first()
    .waitFor();
  await look('table-not-saving');
}

await page.clock.install({ time: new Date('2026-11-24T18:02:00Z') });
await page.goto(url);
await wait();
await page.getByRole('button', { name: 'Log a pour now' }).waitFor();
await look('start');
await press('Log a pour now');
await press(/^2 × 4/);
await look('shape');
await addMould('Grub 50', 2, 4);
await addMould('Shad 7', 2, 2);
await addMould('Leaf tail', 2, 6);
await addColour('Peat brown', ['#5b4029']);
await addColour('Pearl/Ink', ['#ece7d8', '#1c2733']);
await go('line-up');
await press(/^Grub 50/);
await press(/^Shad 7/);
await press('Peat brown');
await look('line-up');
await press(/^Start pouring/);
await wait();
await look('cautions');
await press(/^I have read this/);
await look('table-empty');

const bad = { 1: ['1', '4'], 2: ['1', '6'], 3: ['6'], 5: ['6', '3'], 8: ['6'], 10: ['6'] };
for (let round = 1; round <= 11; round += 1) {
  await press(/^Filled/);
  if (round === 11) break;
  await pass(215_000);
  await wait(700);
  if (bad[round]) {
    await press(/^Mark bad, Grub 50/);
    for (const cavity of bad[round]) await press(new RegExp(`^Cavity ${cavity},`));
    await press(/^Save/);
  }
  if (round === 6) await press(/^Check later, Shad 7/);
  await press(/^All good [A-Z]/);
  if (round === 4 || round === 8) {
    await press(/^Pot:/);
    await press(/^Reheated/);
  }
  if (round === 3 || round === 7) {
    await press(/^Pot:/);
    await press(/^Topped up/);
    await press(/^Top up/);
  }
  await pass(50_000);
  await wait(700);
}
await pass(70_000);
await wait(400);
await look('table-setting');
await press(/^Open now, Grub 50/);
await pass(14_000);
await wait(400);
await look('table-open');
if (readme) writeFileSync('demo/table.png', readFileSync(`${out}/table-open-360x740-chalk.png`));
await press(/^Mark bad, Grub 50/);
await press(/^Cavity 6,/);
await look('table-mark');
await press(/^More/);
await look('table-more');
await press(/^Back/);
await press(/^Pot:/);
await look('table-pot');
await press(/^New mix/);
await look('table-mix');
await press(/^Pearl.*, mix/);
await look('table-laminate');
await press(/^Table/);
await look('table-set-up');
await press(/^1 Grub/);
await look('table-mould');
await press(/^All moulds/);
await page.goBack();
await wait(600);
await look('table-left');
await page.getByRole('link', { name: 'Back to the table' }).click();
await wait(600);
await press(/^Table/);
await press(/^Add mould/);
await look('table-add');
await press(/^Add Leaf tail/);
await press(/^Table/);
await look('table-three');
await press(/^Table/);
await press(/^Finish/);
await wait(600);
await pass(13 * 3_600_000);
await page.reload();
await wait(600);
await look('pour');
if (readme) writeFileSync('demo/pour.png', readFileSync(`${out}/pour-360x740-chalk.png`));
await page
  .getByRole('link', { name: /Yesterday/ })
  .first()
  .click();
await wait();
await look('day');
await page.getByRole('link', { name: /^19:0/ }).first().click();
await wait();
await look('session');
await go('moulds');
await look('moulds');
await page.getByRole('link', { name: /Grub 50/ }).click();
await wait();
await look('mould');
await page.getByRole('link', { name: 'Change its facts' }).click();
await wait();
await look('mould-facts');
await go('colours');
await look('colours');
await page.getByRole('link', { name: /Pearl/ }).click();
await wait();
await look('colour-facts');
await go('workshop');
await look('workshop');
await go('injector-facts/new');
await press('Add this injector');
await look('injector-refused');

if (!readme) {
  for (const check of ['glove-check', 'sound-check', 'pedal-check']) {
    await go(check);
    await look(check);
  }
  await lookAtRareTables();
  await lookAtLayers();
  await lookAtNotices();
  await lookRoundTheDemo();
}

if (!readme) {
  const names = [...new Set(shots.map(({ name }) => name))];
  const cells = (name) =>
    shots
      .filter((shot) => shot.name === name)
      .map(({ file }) => {
        const image = readFileSync(`${out}/${file}`).toString('base64');
        return `<img src="data:image/png;base64,${image}" height="220">`;
      })
      .join('');
  const rows = names.map((name) => `<h2>${name}</h2><div>${cells(name)}</div>`).join('');
  const sheet = await browser.newPage({ viewport: { width: 1900, height: 1000 } });
  await sheet.setContent(
    `<style>body{font:14px sans-serif;background:#888;margin:8px}h2{margin:8px 0 2px}div{display:flex;gap:6px}</style>${rows}`,
  );
  await sheet.screenshot({ path: `${out}/sheet.png`, fullPage: true });
  console.log(`${shots.length} pictures, one sheet: ${out}/sheet.png`);
}
await browser.close();
server.close();
