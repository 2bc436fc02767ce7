import { expect, type Page, test } from '@playwright/test';
import { openApp } from './hands.ts';

/** A photo as a phone's camera gives it, made in the page: 1200 by 900 points. */
async function aPhoto(page: Page): Promise<Buffer> {
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

test('a photo is taken, shown, read from and kept by the built app under its own content policy', async ({
  page,
}) => {
  const refused: string[] = [];
  page.on('console', (message) => {
    if (/Content Security Policy|Refused to/i.test(message.text())) refused.push(message.text());
  });
  await openApp(page, '#/colour-facts/new');
  await page.getByLabel('Name', { exact: true }).fill('Peat');
  await page.getByRole('button', { name: 'Add this colour' }).click();
  await page.getByRole('link', { name: /^Peat/ }).click();
  const photo = { name: 'bait.jpg', mimeType: 'image/jpeg', buffer: await aPhoto(page) };
  await page.getByLabel('Choose a picture').setInputFiles(photo);
  const shown = () =>
    page.locator('li img').evaluate((img) => (img as HTMLImageElement).naturalWidth);
  await expect(page.locator('li img')).toBeVisible();
  await expect.poll(shown).toBe(1200);

  await page.locator('li a').first().click();
  await page.getByRole('button', { name: 'Give the swatch this look' }).click();
  await page.getByRole('group', { name: /^Picture to tap on/ }).click();
  // The large look is a background: the policy lets pictures of our own through, no others.
  await expect(page.locator('i[style*="blob:"]')).toBeVisible();
  await page.getByRole('button', { name: 'Give the swatch this look' }).click();
  await expect(page.getByRole('button', { name: /^Read its colour/ })).toBeVisible();

  await page.goto('./#/colours');
  await page.reload();
  await expect.poll(shown).toBe(1200);
  expect(refused).toEqual([]);
});
