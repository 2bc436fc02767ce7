import { expect, test } from 'vitest';
import { openBook } from '#store/book.ts';
import { asideName, keepAside, keptAside, shutAside } from '#store/copy/aside.ts';
import { removeDatabase } from '#store/demo.ts';

test('what lies beside a logbook that is being removed goes with it, and nothing brings it back', async () => {
  const book = await openBook(`aside-${crypto.randomUUID()}`);
  const name = asideName(book.db.name);
  const names = async () => (await indexedDB.databases()).map((one) => one.name);
  await keepAside(book, 'before', new ArrayBuffer(8));
  expect(await names()).toContain(name);
  // A page that asked just before has its answer, and one that asks from now on has none.
  const asked = keptAside(book, 'before');
  shutAside(book.db.name);
  let isAnswered = false;
  void keptAside(book, 'before').then(() => {
    isAnswered = true;
  });
  await removeDatabase(name);
  expect(await asked).toHaveProperty('byteLength', 8);
  expect(isAnswered).toBe(false);
  expect(await names()).not.toContain(name);
});
