import { expect, test } from 'vitest';
import { page } from 'vitest/browser';
import { ShotId } from '#model/entry.ts';
import { TableScreen } from '#screens/table/TableScreen.tsx';
import { freshId } from '#store/book.ts';
import { logEntry } from '#store/entries.ts';
import { addHead } from '#store/heads.ts';
import { aMould, type Fill, morning, pourEvening, results, seven } from '../../hands/evening.ts';
import { aShop, show, type TestShop } from '../../hands/show.tsx';

const times = (count: number, ...gave: string[]) =>
  Array.from({ length: count }, (_, index) => gave[index % gave.length] ?? '');

/** A shop with one past evening and a session that runs, one shot of it logged. */
async function poured(shop: TestShop, past: readonly string[], tonight: string) {
  const mould = await aMould(shop.book, 'Grub 50', { rows: 2, cols: 2 }, { material: 'silicone' });
  const fills = past.map((gave): Fill => ({ mould, gave }));
  await pourEvening(shop.book, { fills });
  const sessionId = await pourEvening(shop.book, {
    at: morning - 3_600_000,
    fills: [{ mould, gave: tonight }],
    endMin: null,
  });
  return { mould, sessionId };
}

const badge = (words: string | RegExp) => page.getByText(words);

test('a cavity that fails again is named on the card, quietly, and no more once it was good', async () => {
  await page.viewport(360, 740);
  const shop = await aShop();
  const { mould, sessionId } = await poured(shop, times(20, 'gsgg'), 'gsgg');
  show(shop, <TableScreen />);
  await expect.element(badge('Cavity 2 short again: vent?')).toBeVisible();
  const shotId = ShotId.parse(freshId(morning));
  const shot = { shotId, mouldId: mould.id, volumeMl: 42, closed: [], setSec: null };
  const filled = { kind: 'filled', shots: [shot], potIds: [], injectorId: null } as const;
  await logEntry(shop.book, sessionId, { ...filled, shots: [shot], potIds: [] }, morning - 60_000);
  const opened = { kind: 'opened' as const, shots: [{ shotId, results: results('gggg') }] };
  await logEntry(shop.book, sessionId, opened, morning - 30_000);
  await expect.element(badge(/again/)).not.toBeInTheDocument();
});

test('an opened vent that was logged at the desk takes the line away', async () => {
  const shop = await aShop();
  const { mould } = await poured(shop, times(20, 'gsgg'), 'gsgg');
  show(shop, <TableScreen />);
  await expect.element(badge('Cavity 2 short again: vent?')).toBeVisible();
  const facts = {
    mouldId: mould.id,
    at: seven + 40_000_000,
    kind: 'vent-opened' as const,
    cavities: [2],
    defect: 'short' as const,
    wasPickedAsWorst: true,
    text: '',
  };
  await addHead(shop.book, 'changes', facts, morning);
  await expect.element(badge(/again/)).not.toBeInTheDocument();
});

test('an even mould says nothing of the kind', async () => {
  const shop = await aShop();
  await poured(shop, times(20, 'gsgg', 'sggg', 'ggsg', 'gggs'), 'gsgg');
  show(shop, <TableScreen />);
  await expect.element(page.getByText('Last shot: 3 of 4 good')).toBeVisible();
  await new Promise((resolve) => setTimeout(resolve, 500));
  expect(badge(/again/).elements()).toEqual([]);
});
