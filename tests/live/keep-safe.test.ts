import { expect, test, vi } from 'vitest';
import { keepSafe } from '#live/keep-safe.ts';
import { lateSafety } from '#live/late-safety.ts';
import { openBook } from '#store/book.ts';
import { morning } from '../hands/evening.ts';

const room = { isPromised: async () => null, promise: async () => null, bytes: async () => null };
const keeperUrl = new URL('../../src/keeper.ts', import.meta.url);

test('a worker that did not start is started again by whoever needs it next', async () => {
  const name = `keep-safe-${crypto.randomUUID()}`;
  const book = await openBook(name);
  let started = 0;
  const startWorker = () => {
    started += 1;
    // The first time its file is out of reach.
    const url = started === 1 ? new URL('./no-such-file.ts', keeperUrl) : keeperUrl;
    return new Worker(url, { type: 'module', name });
  };
  const safety = keepSafe({ name, book: () => book, now: () => morning, room, startWorker });
  await expect(safety.start()).rejects.toThrow('The worker broke down.');
  expect(safety.state()).toMatchObject({ copy: null, trouble: 'other' });
  await safety.start();
  await vi.waitFor(() => expect(safety.state()).toMatchObject({ trouble: null }), 20_000);
  expect(safety.state().copy?.records).toBe(0);
  expect(started).toBe(2);
  await safety.forget();
  book.db.close();
});

test('what keeps the log safe is fetched again when it could not be fetched at first', async () => {
  let asked = 0;
  const noted = vi.fn();
  const safety = lateSafety(async () => {
    asked += 1;
    if (asked === 1) throw new TypeError('Failed to fetch.');
    return { ...lateSafety(async () => safety), hasRoom: async () => true, noted };
  });
  await expect(safety.hasRoom()).rejects.toThrow('Failed to fetch.');
  expect(await safety.hasRoom()).toBe(true);
  safety.noted();
  expect(noted).toHaveBeenCalledOnce();
});
