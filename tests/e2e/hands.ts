import { expect, type Page } from '@playwright/test';

/** Two presses on one key closer than this count as one. */
const twinMs = 430;

/** Opens the app at the first screen. */
export async function openApp(page: Page, hash = ''): Promise<void> {
  await page.goto(`./${hash}`);
  await expect(page.locator('h1, nav[aria-label="Log"]').first()).toBeVisible();
}

/** The key whose spoken name begins with `name`. */
export function key(page: Page, name: RegExp) {
  return page.getByRole('button', { name }).first();
}

/** Presses a key of the table as a hand does, and waits as long as a hand needs. */
export async function press(page: Page, name: RegExp): Promise<void> {
  await key(page, name).click();
  await page.waitForTimeout(twinMs);
}

/** The main key's whole label. */
export async function mainKey(page: Page): Promise<string> {
  return (
    (await page.locator('nav[aria-label="Log"] > button').last().getAttribute('aria-label')) ?? ''
  );
}

/** Presses the main key once it says what it should. */
export async function pressMain(page: Page, says: RegExp): Promise<void> {
  const main = page.locator('nav[aria-label="Log"] > button').last();
  await expect(main).toHaveAttribute('aria-label', says);
  // A label that has only just changed would still have its earlier meaning.
  await page.waitForTimeout(twinMs);
  await main.click();
  await page.waitForTimeout(60);
}

/** Lets the clock run on, as while plastic sets. */
export async function pass(page: Page, ms: number): Promise<void> {
  await page.clock.fastForward(ms);
}

/** Begins the first session of an empty shop: three presses. */
export async function firstSession(page: Page, shape = /^2 × 4/): Promise<void> {
  await page.getByRole('button', { name: 'Log a pour now' }).click();
  await page.getByRole('button', { name: shape }).click();
  await page.getByRole('button', { name: /^Start pouring/ }).click();
  await expect(page.getByRole('heading', { name: 'Mould 1' })).toBeVisible();
}

/** Adds a mould by its form; the app is on a desk page or the table is left. */
export async function addMould(
  page: Page,
  name: string,
  across: number,
  down: number,
): Promise<void> {
  await page.goto('./#/mould-facts/new');
  await page.getByLabel('Name').fill(name);
  await stepTo(page, 'across', 2, across);
  await stepTo(page, 'down', 4, down);
  await page.getByRole('button', { name: 'Add this mould' }).click();
  await expect(page.getByRole('heading', { level: 1, name })).toBeVisible();
}

async function stepTo(page: Page, word: string, from: number, to: number): Promise<void> {
  const name = to > from ? `One ${word} more` : `One ${word} less`;
  for (let step = 0; step < Math.abs(to - from); step += 1) {
    await page.getByRole('button', { name }).click();
  }
}

/** Begins a session on these moulds from the line-up page, past the cautions if they come. */
export async function lineUp(page: Page, names: readonly string[]): Promise<void> {
  await page.goto('./#/line-up');
  for (const name of names)
    await page.getByRole('button', { name: new RegExp(`^${name}\\b`) }).click();
  await page.getByRole('button', { name: /^Start pouring/ }).click();
  await expect(page.locator('article, main, h1').first()).toBeVisible();
  const read = page.getByRole('button', { name: /^I have read this/ });
  const table = page.locator('nav[aria-label="Log"]');
  await expect(read.or(table)).toBeVisible();
  if (await read.isVisible()) await read.click();
  await expect(table).toBeVisible();
}

/** Waits until the service worker has everything and serves this page. */
export async function stored(page: Page): Promise<void> {
  await page.evaluate(async () => {
    await navigator.serviceWorker.ready;
  });
  await page.reload();
  await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
}

/** A photo as a phone's camera gives it, made in the page: 1200 by 900 points. */
export async function aPhoto(page: Page): Promise<Buffer> {
  const bytes = await page.evaluate(async () => {
    const canvas = document.createElement('canvas');
    [canvas.width, canvas.height] = [1200, 900];
    const paper = canvas.getContext('2d');
    if (!paper) throw new Error('There is nothing to paint on.');
    paper.fillStyle = '#8a6a45';
    paper.fillRect(0, 0, 1200, 900);
    const blob = await new Promise<Blob | null>((done) => canvas.toBlob(done, 'image/jpeg'));
    return [...new Uint8Array((await blob?.arrayBuffer()) ?? new ArrayBuffer(0))];
  });
  return Buffer.from(bytes);
}
