import { expect, type Page, test } from '@playwright/test';
import { figure } from './figure.ts';
import { aPhoto, firstSession, openApp } from './hands.ts';
import { hostilePhotos } from './hostile-photos.ts';
import { watchMemory } from './memory.ts';
import { keysOf, recordsOf } from './site.ts';

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

const mostPhotoBytes = 400_000;
/** Of what scripts hold, and of all the page has in use: a point of a picture takes four bytes while it is drawn. */
const [mostHeapMb, mostMb] = [250, 400];

async function goTo(page: Page, hash: string): Promise<void> {
  await page.evaluate((to) => {
    window.location.hash = to;
  }, hash);
}

test('hostile photos are refused in words or made small, and the log of the session goes on', async ({
  page,
}) => {
  await openApp(page, '#/colour-facts/new');
  await page.getByLabel('Name', { exact: true }).fill('Peat');
  await page.getByRole('button', { name: 'Add this colour' }).click();
  await page.getByRole('link', { name: /^Peat/ }).click();
  await expect(page.getByLabel('Choose a picture')).toBeAttached();
  const peat = new URL(page.url()).hash;
  const all = hostilePhotos(await aPhoto(page));
  await openApp(page, '#/pour');
  await firstSession(page);
  const before = (await keysOf(page, 'entries')).length;
  const memory = await watchMemory(page.context().browser());
  const told = await page.context().newCDPSession(page);
  let heapMb = 0;
  let asAsked = 0;
  let kept = 0;
  for (const [index, { what, file, refused }] of all.entries()) {
    await goTo(page, peat);
    await page.getByLabel('Choose a picture').setInputFiles(file);
    if (!refused) kept += 1;
    const answer = refused ? page.getByRole('alert') : page.locator('li img').first();
    await expect(answer, what).toBeVisible();
    const isRight = refused === null || refused.test((await answer.textContent()) ?? '');
    expect(isRight, `${what}: ${refused && (await answer.textContent())}`).toBe(true);
    expect(await keysOf(page, 'photos'), what).toHaveLength(kept);
    if (isRight) asAsked += 1;
    const { usedSize } = await told.send('Runtime.getHeapUsage');
    heapMb = Math.max(heapMb, usedSize / 1_000_000);
    await goTo(page, '#/table');
    await page.getByRole('button', { name: index % 2 ? /^Put back/ : /^Skip/ }).click();
    await expect(
      page.getByRole('button', { name: index % 2 ? /^Skip/ : /^Put back/ }),
    ).toBeVisible();
  }
  const risenMb = await memory.risenMb();
  const pictures = await page.evaluate(
    () =>
      new Promise<number[]>((resolve) => {
        const opening = indexedDB.open('warmshot');
        opening.onsuccess = () => {
          const asked = opening.result.transaction('photo-bytes').objectStore('photo-bytes');
          asked.getAll().onsuccess = (event) => {
            const found = (event.target as IDBRequest<{ bytes: ArrayBuffer }[]>).result;
            opening.result.close();
            resolve(
              found.map(({ bytes }) => (bytes instanceof ArrayBuffer ? bytes.byteLength : -1)),
            );
          };
        };
      }),
  );
  const stored = (await recordsOf(page, 'entries')).length - before;
  const heaviest = Math.max(...pictures);
  const isBounded = heapMb <= mostHeapMb && (risenMb ?? 0) <= mostMb;
  const isSmall = pictures.length === kept && heaviest <= mostPhotoBytes && heaviest > 0;
  figure({
    drill: 'Hostile photos in a session',
    required: `${all.length}/${all.length} refused in words or kept below ${mostPhotoBytes / 1_000} kB, every press stored, heap ${mostHeapMb} MB and memory of the page +${mostMb} MB at most`,
    reached: `${asAsked}/${all.length}, the largest kept ${Math.round(heaviest / 1_000)} kB, ${stored}/${all.length} presses, heap ${heapMb.toFixed(0)} MB, memory +${risenMb?.toFixed(0) ?? '?'} MB`,
    isMet: asAsked === all.length && isSmall && stored === all.length && isBounded,
    isOpen: risenMb === null,
  });
  expect(stored).toBe(all.length);
  expect(isSmall, `${pictures}`).toBe(true);
  expect(isBounded, `${heapMb} MB, +${risenMb} MB`).toBe(true);
});
