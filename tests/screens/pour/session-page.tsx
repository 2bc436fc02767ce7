import { expect } from 'vitest';
import { page } from 'vitest/browser';
import type { SessionId } from '#model/entry.ts';
import type { Mould } from '#model/mould.ts';
import { SessionScreen } from '#screens/pour/SessionScreen.tsx';
import { pourEvening } from '../../hands/evening.ts';
import { show, type TestShop } from '../../hands/show.tsx';

/** Pours these shots of one mould and opens the page of the session. */
export async function openSession(
  shop: TestShop,
  mould: Mould,
  gave: readonly (string | null)[],
  more: { endMin?: number | null } = {},
): Promise<SessionId> {
  const fills = gave.map((one) => ({ mould, gave: one }));
  const sessionId = await pourEvening(shop.book, { fills, ...more });
  show(shop, <SessionScreen sessionId={sessionId} />);
  await expect.element(page.getByRole('heading', { name: 'Entries' })).toBeVisible();
  return sessionId;
}

/** The lines of the log as they stand on the page, newest first. */
export const rows = () => page.getByRole('listitem').filter({ has: page.getByRole('time') });

/** The line that says these words. */
export const row = (words: string) => rows().filter({ hasText: words });

export const key = (name: string | RegExp) => page.getByRole('button', { name });
