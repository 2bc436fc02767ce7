import { afterEach, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import type { Mix, MixId } from '#model/mix.ts';
import { freshId } from '#store/book.ts';
import { logEntry } from '#store/entries.ts';
import { headsOf } from '#store/heads.ts';
import { seven } from '../../hands/evening.ts';
import { lateAnswers } from '../../hands/late-answers.ts';
import { aDose, aMaterial, aSide, cupMl, potOf } from '../../hands/mixes.ts';
import { show } from '../../hands/show.tsx';
import { aTable } from '../../hands/table.tsx';

let inTime = () => {};
afterEach(() => inTime());

const key = (name: string) => page.getByRole('button', { name, exact: true });

test('a session that ends slowly leads to Pour once: whoever goes on from there is not fetched back', async () => {
  const { shop, sessionId } = await aTable([['Grub 50', 2, 4]]);
  window.location.hash = '#/table';
  // A mix that the phone had no room for is kept once the session has ended.
  const black = await aMaterial(shop.book, 'Black');
  const mix = {
    id: freshId<MixId>(seven),
    version: 1,
    colourwayId: null,
    baseMl: cupMl,
    sides: [aSide([aDose(black.id, 3, 'drop', { name: 'Black' })])],
  };
  await logEntry(shop.book, sessionId, potOf(mix as Mix, seven), seven);
  inTime = lateAnswers(300);
  await key('Table').click();
  await key('Finish').click();
  await expect.poll(() => window.location.hash).toBe('#/pour');
  show(shop, <p>The moulds</p>);
  window.location.hash = '#/moulds';
  await expect.poll(async () => (await headsOf(shop.book, 'mixes')).length).toBe(1);
  // The page hears of that 300 ms later.
  await new Promise((resolve) => setTimeout(resolve, 1_000));
  expect(window.location.hash).toBe('#/moulds');
});
