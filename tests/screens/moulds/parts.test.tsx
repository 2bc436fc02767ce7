import { beforeEach, describe, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import { tableOf } from '#calc/table.ts';
import type { Mould } from '#model/mould.ts';
import { MouldScreen } from '#screens/moulds/MouldScreen.tsx';
import { logEntry } from '#store/entries.ts';
import { headOf, headsOf } from '#store/heads.ts';
import { entriesOf } from '#store/sessions.ts';
import { lineUpOf, startPouring } from '#store/start.ts';
import { aMould, pourEvening, seven } from '../../hands/evening.ts';
import { aShop, show, type TestShop } from '../../hands/show.tsx';
import { add, field, key, openNew, openOld } from './form-page.tsx';

let shop: TestShop;

beforeEach(async () => {
  shop = await aShop();
});

const now = (mould: Mould) => headOf(shop.book, 'moulds', mould.id);

describe('the form', () => {
  test('of a plain mould says whole baits, injected, no parts', async () => {
    await openNew(shop);
    await field('Name').fill('Grub 50');
    const mould = await add(shop);
    expect(mould).toMatchObject({ makes: null, needs: [], fill: 'injected' });
  });

  test('takes what a mould makes and how it is filled', async () => {
    await openNew(shop);
    await field('Name').fill('Curl');
    await key('Tails').click();
    await expect
      .element(page.getByText('Good tails go into a tray. The table counts them.'))
      .toBeVisible();
    await key('Open, by hand').click();
    expect(await add(shop)).toMatchObject({ makes: 'tail', fill: 'by-hand' });
  });

  test('takes parts of several moulds, each with its count, and one mould serves several', async () => {
    const tail = await aMould(shop.book, 'Curl', undefined, { makes: 'tail' });
    const leg = await aMould(shop.book, 'Kick', undefined, { makes: 'leg' });
    const needs = [{ mouldId: tail.id, each: 1 }];
    await aMould(shop.book, 'Body 9', undefined, { needs });
    const other = await aMould(shop.book, 'Frog 3');
    await openOld(shop, other);
    // Only moulds that make parts are offered, and no mould takes its own.
    await expect.element(key('Body 9')).not.toBeInTheDocument();
    await key('Curl').click();
    await key('Kick').click();
    await key('One leg more').click();
    await key('Save the changes').click();
    await expect
      .poll(() => now(other))
      .toMatchObject({
        needs: [
          { mouldId: tail.id, each: 1 },
          { mouldId: leg.id, each: 2 },
        ],
      });
    const { moulds } = await lineUpOf(shop.book, [other.id], null);
    expect(moulds[0]?.needs).toEqual([
      { mouldId: tail.id, each: 1, name: 'Curl', part: 'tail' },
      { mouldId: leg.id, each: 2, name: 'Kick', part: 'leg' },
    ]);
  });

  test('leaves a part out when its key is pressed again', async () => {
    const tail = await aMould(shop.book, 'Curl', undefined, { makes: 'tail' });
    const needs = [{ mouldId: tail.id, each: 3 }];
    const body = await aMould(shop.book, 'Body 9', undefined, { needs });
    await openOld(shop, body);
    await expect.element(page.getByText('3 tails')).toBeVisible();
    await key('Curl').click();
    await key('Save the changes').click();
    await expect.poll(async () => (await now(body))?.needs).toEqual([]);
  });
});

describe('the page', () => {
  test('of a part mould says what lies in its tray after all evenings, and who takes it', async () => {
    const tail = await aMould(shop.book, 'Curl', undefined, { makes: 'tail' });
    const needs = [{ mouldId: tail.id, each: 1 }];
    const body = await aMould(shop.book, 'Body 9', undefined, { needs });
    for (const [days, gave] of [
      [3, 'gggg'],
      [2, 'ggsg'],
    ] as const) {
      await pourEvening(shop.book, {
        fills: [{ mould: tail, gave }],
        at: seven - days * 86_400_000,
      });
    }
    // Tonight a body round is in its mould and not opened yet: its tails are gone all the same.
    await pourEvening(shop.book, { fills: [{ mould: body, gave: null }], endMin: null });
    show(shop, <MouldScreen mouldId={tail.id} />);
    await expect.element(page.getByText('3 tails in its tray.')).toBeVisible();
    await expect.element(page.getByText('Taken by Body 9.')).toBeVisible();
    show(shop, <MouldScreen mouldId={body.id} />);
    await expect
      .element(page.getByText('Each bait takes 1 tail of Curl. 3 in the tray.'))
      .toBeVisible();
  });

  test('of a new mould says what was not tried; of an old one without trials nothing', async () => {
    const mould = await aMould(shop.book, 'Grub 50');
    show(shop, <MouldScreen mouldId={mould.id} />);
    await expect
      .element(page.getByText('Not tried yet: does it fill, do two colours come even.'))
      .toBeVisible();
    const fills = Array.from({ length: 10 }, () => ({ mould, gave: 'gggg' }));
    await pourEvening(shop.book, { fills });
    show(shop, <MouldScreen mouldId={mould.id} />);
    await expect.element(page.getByText('What the table goes by')).toBeVisible();
    await expect.element(page.getByText('On trial')).not.toBeInTheDocument();
  });

  test('shows the shots that show it, also of a session that runs, and keeps the verdict', async () => {
    const mould = await aMould(shop.book, 'Grub 50');
    const { id } = mould;
    const sessionId = await startPouring(
      shop.book,
      { mouldIds: [id], injectorId: null, colourwayId: null, zone: 'Europe/Berlin' },
      seven,
    );
    const pour = (number: number, did: boolean) => async () => {
      const at = seven + number * 600_000;
      const { filledSaid } = await import('#screens/table/acts.ts');
      const table = tableOf(await entriesOf(shop.book, sessionId));
      const said = filledSaid(table, table.seats, at);
      await logEntry(shop.book, sessionId, said, at);
      const [shot] = said.shots;
      if (!shot) throw new Error('Nothing was filled.');
      const results = ['good', 'good', 'good', 'good'] as const;
      const opened = { shotId: shot.shotId, results: [...results] };
      await logEntry(shop.book, sessionId, { kind: 'opened', shots: [opened] }, at + 180_000);
      const tried = { kind: 'tried', shotId: shot.shotId, what: 'fills', did } as const;
      await logEntry(shop.book, sessionId, tried, at + 190_000);
    };
    for (const one of [pour(1, false), pour(2, true), pour(3, true)]) await one();
    show(shop, <MouldScreen mouldId={id} />);
    await expect.element(page.getByText(/^Filled well in 2 of 3 shots/)).toBeVisible();
    await expect.element(page.getByText('Not tried yet: do two colours come even.')).toBeVisible();
    await expect
      .element(page.getByRole('link', { name: /^Fills badly.*shot 1/ }))
      .toHaveAttribute('href', `#/session/${sessionId}`);
    await key('Keep it').click();
    await expect.poll(async () => (await now(mould))?.verdict).toBe('keep');
    await expect.element(key('Keep it')).toHaveAttribute('aria-pressed', 'true');
    await key('Keep it').click();
    await expect.poll(async () => (await now(mould))?.verdict).toBeNull();
    // The form knows nothing of the verdict and leaves it alone.
    await key('Not yet').click();
    await expect.poll(async () => (await now(mould))?.verdict).toBe('not-yet');
    const stored = (await headsOf(shop.book, 'moulds'))[0];
    if (!stored) throw new Error('The mould is gone.');
    await openOld(shop, stored);
    await field('Name').fill('Grub 51');
    await key('Save the changes').click();
    await expect.poll(() => now(mould)).toMatchObject({ name: 'Grub 51', verdict: 'not-yet' });
  });
});
