import { deleteDB } from 'idb';
import { expect, test } from 'vitest';
import { headsOf } from '#store/heads.ts';
import { aColourway, aMould, pourEvening, seven } from '../hands/evening.ts';
import { aWindow, linesOfCopy, textOf } from '../hands/second-copy.ts';

const freshName = () => `copy-${crypto.randomUUID()}`;

test('a database that is gone comes back whole, also the session that runs', async () => {
  const name = freshName();
  const first = await aWindow(name);
  await first.safety.start();
  const mould = await aMould(first.book, 'Grub 50');
  await aColourway(first.book, 'Peat brown', '#5b4029');
  for (const day of [3, 2, 1]) {
    await pourEvening(first.book, {
      fills: [{ mould, gave: 'ggsg' }],
      at: seven - day * 86_400_000,
    });
  }
  await pourEvening(first.book, { fills: [{ mould, gave: 'gggg' }], endMin: null });
  const before = await textOf(first.book);
  await expect.poll(() => first.safety.state().copy?.entries).toBe(3 * 6 + 5);
  first.close();
  await deleteDB(name);

  const second = await aWindow(name);
  expect(await headsOf(second.book, 'moulds')).toEqual([]);
  expect(await second.safety.look()).toMatchObject({ sessions: 4, moulds: 1 });
  await second.safety.start();
  expect(await textOf(second.book)).toBe(before);
  expect(second.safety.state().untold?.putBack).toEqual({
    sessions: 4,
    moulds: 1,
    colourways: 1,
    injectors: 0,
    others: 0,
  });
  second.close();
  expect((await linesOfCopy(name)).length).toBeGreaterThan(20);
});
