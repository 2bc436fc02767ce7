import { afterEach, expect, test, vi } from 'vitest';
import { deviceWakeLock } from '#platform/wake-lock.ts';
import { keyDown, pageDown } from '../hands/pedal.ts';

// Screen Wake Lock API, W3C: a request rejects with NotAllowedError when the device or its policy
// refuses (a low battery, for one), and a granted lock may be taken back at any time.

const letGos: (() => void)[] = [];

/** Asks for the lock and writes down what is told. */
function hold(): { told: boolean[]; letGo: () => void } {
  const told: boolean[] = [];
  const letGo = deviceWakeLock.hold((isAwake) => told.push(isAwake));
  letGos.push(letGo);
  return { told, letGo };
}

/** A granted lock, as far as the app uses one. */
class Granted extends EventTarget {
  released = false;
  async release(): Promise<void> {
    this.released = true;
    this.dispatchEvent(new Event('release'));
  }
}

function device() {
  return vi.spyOn(navigator.wakeLock, 'request');
}

const refusal = () => new DOMException('The battery is low.', 'NotAllowedError');
const grant = (lock: Granted) => lock as unknown as WakeLockSentinel;
const press = () => document.dispatchEvent(new PointerEvent('pointerdown'));

afterEach(() => {
  for (const letGo of letGos.splice(0)) letGo();
  vi.restoreAllMocks();
});

test('a refusal is told, and throws nowhere', async () => {
  device().mockRejectedValue(refusal());
  const { told } = hold();
  await expect.poll(() => told).toEqual([false]);
});

test('after a refusal the next press asks again', async () => {
  const request = device().mockRejectedValueOnce(refusal());
  const { told } = hold();
  await expect.poll(() => told).toEqual([false]);
  request.mockResolvedValue(grant(new Granted()));
  press();
  await expect.poll(() => told).toEqual([false, true]);
});

test('and so does the next press of a pedal: an evening may go by without a touch', async () => {
  const request = device().mockRejectedValueOnce(refusal());
  const { told, letGo } = hold();
  await expect.poll(() => told).toEqual([false]);
  request.mockResolvedValue(grant(new Granted()));
  keyDown(pageDown, 500);
  await expect.poll(() => told).toEqual([false, true]);
  letGo();
  keyDown(pageDown, 1_000);
  expect(request).toHaveBeenCalledTimes(2);
});

test('a lock that the device takes back is told, and asked for again when the page is seen', async () => {
  const first = new Granted();
  const request = device().mockResolvedValueOnce(grant(first));
  const { told } = hold();
  await expect.poll(() => told).toEqual([true]);
  await first.release();
  expect(told).toEqual([true, false]);
  request.mockResolvedValue(grant(new Granted()));
  document.dispatchEvent(new Event('visibilitychange'));
  await expect.poll(() => told).toEqual([true, false, true]);
});

test('a press while the screen is kept on asks for nothing', async () => {
  const request = device().mockResolvedValue(grant(new Granted()));
  const { told } = hold();
  await expect.poll(() => told).toEqual([true]);
  press();
  expect(request).toHaveBeenCalledTimes(1);
});

test('letting go releases the lock and asks no more', async () => {
  const lock = new Granted();
  const request = device().mockResolvedValue(grant(lock));
  const { told, letGo } = hold();
  await expect.poll(() => told).toEqual([true]);
  letGo();
  await expect.poll(() => lock.released).toBe(true);
  press();
  expect(request).toHaveBeenCalledTimes(1);
});

test('a lock that is granted after letting go is released at once', async () => {
  const lock = new Granted();
  device().mockResolvedValue(grant(lock));
  const { told, letGo } = hold();
  letGo();
  await expect.poll(() => lock.released).toBe(true);
  expect(told).not.toContain(true);
});

test('a press while the first lock is asked for asks for no second one, which nobody could let go', async () => {
  const locks: Granted[] = [];
  let answer = () => {};
  const request = device().mockImplementation(
    () =>
      new Promise((resolve) => {
        const lock = new Granted();
        locks.push(lock);
        answer = () => resolve(grant(lock));
      }),
  );
  const { told, letGo } = hold();
  press();
  press();
  answer();
  await expect.poll(() => told).toEqual([true]);
  expect(request).toHaveBeenCalledTimes(1);
  letGo();
  await expect.poll(() => locks.every(({ released }) => released)).toBe(true);
});
