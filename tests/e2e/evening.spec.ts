import { expect, test } from '@playwright/test';
import {
  addMould,
  firstSession,
  lineUp,
  openApp,
  pass,
  press,
  pressMain,
  stored,
} from './hands.ts';

/** 19:02 in Berlin. */
const seven = new Date('2026-11-24T18:02:00Z');

test.use({ timezoneId: 'Europe/Berlin' });

test('from an empty shop to the first logged shot in six presses, with no typing and no question', async ({
  page,
}) => {
  let presses = 0;
  await openApp(page);
  const count = async (act: Promise<unknown>) => {
    presses += 1;
    await act;
  };
  await count(page.getByRole('button', { name: 'Log a pour now' }).click());
  await count(page.getByRole('button', { name: /^2 × 6/ }).click());
  await expect(page.getByText(/A drop of water spits hot plastic/)).toBeVisible();
  await count(page.getByRole('button', { name: /^Start pouring/ }).click());
  await count(page.getByRole('button', { name: /^Filled/ }).click());
  await count(page.getByRole('button', { name: /^Open now/ }).click());
  await count(page.getByRole('button', { name: /^All good, Mould 1/ }).click());
  await expect(page.getByText('12 good', { exact: true })).toBeVisible();
  expect(presses).toBeLessThanOrEqual(6);
});

test('a whole evening by taps with no network, and the morning after tells the truth of it', async ({
  page,
  context,
}) => {
  test.setTimeout(150_000);
  await page.clock.install({ time: seven });
  await openApp(page);
  await addMould(page, 'Grub 50', 2, 4);
  await addMould(page, 'Shad 7', 2, 2);
  await stored(page);
  await context.setOffline(true);
  await page.reload();
  await lineUp(page, ['Grub 50', 'Shad 7']);

  const truth = { good: 0, bad: 0, notChecked: 0 };
  let closed = 0;
  const allGood = (moulds: 'both' | 'shad') => {
    truth.good += moulds === 'both' ? 8 - closed + 4 : 4;
  };
  for (let round = 1; round <= 12; round += 1) {
    await pressMain(page, /^Filled Grub 50 \+ Shad 7: start 2 clocks/);
    await pass(page, 185_000);
    if (round === 3) {
      // Two bad of the usual kind: four presses.
      await press(page, /^Mark bad, Grub 50/);
      await press(page, /^Cavity 6/);
      await press(page, /^Cavity 3/);
      await pressMain(page, /^Save 6 good, 2 bad/);
      truth.good += 6;
      truth.bad += 2;
      await pressMain(page, /^All good Shad 7/);
      allGood('shad');
    } else if (round === 4) {
      // The same again: three presses.
      await press(page, /^Mark bad, Grub 50/);
      await press(page, /^Same/);
      await pressMain(page, /^Save 6 good, 2 bad/);
      truth.good += 6;
      truth.bad += 2;
      await press(page, /^Check later, Shad 7/);
      truth.notChecked += 4;
    } else if (round === 6) {
      await press(page, /^Mark bad, Grub 50/);
      await press(page, /^More/);
      await press(page, /^Close off/);
      await press(page, /^Cavity 6/);
      closed = 1;
      await pressMain(page, /^Save 7 good/);
      truth.good += 7;
      await pressMain(page, /^All good Shad 7/);
      allGood('shad');
    } else {
      await pressMain(page, /^All good Grub 50 \+ Shad 7/);
      allGood('both');
    }
    if (round === 7) {
      await press(page, /^Pot:/);
      await press(page, /^Reheated/);
      await expect(page.getByRole('button', { name: /^Pot: .*heat 2/ })).toBeVisible();
    }
    if (round === 9) {
      // A wrong press and its undo.
      await press(page, /^Log now, Shad 7/);
      await press(page, /^All good, Shad 7/);
      await press(page, /^Undo All good Shad 7/);
      await press(page, /^Undo Filled/);
    }
    await pass(page, 40_000);
  }
  await expect(page.getByText(`${truth.good} good`, { exact: true })).toBeVisible();
  await expect(page.getByText('4 not checked', { exact: true })).toBeVisible();
  await press(page, /^Table/);
  await press(page, /^Finish/);

  await expect(page.getByRole('heading', { level: 1, name: 'Pour' })).toBeVisible();
  await pass(page, 13 * 3_600_000);
  await page.reload();
  const checked = truth.good + truth.bad;
  await expect(page.getByText(/^Yesterday, Tue 24 Nov/)).toBeVisible();
  await expect(page.getByText(`${truth.good} of ${checked} good`)).toBeVisible();
  await expect(page.getByText(/4 not checked/).first()).toBeVisible();

  // Put right on the session page: the Shad 7 that was checked later had one short.
  await page
    .getByRole('link', { name: /Yesterday/ })
    .first()
    .click();
  await page.getByRole('link', { name: /^19:02 to/ }).click();
  await page.getByRole('button', { name: /^Show all/ }).click();
  await page
    .getByRole('button', { name: /^Check now/ })
    .first()
    .click();
  await page.getByRole('button', { name: 'Short', exact: true }).click();
  await page.getByRole('button', { name: /^Cavity 2/ }).click();
  await page.getByRole('button', { name: 'The rest was good' }).click();
  await page.getByRole('button', { name: /^Save 3 good, 1 bad/ }).click();
  await expect(page.getByText(`${truth.good + 3} of ${checked + 4} good`)).toBeVisible();
  await page.goto('./#/pour');
  await expect(page.getByText(`${truth.good + 3} of ${checked + 4} good`)).toBeVisible();
});

test('a killed browser comes back on the table with half-made marks', async ({ page }) => {
  await openApp(page);
  await firstSession(page, /^2 × 6/);
  await pressMain(page, /^Filled/);
  await press(page, /^Open now/);
  await press(page, /^Mark bad/);
  await press(page, /^Cavity 2, good/);
  await expect(page.getByRole('button', { name: /^Cavity 2, Short/ })).toBeVisible();
  await page.reload();
  await expect(page.getByRole('button', { name: /^Cavity 2, Short/ })).toBeVisible();
  await press(page, /^Back/);
  await expect(page.getByRole('button', { name: /^Mark bad/ })).toBeVisible();
  await page.goto('./');
  await expect(page.getByRole('button', { name: /^Mark bad/ })).toBeVisible();
});

test('undo goes twenty deep and still after a reload', async ({ page }) => {
  await openApp(page);
  await firstSession(page);
  for (let count = 0; count < 11; count += 1) {
    await press(page, /^Skip/);
    await press(page, /^Put back/);
  }
  await page.reload();
  for (let count = 0; count < 22; count += 1) await press(page, /^Undo (Skip|Put back)/);
  await expect(page.getByRole('button', { name: /^Undo nothing yet/ })).toBeVisible();
});

test('no text field can take the focus at the table, and nothing there scrolls', async ({
  page,
}) => {
  await openApp(page);
  await firstSession(page);
  const looks = [
    async () => {},
    () => press(page, /^Table/),
    () => press(page, /^1 Mould 1/),
    () => press(page, /^Pot:/),
    () => press(page, /^Topped up/),
    async () => {
      await press(page, /^Pot:/);
      await press(page, /^Pot:/);
      await press(page, /^New mix/);
    },
    async () => {
      await press(page, /^New colour/);
      await press(page, /^Mixed/);
      await pressMain(page, /^Filled/);
    },
    () => press(page, /^Open now/),
    () => press(page, /^Cavity 2/),
    () => press(page, /^More/),
  ];
  for (const look of looks) {
    await look();
    const facts = await page.evaluate(() => ({
      fields: document.querySelectorAll(
        'input:not([type=file]), textarea, select, [contenteditable]',
      ).length,
      dialogs: document.querySelectorAll('dialog, [role="dialog"]').length,
      scrolls: document.scrollingElement
        ? document.scrollingElement.scrollHeight > window.innerHeight ||
          document.scrollingElement.scrollWidth > window.innerWidth
        : false,
    }));
    expect(facts).toEqual({ fields: 0, dialogs: 0, scrolls: false });
  }
});
