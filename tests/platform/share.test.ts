import { afterEach, expect, test } from 'vitest';
import { deviceShare } from '#platform/share.ts';

/** Gives the device another way to copy or share; the device is what is made up here, not ours. */
function givenDevice(ways: { clipboard?: object; share?: unknown }): void {
  for (const [name, value] of Object.entries(ways)) {
    Object.defineProperty(navigator, name, { value, configurable: true });
  }
}

afterEach(() => {
  for (const name of ['clipboard', 'share']) Reflect.deleteProperty(navigator, name);
});

test('a text is copied and shared as it is', async () => {
  const got: unknown[] = [];
  givenDevice({
    clipboard: { writeText: async (text: string) => void got.push(text) },
    share: async (what: object) => void got.push(what),
  });
  expect(deviceShare.can()).toBe(true);
  expect(await deviceShare.copy('To buy\n[ ] Salt')).toBe(true);
  expect(await deviceShare.share('To buy')).toBe(true);
  expect(got).toEqual(['To buy\n[ ] Salt', { text: 'To buy' }]);
});

test('a device that refuses, or a person who changes their mind, is no failure of the page', async () => {
  const refuses = async () => {
    throw new DOMException('No.', 'NotAllowedError');
  };
  givenDevice({ clipboard: { writeText: refuses }, share: refuses });
  expect(await deviceShare.copy('x')).toBe(false);
  expect(await deviceShare.share('x')).toBe(false);
});

test('a device without either says so', async () => {
  givenDevice({ clipboard: undefined as never });
  expect(await deviceShare.copy('x')).toBe(false);
});
