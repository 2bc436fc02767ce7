import { beforeEach, describe, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import { tableOf } from '#calc/table.ts';
import type { SessionId } from '#model/entry.ts';
import type { Mould } from '#model/mould.ts';
import { LineUpScreen } from '#screens/start/LineUpScreen.tsx';
import { TableScreen } from '#screens/table/TableScreen.tsx';
import { logEntry } from '#store/entries.ts';
import { addHead, changeHead, setDeleted } from '#store/heads.ts';
import { endSession, entriesOf, runningEntries } from '#store/sessions.ts';
import { changeSettings, settingsOf } from '#store/settings.ts';
import { startPouring } from '#store/start.ts';
import { aColourway, aMould, seven } from '../../hands/evening.ts';
import { faults, isNoWider } from '../../hands/faults.ts';
import { keyDown, pageDown } from '../../hands/pedal.ts';
import { aShop, show, type TestShop } from '../../hands/show.tsx';

const day = 86_400_000;

let shop: TestShop;
let old: SessionId;
let grub: Mould;

/** Nine days ago Ben poured two colours at 180 °C out of a pot of three cups, and Grub 50 stayed shut 3:10. */
beforeEach(async () => {
  await page.viewport(360, 740);
  shop = await aShop();
  const { book } = shop;
  const at = seven - 9 * day;
  const usual = { cautionsReadAt: at, people: ['Ada', 'Ben'] };
  await changeSettings(book, { ...usual, pourC: 180, potMl: 709.76, pourer: 'Ben' }, at);
  grub = await aMould(book, 'Grub 50');
  const shad = await aMould(book, 'Shad 7');
  await aMould(book, 'Leaf tail');
  const pearl = await aColourway(book, 'Pearl', '#ece7d8');
  const ink = await aColourway(book, 'Ink', '#1c2733');
  const facts = { name: 'Long one', capacityMl: 118, boreMm: 38, isTwin: false };
  const injector = await addHead(book, 'injectors', facts, at);
  old = await startPouring(
    book,
    {
      mouldIds: [shad.id, grub.id],
      injectorId: injector.id,
      colourwayId: pearl.id,
      planned: [pearl.id, ink.id],
      zone: 'Europe/Berlin',
    },
    at,
  );
  const setTime = { mouldId: grub.id, setSec: 190, hasNoClock: false };
  await logEntry(book, old, { kind: 'set-time-chosen', ...setTime }, at + 60_000);
  await logEntry(book, old, { kind: 'noted', text: 'Warm hands.' }, at + 90_000);
  await endSession(book, old, at + 3_600_000);
  await changeHead(book, 'moulds', grub.id, { setSec: 150 }, seven - day);
  await changeSettings(book, { pourC: 165, potMl: 473.18, pourer: 'Ada' }, seven - day);
});

const key = (name: string | RegExp) => page.getByRole('button', { name });
const open = () => show(shop, <LineUpScreen like={old} />);
const row = (name: string) =>
  page.getByRole('listitem').filter({ has: page.getByRole('heading', { name, exact: true }) });

async function begun() {
  await key(/^Start pouring/).click();
  await expect.poll(() => window.location.hash).toBe('#/table');
  return tableOf((await runningEntries(shop.book)) ?? []);
}

describe('an old evening', () => {
  test('is shown thing by thing as it was, and what never comes along is said in one line', async () => {
    open();
    await expect.element(page.getByText('Times, counts and results begin anew.')).toBeVisible();
    for (const [name, was] of [
      ['Moulds', 'Shad 7 + Grub 50'],
      ['Colours', 'Pearl, then Ink'],
      ['First pot', '3 cups'],
      ['Injector', 'Long one'],
      ['Set times', 'Grub 50 3:10'],
      ['Poured at', '180 °C'],
      ['Who pours', 'Ben'],
    ] as const) {
      await expect.element(row(name).getByText(was)).toBeVisible();
      await expect.element(key(`As then: ${name}`)).toHaveAttribute('aria-pressed', 'true');
    }
  });

  test('as then, begins with all of it and with none of its times, notes and counts', async () => {
    open();
    const table = await begun();
    expect(table.seats.map(({ mould }) => mould.name)).toEqual(['Shad 7', 'Grub 50']);
    expect(table.seats.map(({ mould }) => mould.setSec)).toEqual([null, 190]);
    expect(table.pots.map(({ name }) => name)).toEqual(['Pearl']);
    expect(table.pots[0]?.mixedMl).toBeCloseTo(709.76);
    expect(table.planned).toHaveLength(2);
    expect(table.injector?.name).toBe('Long one');
    expect(table.pourC).toBe(180);
    expect(table.pourers.map(({ name }) => name)).toEqual(['Ben']);
    expect(table.shots).toEqual([]);
    expect(table.notes).toEqual([]);
    expect(table.undoes).toBeNull();
    expect(table.begunAt).toBe(shop.clock.now());
  });

  test('left out thing by thing, begins as any session does', async () => {
    open();
    for (const name of ['Colours', 'First pot', 'Injector', 'Set times', 'Poured at']) {
      await key(`Leave out: ${name}`).click();
    }
    await key('Leave out: Who pours').click();
    await expect.element(row('First pot').getByText('Your usual 2 cups.')).toBeVisible();
    await expect.element(row('Poured at').getByText('Your usual 165 °C.')).toBeVisible();
    await expect.element(row('Who pours').getByText('Ada, as always.')).toBeVisible();
    const table = await begun();
    expect(table.seats.map(({ mould }) => mould.setSec)).toEqual([null, 150]);
    expect(table.pots.map(({ colourwayId }) => colourwayId)).toEqual([null]);
    expect(table.pots[0]?.mixedMl).toBeCloseTo(473.18);
    expect(table.injector).toBeNull();
    expect(table.pourC).toBe(165);
    expect(table.pourers.map(({ name }) => name)).toEqual(['Ada']);
  });

  test('with its moulds left out, asks for them before it can begin', async () => {
    open();
    await key('Leave out: Moulds').click();
    await expect.element(page.getByText('Choose a mould to start.')).toBeVisible();
    await key(/^Leaf tail/).click();
    await expect.element(row('Moulds').getByText('As you chose below.')).toBeVisible();
    const table = await begun();
    expect(table.seats.map(({ mould }) => mould.name)).toEqual(['Leaf tail']);
  });

  test('brings nothing that is no longer in the shop', async () => {
    await setDeleted(shop.book, 'moulds', grub.id, seven, seven);
    await changeSettings(shop.book, { people: ['Ada', 'Cem'] }, seven);
    open();
    await expect.element(row('Moulds').getByText('Shad 7')).toBeVisible();
    for (const name of ['Set times', 'Who pours']) {
      await expect.element(row(name)).not.toBeInTheDocument();
    }
  });
});

test('what is to be asked stands in one quiet line at the table until it is told', async () => {
  open();
  for (const name of ['Colours', 'Injector', 'Poured at', 'Who pours']) {
    await key(`Ask me: ${name}`).click();
  }
  // No pot: nothing can be said of what it holds.
  await expect.element(row('First pot')).not.toBeInTheDocument();
  const begin = await begun();
  expect(begin.potsInUse).toEqual([]);
  expect(begin.pourers).toEqual([]);
  const { deviceKeys } = await import('#platform/keys.ts');
  shop.keys = deviceKeys;
  show(shop, <TableScreen />);
  const hint = (words: string) =>
    expect.element(page.getByRole('status', { name: words })).toBeInTheDocument();
  await hint('Still to tell: colour, injector, heat, who pours');
  await expect.element(key(/No pot/)).toBeVisible();
  const sessionId = begin.sessionId as SessionId;
  await logEntry(shop.book, sessionId, { kind: 'pourer-named', name: 'Ben' }, seven);
  await hint('Still to tell: colour, injector, heat');
  // The first round ends the asking: nobody is held up.
  keyDown(pageDown, 1_000);
  await expect
    .poll(async () => tableOf(await entriesOf(shop.book, sessionId)).rounds, { timeout: 5_000 })
    .toBe(1);
  await expect.element(page.getByText(/^Still to tell/)).not.toBeInTheDocument();
});

test('the choices are kept for the next time; what is chosen by hand is not', async () => {
  open();
  await key('Ask me: Injector').click();
  await key('Leave out: Set times').click();
  const kept = { injector: 'asked', setTimes: 'left-out' };
  await expect.poll(async () => (await settingsOf(shop.book)).carries).toEqual(kept);
  await key('Ink pot 2').click();
  open();
  await expect.element(key('Ask me: Injector')).toHaveAttribute('aria-pressed', 'true');
  await expect.element(key('Leave out: Set times')).toHaveAttribute('aria-pressed', 'true');
  await expect.element(key('As then: Colours')).toHaveAttribute('aria-pressed', 'true');
  await expect.element(key('None')).toHaveAttribute('aria-pressed', 'true');
  await key('As then: Injector').click();
  await expect.element(key('Long one')).toHaveAttribute('aria-pressed', 'true');
  expect((await begun()).injector?.name).toBe('Long one');
});

test('the rows have no fault that axe knows, and keys for a gloved hand on every glass', async () => {
  const root = open();
  await expect.element(row('Who pours')).toBeVisible();
  await key('Ask me: Colours').click();
  for (const width of [320, 360, 740, 1024]) {
    // So high that no key lies under the foot of the page.
    await page.viewport(width, 2_400);
    for (const palette of ['chalk', 'lamp']) {
      document.documentElement.dataset.theme = palette;
      expect(await faults(root)).toEqual([]);
    }
    document.documentElement.dataset.theme = 'chalk';
    expect(isNoWider()).toBe(true);
    for (const one of root.querySelectorAll('li button')) {
      expect(one.getBoundingClientRect().height).toBeGreaterThanOrEqual(48);
      expect(one.scrollWidth, `${one.textContent} at ${width}`).toBeLessThanOrEqual(
        one.clientWidth,
      );
    }
  }
});
