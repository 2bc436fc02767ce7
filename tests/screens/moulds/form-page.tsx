import { expect } from 'vitest';
import { page } from 'vitest/browser';
import type { Mould } from '#model/mould.ts';
import { MouldFactsScreen } from '#screens/moulds/MouldFactsScreen.tsx';
import { headsOf } from '#store/heads.ts';
import { show, type TestShop } from '../../hands/show.tsx';

export const key = (name: string) => page.getByRole('button', { name, exact: true });
export const field = (label: string) => page.getByLabelText(label, { exact: true });

/** Every refusal on the page. */
export const refusals = () =>
  page
    .getByRole('alert')
    .elements()
    .map(({ textContent }) => textContent ?? '');

/** Opens the form of a new mould. */
export async function openNew(shop: TestShop): Promise<HTMLElement> {
  const root = show(shop, <MouldFactsScreen mouldId={null} />);
  await expect.element(key('Add this mould')).toBeVisible();
  return root;
}

/** Opens the form of a mould that the shop has. */
export async function openOld(shop: TestShop, mould: Mould): Promise<void> {
  show(shop, <MouldFactsScreen mouldId={mould.id} />);
  await expect.element(key('Save the changes')).toBeVisible();
}

/** Adds what the form holds and returns it as it was stored. */
export async function add(shop: TestShop): Promise<Mould> {
  await key('Add this mould').click();
  await expect.poll(() => window.location.hash).toMatch(/^#\/mould\//);
  const [mould] = await headsOf(shop.book, 'moulds');
  if (!mould) throw new Error('No mould was added.');
  return mould;
}
