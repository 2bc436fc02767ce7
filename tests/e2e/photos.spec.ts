import { expect, test } from '@playwright/test';
import { aPhoto, openApp } from './hands.ts';

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
