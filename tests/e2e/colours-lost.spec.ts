import { expect } from '@playwright/test';
import { openAt, test } from './site.ts';

test('a shop of colours alone that the browser clears is no first day: it is told, and one press brings it back', async ({
  page,
  site,
}) => {
  await page.goto(`${site.url}#/colour-facts/new`);
  await page.getByLabel('Name').first().fill('Peat brown');
  await page.getByRole('button', { name: /^Add this colour/ }).click();
  await expect(page.getByText('Peat brown').first()).toBeVisible();
  await expect
    .poll(
      () => page.evaluate(() => JSON.parse(localStorage.getItem('warmshot-kept') ?? '{}').held),
      { timeout: 20_000 },
    )
    .toMatchObject({ sessions: 0, moulds: 0, others: 1 });
  const devtools = await page.context().newCDPSession(page);
  await page.goto('about:blank');
  await devtools.send('Storage.clearDataForOrigin', {
    origin: new URL(site.url).origin,
    storageTypes: 'indexeddb',
  });
  await openAt(page, site);
  const lost = page.getByRole('heading', { name: 'The phone lost the logbook' });
  await expect(lost).toBeVisible();
  await expect(page.getByRole('alert')).toContainText('It held 1 record.');
  await page.getByRole('button', { name: 'Put it back from the second copy' }).click();
  await expect(lost).toHaveCount(0);
  await openAt(page, site, '#/colours');
  await expect(page.getByText('Peat brown').first()).toBeVisible();
});
