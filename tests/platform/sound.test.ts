import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { userEvent } from 'vitest/browser';
import { deviceSound, type Music } from '#platform/sound.ts';
import { expectWithin } from '../hands/within.ts';

// Autoplay: a page may sound after the user has acted on it (HTML Standard, "activation triggering
// input events"; Web Audio API, "allowed to start"). Chromium keeps to it here, also without a speaker.

let letGos: (() => void)[] = [];

function hold(music: Music = null): boolean[] {
  const told: boolean[] = [];
  letGos.push(deviceSound.canSound((can) => told.push(can), music));
  return told;
}

/** A real press, which a browser takes for one. */
async function touchPage(): Promise<void> {
  document.body.innerHTML = '<button type="button">Key</button>';
  await userEvent.click(document.body.firstElementChild as Element);
}

afterEach(() => {
  deviceSound.arm([]);
  for (const letGo of letGos) letGo();
  letGos = [];
  vi.restoreAllMocks();
  Reflect.deleteProperty(navigator, 'audioSession');
});

/** Until it is undone the browser waits for a hand, as before the first press on a page. */
function browserWaits() {
  return vi.spyOn(AudioContext.prototype, 'resume').mockReturnValue(new Promise(() => {}));
}

test('before the first press it says that it cannot sound, and arms nothing; the press wakes it', async () => {
  hold();
  for (const letGo of letGos.splice(0)) letGo();
  const waits = browserWaits();
  const told = hold();
  await expect.poll(() => told.at(-1)).toBe(false);
  const made = vi.spyOn(BaseAudioContext.prototype, 'createOscillator');
  deviceSound.arm([{ place: 1, inMs: 1_000 }]);
  deviceSound.logged();
  deviceSound.ready(2);
  expect(made).not.toHaveBeenCalled();
  waits.mockRestore();
  await touchPage();
  await expect.poll(() => told.at(-1)).toBe(true);
  deviceSound.logged();
  expect(made).toHaveBeenCalledTimes(1);
});

describe('once it was woken', () => {
  beforeEach(async () => {
    const told = hold();
    await touchPage();
    await expect.poll(() => told.at(-1)).toBe(true);
  });

  test('rings are put on the clock of the sound, with no timer', async () => {
    const context = await contextOf(() => deviceSound.ready(1));
    const timers = vi.spyOn(window, 'setTimeout');
    const start = vi.spyOn(OscillatorNode.prototype, 'start');
    deviceSound.arm([
      { place: 1, inMs: 90_000 },
      { place: 2, inMs: 180_000 },
    ]);
    const inSec = start.mock.calls.map(([atSec = 0]) => atSec - context.currentTime);
    expect(inSec).toHaveLength(2);
    expectWithin(inSec[0] ?? 0, 90, 0.05);
    expectWithin(inSec[1] ?? 0, 180, 0.05);
    expect(timers).not.toHaveBeenCalled();
  });

  test('arming anew takes back what was armed; nothing to arm leaves silence', () => {
    const stop = vi.spyOn(OscillatorNode.prototype, 'stop');
    deviceSound.arm([{ place: 1, inMs: 90_000 }]);
    const endSec = stop.mock.calls.at(-1)?.[0] ?? 0;
    expect(endSec).toBeGreaterThan(690);
    deviceSound.arm([]);
    expect(stop.mock.calls.at(-1)?.[0]).toBeLessThan(endSec - 600);
    const count = stop.mock.calls.length;
    deviceSound.arm([]);
    expect(stop.mock.calls.length).toBe(count);
  });

  test('a place that is hushed rings no more, the others go on', () => {
    deviceSound.arm([
      { place: 1, inMs: 90_000 },
      { place: 2, inMs: 90_000 },
    ]);
    const stop = vi.spyOn(OscillatorNode.prototype, 'stop');
    deviceSound.hush(2);
    deviceSound.hush(3);
    expect(stop).toHaveBeenCalledTimes(1);
    expect(stop.mock.calls[0]?.[0]).toBeLessThan(60);
  });

  test('a ring that has begun is heard to its end when the table changes meanwhile', async () => {
    const context = await contextOf(() => deviceSound.ready(1));
    deviceSound.arm([{ place: 3, inMs: 0 }]);
    const begunSec = context.currentTime;
    await expect.poll(() => context.currentTime).toBeGreaterThan(begunSec + 0.1);
    const stop = vi.spyOn(OscillatorNode.prototype, 'stop');
    deviceSound.arm([]);
    // Three pulses of 180 ms with 120 ms between: 780 ms.
    expect((stop.mock.calls[0]?.[0] ?? 0) - begunSec).toBeGreaterThan(0.78);
    expect((stop.mock.calls[0]?.[0] ?? 0) - begunSec).toBeLessThan(0.9);
  });

  test('sound that the device takes away is told, and the next press brings it back', async () => {
    const told = hold();
    const context = await contextOf(() => deviceSound.ready(1));
    await context.suspend();
    await expect.poll(() => told.at(-1)).toBe(false);
    await touchPage();
    await expect.poll(() => told.at(-1)).toBe(true);
  });

  test('nobody needs it: the speaker is let go, and nothing sounds', async () => {
    const context = await contextOf(() => deviceSound.ready(1));
    for (const letGo of letGos) letGo();
    letGos = [];
    await expect.poll(() => context.state).toBe('suspended');
    const made = vi.spyOn(BaseAudioContext.prototype, 'createOscillator');
    deviceSound.ready(1);
    expect(made).not.toHaveBeenCalled();
  });

  test('let go and taken up at once, as when a setting changes, it sounds on', async () => {
    for (const letGo of letGos) letGo();
    letGos = [];
    const told = hold('elsewhere');
    await expect.poll(() => told.at(-1)).toBe(true);
  });
});

// Audio Session, W3C: `playback` is sound of its own, `transient` plays over other sound.
test.each([
  ['this-phone', 'transient'],
  ['elsewhere', 'playback'],
  ['none', 'playback'],
  [null, 'auto'],
] as const)('music on %s asks for a session of the kind %s, and gives it back', (music, kind) => {
  const session = { type: 'auto' };
  Object.defineProperty(navigator, 'audioSession', { value: session, configurable: true });
  hold(music);
  expect(session.type).toBe(kind);
  for (const letGo of letGos.splice(0)) letGo();
  expect(session.type).toBe('auto');
});

test('without Web Audio it says so at once and throws nowhere', () => {
  const own = Object.getOwnPropertyDescriptor(window, 'AudioContext');
  Reflect.deleteProperty(window, 'AudioContext');
  try {
    expect(hold()).toEqual([false]);
    deviceSound.arm([{ place: 1, inMs: 0 }]);
    deviceSound.hush(1);
    deviceSound.wrongWay();
  } finally {
    if (own) Object.defineProperty(window, 'AudioContext', own);
  }
});

/** The context that a sound is made in. */
async function contextOf(sound: () => void): Promise<AudioContext> {
  const made = vi.spyOn(BaseAudioContext.prototype, 'createOscillator');
  sound();
  const context = made.mock.contexts[0];
  made.mockRestore();
  if (!(context instanceof AudioContext)) throw new Error('No sound was made.');
  return context;
}
