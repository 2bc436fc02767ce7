import { beforeEach, describe, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import type { PotId, SessionId } from '#model/entry.ts';
import type { Colourway } from '#model/gear.ts';
import type { Mould } from '#model/mould.ts';
import { ColourScreen } from '#screens/colours/ColourScreen.tsx';
import { MixFactsScreen } from '#screens/colours/MixFactsScreen.tsx';
import { MouldFactsScreen } from '#screens/moulds/MouldFactsScreen.tsx';
import { SessionScreen } from '#screens/pour/SessionScreen.tsx';
import { MaterialScreen } from '#screens/shelf/MaterialScreen.tsx';
import { LineUpScreen } from '#screens/start/LineUpScreen.tsx';
import { TableScreen } from '#screens/table/TableScreen.tsx';
import { addHead } from '#store/heads.ts';
import { keepMix } from '#store/mixes.ts';
import { addToSession, entriesOf } from '#store/sessions.ts';
import { changeSettings } from '#store/settings.ts';
import { startPouring } from '#store/start.ts';
import { aColourway, aMould, pourEvening, seven } from '../hands/evening.ts';
import { faults, isNoWider } from '../hands/faults.ts';
import { aDraft, aMaterial } from '../hands/mixes.ts';
import { aShop, show, type TestShop } from '../hands/show.tsx';
import { moved, onShelf } from './shelf/shelf-page.ts';

const day = 86_400_000;
const min = 60_000;

let shop: TestShop;
let grub: Mould;
let peat: Colourway;

beforeEach(async () => {
  await page.viewport(360, 740);
  shop = await aShop();
  await changeSettings(shop.book, { volumeUnit: 'mL', cautionsReadAt: seven }, seven - 30 * day);
  grub = await aMould(shop.book, 'Grub 50', { rows: 2, cols: 2 }, { partMl: 10, massG: 820 });
  peat = await aColourway(shop.book, 'Peat', '#5b4029');
});

const key = (name: string | RegExp) => page.getByRole('button', { name });
/** What a screen reader hears after the name of a field. */
const describes = (label: string | RegExp, words: string | RegExp) =>
  expect.element(page.getByRole('textbox', { name: label })).toHaveAccessibleDescription(words);

async function potOf(sessionId: SessionId): Promise<PotId> {
  const said = (await entriesOf(shop.book, sessionId)).map((entry) => entry.said);
  const pots = said.flatMap((one) => (one.kind === 'pot-mixed' ? one.pots : []));
  if (!pots[0]) throw new Error('There is no pot.');
  return pots[0].potId;
}

/** An evening a week ago, and one at seven. */
async function twoEvenings() {
  const evening = { colourway: peat, fills: [{ mould: grub, gave: 'gsgg' }] };
  const before = await pourEvening(shop.book, { ...evening, at: seven - 7 * day });
  return { before, last: await pourEvening(shop.book, evening) };
}

describe('the page of a session', () => {
  test('tells what was left in a pot and what bad baits weighed, the time before this one', async () => {
    const { before, last } = await twoEvenings();
    const { book } = shop;
    const potId = await potOf(before);
    await addToSession(book, before, { kind: 'pot-emptied', potId, leftMl: 40 }, seven - 6 * day);
    await addToSession(book, before, { kind: 'scrap-weighed', massG: 33 }, seven - 6 * day);
    const root = show(shop, <SessionScreen sessionId={last} />);
    await key(/^Peat 1124/).click();
    // 40 mL at 1.05 g/mL.
    await describes(/^Left of Peat/, /Last: 42 g left$/);
    await page.getByText('Are all bad ones marked?').click();
    await expect.element(page.getByText('Last: 33 g')).toBeVisible();
    expect(await faults(root)).toEqual([]);
    expect(isNoWider()).toBe(true);
    // The first evening had no time before it.
    show(shop, <SessionScreen sessionId={before} />);
    await key(/^Peat 1117/).click();
    await expect.element(page.getByLabelText(/^Left of Peat/)).toBeVisible();
    await expect.element(page.getByText(/^Last:/)).not.toBeInTheDocument();
  });

  test('puts the reading before beside a reading that is put right', async () => {
    const { last } = await twoEvenings();
    const potId = await potOf(last);
    for (const [tempC, at] of [
      [172, seven + min],
      [16, seven + 6 * min],
    ] as const) {
      await addToSession(shop.book, last, { kind: 'pot-read', potId, tempC }, at);
    }
    show(shop, <SessionScreen sessionId={last} />);
    await key(/^Put right: .*16 °C/).click();
    await describes('Pot, °C', 'Last: 172 °C');
  });
});

describe('the shelf', () => {
  test('tells the last purchase field by field, and the last count', async () => {
    const black = await onShelf(shop, { name: 'Black' });
    await moved(shop, black, { kind: 'bought', qty: 118, cents: 980, lot: 'A 12' });
    await moved(shop, black, { kind: 'counted', level: 95 }, seven - day);
    const root = show(shop, <MaterialScreen materialId={black.id} />);
    await key(/^Bought$/).click();
    await describes('How much, in mL', 'Last: 118 mL');
    await describes('Paid for all of it', 'Last: 9.80');
    await describes('Lot', /Last: A 12$/);
    expect(await faults(root)).toEqual([]);
    show(shop, <MaterialScreen materialId={black.id} />);
    await key(/^Weighed/).click();
    await describes('Jar and all, in g', 'Last: 95 mL');
    show(shop, <MaterialScreen materialId={black.id} />);
    await key(/^Lost$/).click();
    await expect.element(page.getByLabelText('How much, in mL')).toBeVisible();
    // None was ever lost.
    await expect.element(page.getByText(/^Last:/)).not.toBeInTheDocument();
  });
});

describe('a mould', () => {
  test('that is new is shown what the last one was given', async () => {
    const root = show(shop, <MouldFactsScreen mouldId={null} />);
    await describes('Weight in g', /Last: 820 g, Grub 50$/);
    await describes('One bait in mL', /Last: 10 mL, Grub 50$/);
    // Nobody told the set time of that one.
    await expect.element(page.getByLabelText('Your own set time')).toBeVisible();
    expect(page.getByText(/^Last:/).elements()).toHaveLength(2);
    expect(await faults(root)).toEqual([]);
  });

  test('that was poured tells how long it stayed shut beside its set time', async () => {
    await twoEvenings();
    show(shop, <MouldFactsScreen mouldId={grub.id} />);
    // Opened three minutes after each fill.
    await describes('Your own set time', /Last: opened after 3:00$/);
  });
});

test('a dose that is changed keeps what it was in the version before beside it', async () => {
  const black = await aMaterial(shop.book, 'Black');
  await keepMix(shop.book, peat.id, aDraft([[black, 12]]), seven);
  show(shop, <MixFactsScreen colourwayId={peat.id} />);
  await page.getByRole('textbox', { name: 'Black' }).fill('14');
  await describes('Black', 'Last: 12 drops');
});

test('the colour and the injector of the last session are named where a session is lined up', async () => {
  const facts = { name: 'Long one', capacityMl: 118, boreMm: 38, isTwin: false };
  await addHead(shop.book, 'injectors', facts, seven);
  await aColourway(shop.book, 'Slate', '#4a5560');
  await twoEvenings();
  show(shop, <LineUpScreen />);
  await expect.element(key('Peat last time')).toBeVisible();
  await expect.element(key('Slate')).not.toHaveTextContent('last time');
});

test('the table tells the last reading of a pot of this colour and of this mould', async () => {
  const { before, last } = await twoEvenings();
  const { book } = shop;
  const slate = await aColourway(book, 'Slate', '#4a5560');
  const read = { kind: 'pot-read', potId: await potOf(before), tempC: 171 } as const;
  await addToSession(book, before, read, seven - 7 * day + 10 * min);
  const chilled = { kind: 'mould-read', mouldId: grub.id, tempC: 41 } as const;
  await addToSession(book, last, chilled, seven + 10 * min);
  shop.set(seven + day);
  const begin = async (colourway: Colourway) => {
    const lined = { mouldIds: [grub.id], injectorId: null, colourwayId: colourway.id };
    await startPouring(book, { ...lined, zone: 'UTC' }, seven + day);
    show(shop, <TableScreen />);
  };
  await begin(peat);
  await key(/^Pot:/).click();
  const reading = page.getByRole('group', { name: 'Heat reading' });
  await expect.element(reading).toHaveTextContent(/last: 171 °C/);
  await key('Table').click();
  await key(/^1 Grub 50/).click();
  const mould = page.getByRole('group', { name: 'Mould reading' });
  await expect.element(mould).toHaveTextContent(/last: 41 °C/);
  expect(slate.id).not.toBe(peat.id);
});

describe('a colour', () => {
  test('tells how much of it was mixed the last time, and the last note of each kind', async () => {
    const black = await aMaterial(shop.book, 'Black');
    await keepMix(shop.book, peat.id, aDraft([[black, 12]]), seven - 30 * day);
    await twoEvenings();
    const about = { colourwayId: peat.id, mixId: null, mouldId: null, sessionId: null };
    const notes = [
      ['water', 'Took at dusk.', seven],
      ['cure', 'Bled a little.', seven + min],
    ] as const;
    for (const [kind, text, at] of notes) {
      await addHead(shop.book, 'remarks', { ...about, kind, text }, at);
    }
    const root = show(shop, <ColourScreen colourwayId={peat.id} />);
    // Two cups, as the shop is set, are shown in steps of 5 mL.
    await expect
      .element(page.getByRole('group', { name: 'How much' }))
      .toHaveTextContent(/Last: 475 mL/);
    await expect
      .element(page.getByRole('link', { name: 'Grub 50' }))
      .toHaveAttribute('href', `#/mould/${grub.id}`);
    await page.getByRole('button', { name: 'In the water' }).click();
    await describes('Note', 'Last: Took at dusk.');
    await page.getByRole('button', { name: 'After curing' }).click();
    // That one stands right under the field.
    await expect
      .element(page.getByRole('textbox', { name: 'Note', exact: true }))
      .not.toHaveAccessibleDescription(/Last/);
    expect(await faults(root)).toEqual([]);
    expect(isNoWider()).toBe(true);
  });

  test('of two sides tells which one won the last time, where this time is judged', async () => {
    const pair = await aColourway(shop.book, 'Pair', '#5b4029', '#eeeeee');
    const said = { kind: 'laminate-judged', colourwayId: pair.id, verdict: 'a-won' } as const;
    const evening = { colourway: pair, fills: [{ mould: grub, gave: 'gggg' }] };
    const before = await pourEvening(shop.book, {
      ...evening,
      at: seven - 7 * day,
      also: [{ said, atMin: 9 }],
    });
    const last = await pourEvening(shop.book, evening);
    const root = show(shop, <SessionScreen sessionId={last} />);
    await expect.element(page.getByText(/^Last: Side A won, .*17 Nov/)).toBeVisible();
    expect(await faults(root)).toEqual([]);
    show(shop, <SessionScreen sessionId={before} />);
    await expect.element(page.getByRole('button', { name: /^Side A won/ })).toBeVisible();
    await expect.element(page.getByText(/^Last: Side/)).not.toBeInTheDocument();
  });
});

test('a drop that is measured again keeps the size it had beside it', async () => {
  const black = await onShelf(shop, { name: 'Black', dropMl: 0.048 });
  const green = await onShelf(shop, { name: 'Green' });
  show(shop, <MaterialScreen materialId={black.id} />);
  await key('Measure its drops').click();
  await describes(/^They weigh/, 'Last: 0.048 mL a drop');
  show(shop, <MaterialScreen materialId={green.id} />);
  await key('Measure its drops').click();
  await expect.element(page.getByLabelText(/^They weigh/)).toBeVisible();
  await expect.element(page.getByText(/^Last:/)).not.toBeInTheDocument();
});

test('the table begins with what was mixed and topped up in the last session, and names the last dose', async () => {
  const { book } = shop;
  const black = await aMaterial(book, 'Black');
  await aMaterial(book, 'Green');
  await keepMix(book, peat.id, aDraft([[black, 6]]), seven - 30 * day);
  const { last } = await twoEvenings();
  const potId = await potOf(last);
  const fresh = { meanHeats: 0, maxHeats: 0 };
  const added = { kind: 'pot-topped-up', potId, volumeMl: 180, ...fresh } as const;
  await addToSession(book, last, added, seven + 5 * min);
  await changeSettings(book, { potMl: 250 }, seven + day);
  shop.set(seven + day);
  const lined = { mouldIds: [grub.id], injectorId: null, colourwayId: null, hasNoPot: true };
  await startPouring(book, { ...lined, zone: 'UTC' }, seven + day);
  show(shop, <TableScreen />);
  await key(/^Pot:|^No pot|^Mix/)
    .first()
    .click();
  const howMuch = page.getByRole('group', { name: 'How much' });
  await expect.element(howMuch).toHaveTextContent(/475 mL/);
  await howMuch.getByRole('button').nth(1).click();
  await expect.element(howMuch).toHaveTextContent('Last session: 475 mL.');
  await key('New colour').click();
  // Six drops a cup, for two cups.
  await expect.element(key('Black last 12 drops')).toBeVisible();
  await expect.element(key('Green none')).toBeVisible();
  await key('Black last 12 drops').click();
  await expect.element(key('Black 1 drop')).toBeVisible();
  await key(/^Mixed/).click();
  await key(/^Pot:/).click();
  await key('Topped up').click();
  await expect.element(howMuch).toHaveTextContent(/take 180 mL|180 mL/);
  await howMuch.getByRole('button').nth(1).click();
  await expect.element(howMuch).toHaveTextContent('Last session: 180 mL.');
});
