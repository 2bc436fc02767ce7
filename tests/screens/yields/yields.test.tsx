import { beforeEach, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import { MouldsScreen } from '#screens/moulds/MouldsScreen.tsx';
import { YieldsScreen } from '#screens/yields/YieldsScreen.tsx';
import { addToSession } from '#store/sessions.ts';
import { addShots } from '../../bench/shots.ts';
import { aMould, morning, pourEvening, seven } from '../../hands/evening.ts';
import { aShop, show, type TestShop } from '../../hands/show.tsx';

let shop: TestShop;

beforeEach(async () => {
  shop = await aShop();
});

const key = (name: string) => page.getByRole('button', { name });
const says = (words: string | RegExp) => expect.element(page.getByText(words)).toBeVisible();

test('an empty logbook says so, and claims nothing', async () => {
  show(shop, <YieldsScreen />);
  await says('Nothing was poured yet.');
  await key('Injectors').click();
  await says('Nothing was poured yet.');
});

test('the wall of moulds leads there in one press', async () => {
  await aMould(shop.book, 'Grub 50');
  show(shop, <MouldsScreen />);
  await expect
    .element(page.getByRole('link', { name: 'Compare yields' }))
    .toHaveAttribute('href', '#/yields');
});

test('two shots are counted and not judged', async () => {
  const mould = await aMould(shop.book, 'Grub 50', { rows: 2, cols: 2 }, { material: 'silicone' });
  const sessionId = await pourEvening(shop.book, {
    fills: [
      { mould, gave: 'ggsn' },
      { mould, gave: 'gggg' },
    ],
  });
  show(shop, <YieldsScreen />);
  await says('Too early to tell: too few warm shots so far.');
  await says('6 of 7 good');
  await says('2 shots, 1 not checked');
  await says('too few to tell');
  await expect
    .element(page.getByRole('link', { name: '1 bait not looked at yet', exact: true }))
    .toHaveAttribute('href', `#/session/${sessionId}`);
  await expect
    .element(page.getByRole('link', { name: 'Grub 50' }))
    .toHaveAttribute('href', `#/mould/${mould.id}`);
});

test('what is poured meanwhile is in the list without a press', async () => {
  const mould = await aMould(shop.book, 'Grub 50', { rows: 2, cols: 2 }, { material: 'silicone' });
  await pourEvening(shop.book, { fills: [{ mould, gave: 'gggg' }] });
  show(shop, <YieldsScreen />);
  await says('4 of 4 good');
  await pourEvening(shop.book, { at: morning, fills: [{ mould, gave: 'gsgg' }] });
  await says('7 of 8 good');
});

test('what the scale showed is kept, shown next time, put right and taken back', async () => {
  const measured = { material: 'silicone', partMl: 8 } as const;
  const mould = await aMould(shop.book, 'Grub 50', { rows: 2, cols: 2 }, measured);
  await pourEvening(shop.book, {
    fills: ['gsgg', 'gsgg', 'ggsg', 'gggs'].map((gave) => ({ mould, gave })),
  });
  show(shop, <YieldsScreen />);
  await says(/^You marked 4 baits bad, about 34 g\./);
  for (let press = 0; press < 4; press += 1) await key('More').click();
  await key('Keep 70 g').click();
  await says('on the scale, kept');
  // 36 g more than 4 baits of 8.4 g: 4 of the 12 good ones were none.
  await says(/^About 4 bad baits more than marked\..* 8 good is then nearer than 12\.$/);

  show(shop, <YieldsScreen />);
  await says('on the scale, kept');
  for (let press = 0; press < 4; press += 1) await key('Less').click();
  await key('Keep 30 g').click();
  await says('That fits what you marked.');
  await key('Take it back: 30 g').click();
  await says('Set what the scale shows.');
  await key('Bring back 30 g').click();
  await says('That fits what you marked.');
});

test('all weighed sessions together say how the marking holds', async () => {
  const measured = { material: 'silicone', partMl: 8 } as const;
  const mould = await aMould(shop.book, 'Grub 50', { rows: 2, cols: 2 }, measured);
  const fills = ['gsgg', 'gsgg', 'ggsg', 'gggs'].map((gave) => ({ mould, gave }));
  // Four baits of 8.4 g: the first night fits, the second is four baits heavier.
  for (const [nightsAgo, massG] of [
    [1, 34],
    [0, 68],
  ] as const) {
    const sessionId = await pourEvening(shop.book, { at: seven - nightsAgo * 86_400_000, fills });
    await addToSession(shop.book, sessionId, { kind: 'scrap-weighed', massG }, morning);
  }
  show(shop, <YieldsScreen />);
  await says(
    'Of 2 weighed sessions, 1 fits what was marked; in 1 about 4 bad baits more were thrown than marked, so the yields here look better than they are.',
  );
});

test('over a long log the page says how far it is, and a press meanwhile counts', async () => {
  const sessions = await addShots(shop.book, 20_000);
  const said = new Set<string>();
  const root = show(shop, <YieldsScreen />);
  const watch = new MutationObserver(() => {
    const words = root.querySelector('[role=status]')?.textContent;
    if (words) said.add(words.replace(/\d+ of /, 'some of '));
  });
  watch.observe(root, { subtree: true, childList: true, characterData: true });
  await key('Days').click();
  await expect.element(page.getByRole('heading', { name: 'Day by day' })).toBeVisible();
  watch.disconnect();
  expect([...said]).toContain(`Reading the log: some of ${sessions.length} sessions.`);
  await key('Moulds').click();
  // All 400 sessions of 50 shots of 10 cavities, on seven moulds.
  await expect.element(page.getByRole('heading', { name: 'Mould by mould' })).toBeVisible();
  const rows = page.getByRole('main').getByRole('list').getByRole('listitem').elements();
  const shots = rows.map((row) =>
    Number.parseInt([...row.querySelectorAll('p')].at(-1)?.textContent ?? '', 10),
  );
  expect(shots.reduce((sum, count) => sum + count, 0)).toBe(20_000);
});
