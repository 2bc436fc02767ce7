import { page } from 'vitest/browser';
import type { Material } from '#model/material.ts';
import type { MixId } from '#model/mix.ts';
import type { Mould } from '#model/mould.ts';
import { freshId } from '#store/book.ts';
import { logEntry } from '#store/entries.ts';
import { addHead, type FactsOf } from '#store/heads.ts';
import { endSession } from '#store/sessions.ts';
import { mixOf, startPouring } from '#store/start.ts';
import { type Moves, moveStock } from '#store/stock.ts';
import { seven } from '../../hands/evening.ts';
import type { TestShop } from '../../hands/show.tsx';
import { aMaterial } from '../../hands/stock.ts';

export const key = (name: string) => page.getByRole('button', { name, exact: true });
export const field = (label: string) => page.getByLabelText(label, { exact: true });

/** Every refusal on the page. */
export const refusals = () =>
  page
    .getByRole('alert')
    .elements()
    .map(({ textContent }) => textContent ?? '');

const day = 86_400_000;

/** Adds a material, bought a week ago where `bought` is given. */
export async function onShelf(
  shop: TestShop,
  facts: Partial<FactsOf<'materials'>>,
  bought?: number,
): Promise<Material> {
  const material = await addHead(shop.book, 'materials', aMaterial(facts), seven - 8 * day);
  if (bought) await moved(shop, material, { kind: 'bought', qty: bought, cents: 1_000, lot: '' });
  return material;
}

/** Writes a movement, a week before the evening unless told otherwise. */
export async function moved(
  shop: TestShop,
  material: Material,
  says: Moves,
  at = seven - 7 * day,
): Promise<void> {
  await moveStock(shop.book, material.id, says, { at, writtenAt: at, note: '' });
}

/** Pours sessions that each take so much of a plastisol, a day apart; the last one at seven. */
export async function poured(
  shop: TestShop,
  mould: Mould,
  plastisol: Material,
  volumesMl: readonly number[],
): Promise<void> {
  for (const [index, volumeMl] of volumesMl.entries()) {
    const at = seven - (volumesMl.length - 1 - index) * day;
    const beginning = { mouldIds: [mould.id], injectorId: null, colourwayId: null, zone: 'UTC' };
    const sessionId = await startPouring(shop.book, beginning, at);
    const said = mixOf(null, volumeMl, 1, at);
    const mix = {
      mixId: freshId<MixId>(at),
      version: 1,
      role: 'only',
      plastisolId: plastisol.id,
      doses: [],
    } as const;
    const pots = said.pots.map((pot) => ({ ...pot, mix: { ...mix, doses: [] } }));
    await logEntry(shop.book, sessionId, { ...said, pots }, at + 60_000);
    await endSession(shop.book, sessionId, at + 3_600_000);
  }
}
