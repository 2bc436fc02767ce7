import { afterEach, expect, test } from 'vitest';
import { holdSession, ifNoSession } from '#platform/session-lock.ts';

const letGos: (() => void)[] = [];

function hold(): () => void {
  const letGo = holdSession();
  letGos.push(letGo);
  return letGo;
}

/** Whether an update may go on now. */
async function isFree(): Promise<boolean> {
  let ran = false;
  const said = await ifNoSession(() => {
    ran = true;
  });
  expect(said, 'what it says is what it did').toBe(ran);
  return ran;
}

/** What `locks` looks like on a browser that has none. */
async function withoutLocks(act: () => Promise<void>): Promise<void> {
  const own = Object.getOwnPropertyDescriptor(Navigator.prototype, 'locks') ?? {};
  Reflect.deleteProperty(Navigator.prototype, 'locks');
  expect('locks' in navigator).toBe(false);
  await act().finally(() => Object.defineProperty(Navigator.prototype, 'locks', own));
}

afterEach(() => {
  for (const letGo of letGos.splice(0)) letGo();
});

test('an update goes on when no session is open', async () => {
  expect(await isFree()).toBe(true);
});

test('a session that is only just beginning stops an update already', async () => {
  const letGo = hold();
  expect(await isFree()).toBe(false);
  letGo();
  expect(await isFree()).toBe(true);
});

test('the last of two sessions to end sets updates free', async () => {
  const letGoFirst = hold();
  const letGoSecond = hold();
  letGoFirst();
  expect(await isFree()).toBe(false);
  letGoSecond();
  expect(await isFree()).toBe(true);
});

test('letting go twice frees nobody else', async () => {
  const letGo = hold();
  hold();
  letGo();
  letGo();
  expect(await isFree()).toBe(false);
});

test('windows that ask at the same moment do not take each other for a session', async () => {
  const answers = await Promise.all(Array.from({ length: 20 }, isFree));
  expect(answers).toEqual(Array.from({ length: 20 }, () => true));
});

test('a session in another document of the app stops an update here', async () => {
  // Web Locks, W3C: locks are shared by all documents of an origin and end with the document.
  const frame = document.createElement('iframe');
  document.body.append(frame);
  const other = frame.contentWindow;
  if (!other) throw new Error('The frame has no window.');
  await new Promise<void>((granted) => {
    void other.navigator.locks
      .request('warmshot-session', { mode: 'shared' }, () => {
        granted();
        return new Promise(() => {});
      })
      .catch(() => {});
  });
  expect(await isFree()).toBe(false);
  frame.remove();
  await expect.poll(isFree).toBe(true);
});

test('a browser without locks keeps its own window from reloading', async () => {
  await withoutLocks(async () => {
    expect(await isFree()).toBe(true);
    const letGo = hold();
    expect(await isFree()).toBe(false);
    letGo();
    await expect.poll(isFree).toBe(true);
  });
});
