import { expect, type Page, test } from '@playwright/test';
import { openApp } from './hands.ts';

const hostileNumbers = ['-1', '1e308', 'NaN', 'Infinity', '１２', '🪣', '0x10', '<img src=x>'];
const hostileName = '<img src=x onerror="window.hurt = true">';

async function save(page: Page, word: RegExp): Promise<void> {
  await page.getByRole('button', { name: word }).click();
}

/** Types into a field; its refusal goes, and what lies below moves up: a press that comes sooner goes beside its key. */
async function type(page: Page, label: string, words: string): Promise<void> {
  const field = page.getByLabel(label, { exact: true });
  await field.fill(words);
  await expect(field).toHaveAttribute('aria-invalid', 'false');
}

/** The refusal that belongs to a field, as a screen reader finds it. */
async function refusalOf(page: Page, label: string): Promise<string> {
  const field = page.getByLabel(label, { exact: true });
  await expect(field).toHaveAttribute('aria-invalid', 'true');
  const ids = ((await field.getAttribute('aria-describedby')) ?? '').split(' ');
  const texts = await Promise.all(
    ids.map((id) => page.evaluate((one) => document.getElementById(one)?.textContent ?? '', id)),
  );
  return texts.at(-1) ?? '';
}

test('the mould form refuses what cannot be, each in a sentence beside its field, and loses nothing', async ({
  page,
}) => {
  await openApp(page, '#/mould-facts/new');
  await save(page, /^Add this mould/);
  expect(await refusalOf(page, 'Name')).toMatch(/\.$/);
  await type(page, 'Name', 'x'.repeat(61));
  await save(page, /^Add this mould/);
  expect(await refusalOf(page, 'Name')).toMatch(/60/);
  await type(page, 'Name', hostileName);
  const fields = [
    'Weight in g',
    'One bait in mL',
    'Sprue in mL',
    'Thickest part of the bait in mm',
  ];
  for (const hostile of hostileNumbers) {
    for (const field of fields) await type(page, field, hostile);
    await save(page, /^Add this mould/);
    for (const field of fields) {
      expect(await refusalOf(page, field), `${field}: ${hostile}`).toMatch(/\.$/);
      await expect(page.getByLabel(field, { exact: true })).toHaveValue(hostile);
    }
  }
  await type(page, 'Weight in g', '2500');
  await type(page, 'One bait in mL', '9,5');
  await type(page, 'Sprue in mL', '12.5');
  await type(page, 'Thickest part of the bait in mm', '');
  await save(page, /^Add this mould/);
  // Shown literally, and nothing of it ran.
  await expect(page.getByRole('heading', { level: 1 })).toContainText(hostileName);
  await page.getByText('What the table goes by').click();
  // A comma and a point were both read.
  await expect(page.getByText(/9\.5 mL/)).toBeVisible();
  await expect(page.getByText(/12\.5 mL/)).toBeVisible();
  expect(await page.evaluate(() => 'hurt' in window)).toBe(false);
});

test('the injector and the colour refuse what cannot be', async ({ page }) => {
  await openApp(page, '#/injector-facts/new');
  for (const hostile of hostileNumbers) {
    await type(page, 'Holds, in cups', hostile);
    await type(page, 'Bore in mm', hostile);
    await save(page, /^Add this injector/);
    expect(await refusalOf(page, 'Holds, in cups'), hostile).toMatch(/\.$/);
    expect(await refusalOf(page, 'Bore in mm'), hostile).toMatch(/\.$/);
  }
  expect(await refusalOf(page, 'Name')).toMatch(/\.$/);
  await page.goto('./#/colour-facts/new');
  await save(page, /^Add this colour/);
  expect(await refusalOf(page, 'Name')).toMatch(/\.$/);
});
