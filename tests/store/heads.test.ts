import { expect, test } from 'vitest';
import { freshId, openBook } from '#store/book.ts';
import { changeHead, headOf, setDeleted } from '#store/heads.ts';
import { changeSettings, settingsOf } from '#store/settings.ts';
import { aMould, morning } from '../hands/evening.ts';

test('two windows that change one mould or the settings at the same moment keep what each of them changed', async () => {
  const name = `heads-${crypto.randomUUID()}`;
  const [here, there] = [await openBook(name), await openBook(name)];
  const mould = await aMould(here, 'Grub 50');
  // Both have read it before either has written.
  await Promise.all([
    changeHead(here, 'moulds', mould.id, { massG: 900 }, morning + 1),
    changeHead(there, 'moulds', mould.id, { setSec: 240 }, morning + 2),
    setDeleted(here, 'moulds', mould.id, morning + 3, morning + 3),
  ]);
  await Promise.all([
    changeSettings(here, { palette: 'lamp' }, morning + 4),
    changeSettings(there, { mainKeySide: 'left' }, morning + 5),
  ]);
  expect(await settingsOf(here)).toMatchObject({ palette: 'lamp', mainKeySide: 'left' });
  const stored = await headOf(there, 'moulds', mould.id);
  expect(stored).toMatchObject({ massG: 900, setSec: 240, deletedAt: morning + 3 });
  for (const book of [here, there]) book.db.close();
});

test('ids of one instant come in the order in which they were made', () => {
  const ids = Array.from({ length: 1_000 }, () => freshId(morning));
  expect(new Set(ids).size).toBe(ids.length);
  expect(ids.toSorted()).toEqual(ids);
});
