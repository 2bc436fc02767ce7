import { afterEach, expect, test } from 'vitest';
import { deviceTableLock, type TableClaim } from '#platform/table-lock.ts';

// Web Locks API, W3C: a lock is held by one document of an origin at a time, is freed when that
// document ends, and `steal` breaks the holder's promise with an AbortError.

const claims: TableClaim[] = [];
let name = `book-${crypto.randomUUID()}`;

/** A window that asks for the table, and what it was told, newest last. */
function aWindow(): TableClaim & { told: boolean[] } {
  const told: boolean[] = [];
  const claim = deviceTableLock(name).ask((isHere) => told.push(isHere));
  claims.push(claim);
  return { ...claim, told };
}

afterEach(() => {
  for (const claim of claims.splice(0)) claim.letGo();
  name = `book-${crypto.randomUUID()}`;
});

test('the first window has the table, the second is told that it is elsewhere', async () => {
  const first = aWindow();
  await expect.poll(() => first.told).toEqual([true]);
  const second = aWindow();
  await expect.poll(() => second.told).toEqual([false]);
  expect(first.told).toEqual([true]);
});

test('a window that takes the table over has it, and the other is told', async () => {
  const first = aWindow();
  await expect.poll(() => first.told).toEqual([true]);
  const second = aWindow();
  await expect.poll(() => second.told).toEqual([false]);
  second.take();
  await expect.poll(() => second.told).toEqual([false, true]);
  await expect.poll(() => first.told).toEqual([true, false]);
});

test('the table goes to and fro as often as it is taken, and is in one hand each time', async () => {
  const both = [aWindow(), aWindow()] as const;
  const isAt = (index: number) => both[index]?.told.at(-1);
  await expect.poll(() => [isAt(0), isAt(1)]).toEqual([true, false]);
  for (let turn = 0; turn < 6; turn += 1) {
    both[1].take();
    await expect.poll(() => [isAt(0), isAt(1)]).toEqual([false, true]);
    both[0].take();
    await expect.poll(() => [isAt(0), isAt(1)]).toEqual([true, false]);
  }
});

test('a window that closes gives the table to the one that waits', async () => {
  const first = aWindow();
  await expect.poll(() => first.told).toEqual([true]);
  const second = aWindow();
  await expect.poll(() => second.told).toEqual([false]);
  first.letGo();
  await expect.poll(() => second.told).toEqual([false, true]);
});

test('a window whose table was taken gets it back when the taker closes', async () => {
  const first = aWindow();
  await expect.poll(() => first.told).toEqual([true]);
  const second = aWindow();
  await expect.poll(() => second.told).toEqual([false]);
  second.take();
  await expect.poll(() => first.told).toEqual([true, false]);
  second.letGo();
  await expect.poll(() => first.told).toEqual([true, false, true]);
});

test('a killed document lets go of the table', async () => {
  const frame = document.createElement('iframe');
  document.body.append(frame);
  const other = frame.contentWindow;
  if (!other) throw new Error('The frame has no window.');
  await new Promise<void>((granted) => {
    void other.navigator.locks
      .request(`${name}-table`, () => {
        granted();
        return new Promise(() => {});
      })
      .catch(() => {});
  });
  const here = aWindow();
  await expect.poll(() => here.told).toEqual([false]);
  frame.remove();
  await expect.poll(() => here.told).toEqual([false, true]);
});

test('two logbooks, such as a demo, have a table each', async () => {
  const own = aWindow();
  name = `${name}-other`;
  const other = aWindow();
  await expect.poll(() => [own.told, other.told]).toEqual([[true], [true]]);
});

test('a window that lets go while it waits is told nothing more', async () => {
  const first = aWindow();
  await expect.poll(() => first.told).toEqual([true]);
  const second = aWindow();
  await expect.poll(() => second.told).toEqual([false]);
  second.letGo();
  first.letGo();
  const third = aWindow();
  await expect.poll(() => third.told.at(-1)).toBe(true);
  expect(second.told).toEqual([false]);
});

test('on a browser without locks every window has the table', () => {
  const own = Object.getOwnPropertyDescriptor(Navigator.prototype, 'locks') ?? {};
  Reflect.deleteProperty(Navigator.prototype, 'locks');
  const { told } = aWindow();
  Object.defineProperty(Navigator.prototype, 'locks', own);
  expect(told).toEqual([true]);
});
