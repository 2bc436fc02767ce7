import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { page } from 'vitest/browser';
import { Finger } from '../../hands/finger.ts';
import { keyDown, pageDown, pageUp } from '../../hands/pedal.ts';
import { aTable, mainKey, mainSays, type TestTable } from '../../hands/table.tsx';

// How gloves press. 24 px of slip, 400 ms between twins, 1.5 s for a palm, three contacts, 300 ms of
// settling: rules 5, 6 and 17 of the table's requirements; common practice, no source.

let table: TestTable;
let atMs = 90_000;

beforeEach(async () => {
  // Fingers that no glass feels cannot be captured.
  vi.spyOn(Element.prototype, 'setPointerCapture').mockImplementation(() => {});
  await page.viewport(360, 740);
  table = await aTable([
    ['Grub 50', 2, 4],
    ['Shad 7', 2, 2],
  ]);
  table.pass(1_000);
  atMs += 10_000;
});

afterEach(() => vi.restoreAllMocks());

const key = (name: string | RegExp) => page.getByRole('button', { name }).element();
const isTableOpen = () => key(/^Table/).getAttribute('aria-expanded') === 'true';
const count = async () => (await table.entries()).length;

describe('a finger that is lifted', () => {
  test.each(['left', 'right', 'above', 'below'] as const)(
    'within 24 px %s of the key has pressed it; beyond, it has not',
    async (side) => {
      const finger = new Finger(7);
      finger.down(key(/^Table/), atMs);
      finger.lift(atMs + 120, 25, side);
      await expect.poll(isTableOpen).toBe(false);
      finger.down(key(/^Table/), atMs + 500);
      finger.lift(atMs + 620, 24, side);
      await expect.poll(isTableOpen).toBe(true);
    },
  );

  test('on the main key logs one round', async () => {
    const finger = new Finger(7);
    finger.down(mainKey(), atMs);
    expect(table.heard).toEqual([]);
    finger.lift(atMs + 80);
    await mainSays(/^Setting/);
    expect(await count()).toBe(1);
  });

  test('twice on Log now fills the mould once, also beside the main key', async () => {
    const finger = new Finger(7);
    const logNow = key('Log now, Grub 50');
    // All before the first can be on disk.
    for (const wait of [0, 600, 1_200]) {
      finger.down(wait === 1_200 ? mainKey() : logNow, atMs + wait);
      finger.lift(atMs + wait + 80);
    }
    await mainSays(/^All good Grub 50/);
    expect((await table.entries()).map(({ said }) => said.kind)).toEqual(['filled']);
    expect(table.heard.filter((sound) => sound === 'wrong way')).toHaveLength(2);
    table.pass(1_000);
    finger.down(mainKey(), atMs + 3_000);
    finger.lift(atMs + 3_080);
    await mainSays(/^Filled Grub 50/);
    finger.down(key('Log now, Grub 50'), atMs + 4_000);
    finger.lift(atMs + 4_080);
    await mainSays(/^All good Grub 50/);
    expect(await count()).toBe(3);
  });

  test('twice on All good opens the shot once: one Undo takes it back', async () => {
    const finger = new Finger(7);
    finger.down(key('Log now, Grub 50'), atMs);
    finger.lift(atMs + 80);
    await mainSays(/^All good Grub 50/);
    const allGood = key('All good, Grub 50');
    for (const wait of [1_000, 1_600]) {
      finger.down(allGood, atMs + wait);
      finger.lift(atMs + wait + 80);
    }
    await mainSays(/^Filled/);
    expect((await table.entries()).map(({ said }) => said.kind)).toEqual(['filled', 'opened']);
    finger.down(key(/^Undo/), atMs + 3_000);
    finger.lift(atMs + 3_080);
    await mainSays(/^All good Grub 50/);
  });

  test('off the main key logs nothing', async () => {
    const finger = new Finger(7);
    finger.down(mainKey(), atMs);
    finger.lift(atMs + 80, 30, 'above');
    finger.down(mainKey(), atMs + 1_000);
    finger.cancel(atMs + 1_080);
    await mainSays(/^Filled/);
    expect(await count()).toBe(0);
  });
});

describe('nothing is logged by', () => {
  test('the twin of a press within 400 ms; after that the key works again', async () => {
    const finger = new Finger(7);
    const press = (laterMs: number) => {
      finger.down(key(/^Table/), atMs + laterMs);
      finger.lift(atMs + laterMs + 40);
    };
    press(0);
    press(200);
    press(399);
    await expect.poll(isTableOpen).toBe(true);
    press(400);
    await expect.poll(isTableOpen).toBe(false);
  });

  test('a palm that rests for more than 1.5 s', async () => {
    const palm = new Finger(7);
    palm.down(mainKey(), atMs);
    palm.lift(atMs + 1_501);
    await mainSays(/^Filled/);
    expect(await count()).toBe(0);
    palm.down(mainKey(), atMs + 2_000);
    palm.lift(atMs + 3_500);
    await mainSays(/^Setting/);
    expect(await count()).toBe(1);
  });

  test('three contacts at once, whichever lifts first; two fingers are two presses', async () => {
    const hand = [1, 2, 3].map((id) => new Finger(id));
    const keys = [mainKey(), key('Skip, Shad 7'), key(/^Table/)];
    for (const [index, finger] of hand.entries()) {
      finger.down(keys[index] as Element, atMs + index * 20);
    }
    for (const finger of hand) finger.lift(atMs + 150);
    expect(isTableOpen()).toBe(false);
    await mainSays(/^Filled Grub 50 \+ Shad 7/);
    expect(await count()).toBe(0);

    const [one, two] = hand;
    one?.down(key('Skip, Shad 7'), atMs + 2_000);
    two?.down(key('Skip, Grub 50'), atMs + 2_020);
    one?.lift(atMs + 2_100);
    two?.lift(atMs + 2_120);
    await expect.poll(count).toBe(2);
  });
});

describe('contacts are counted on the whole glass:', () => {
  test('a key that vanishes under a resting finger leaves nothing behind', async () => {
    // One mould, filled by pedal while a finger rests on a key of its card; twice, then the finger presses.
    for (const [index, id] of [21, 22].entries()) {
      const resting = new Finger(id);
      const fromMs = atMs + index * 10_000;
      resting.down(key('Log now, Grub 50'), fromMs);
      keyDown(pageDown, fromMs + 300);
      await mainSays(/^Setting/);
      resting.lift(fromMs + 700);
      keyDown(pageUp, fromMs + 1_200);
      await mainSays(/^Filled/);
      table.pass(400);
    }
    expect(await count()).toBe(4);
    const finger = new Finger(23);
    finger.down(mainKey(), atMs + 30_000);
    finger.lift(atMs + 30_080);
    await mainSays(/^Setting/);
    expect(await count()).toBe(5);
  });

  test('two on the bare card and one on the key log nothing, whichever comes last', async () => {
    const card = page.getByRole('heading', { name: 'Grub 50' }).element();
    const palm = [31, 32].map((id) => new Finger(id));
    const finger = new Finger(33);
    for (const one of palm) one.down(card, atMs);
    finger.down(mainKey(), atMs + 40);
    finger.lift(atMs + 120);
    finger.down(mainKey(), atMs + 1_000);
    for (const one of palm) one.lift(atMs + 1_040);
    finger.lift(atMs + 1_080);
    finger.down(mainKey(), atMs + 2_000);
    for (const one of palm) one.down(card, atMs + 2_020);
    finger.lift(atMs + 2_080);
    for (const one of palm) one.lift(atMs + 2_100);
    await mainSays(/^Filled/);
    expect(await count()).toBe(0);
    finger.down(mainKey(), atMs + 3_000);
    finger.lift(atMs + 3_080);
    await mainSays(/^Setting/);
  });

  test('what rests while the page loses the glass is forgotten, and is no press', async () => {
    const lost = [41, 42].map((id) => new Finger(id));
    for (const one of lost) one.down(key(/^Table/), atMs);
    window.dispatchEvent(new Event('blur'));
    lost[0]?.lift(atMs + 100);
    expect(isTableOpen()).toBe(false);
    const finger = new Finger(43);
    finger.down(mainKey(), atMs + 1_000);
    finger.lift(atMs + 1_080);
    await mainSays(/^Setting/);
  });
});

describe('the main key means what it said when the finger came down', () => {
  /** Both moulds filled, the first opened by hand and settled. */
  async function oneOpen(): Promise<void> {
    const finger = new Finger(7);
    finger.down(mainKey(), atMs);
    finger.lift(atMs + 80);
    await mainSays(/^Setting/);
    finger.down(key('Open now, Grub 50'), atMs + 2_000);
    finger.lift(atMs + 2_080);
    await mainSays(/^All good Grub 50$/);
    table.pass(400);
  }

  async function openSecond(): Promise<void> {
    const other = new Finger(8);
    other.down(key('Open now, Shad 7'), atMs + 4_000);
    other.lift(atMs + 4_080);
    await mainSays(/^All good Grub 50 \+ Shad 7$/);
  }

  const shotsLogged = async () => {
    const last = (await table.entries()).at(-1)?.said;
    return last?.kind === 'opened' ? last.shots.length : 0;
  };

  test('also if it says something else when the finger lifts', async () => {
    await oneOpen();
    const finger = new Finger(7);
    finger.down(mainKey(), atMs + 3_900);
    await openSecond();
    finger.lift(atMs + 4_200);
    await mainSays(/^All good Shad 7$/);
    expect(await shotsLogged()).toBe(1);
  });

  test.each([
    [299, 1],
    [300, 2],
  ])('or, %i ms after it changed, what it said before: %i shot', async (laterMs, shots) => {
    await oneOpen();
    await openSecond();
    table.pass(laterMs);
    const finger = new Finger(7);
    finger.down(mainKey(), atMs + 5_000);
    finger.lift(atMs + 5_060);
    await expect.poll(shotsLogged).toBe(shots);
  });

  test('and a second press before the first is on the glass counts nothing', async () => {
    const finger = new Finger(7);
    for (const laterMs of [0, 450, 900]) {
      finger.down(mainKey(), atMs + laterMs);
      finger.lift(atMs + laterMs + 40);
    }
    await mainSays(/^Setting/);
    expect(await count()).toBe(1);
    expect(table.heard.filter((sound) => sound === 'wrong way')).toHaveLength(2);
  });
});

test('Wipe puts the glass to sleep for 8 s, a pedal works meanwhile, and it wakes by itself', async () => {
  const finger = new Finger(51);
  finger.down(key(/^Wipe/), atMs);
  finger.lift(atMs + 60);
  await expect.element(page.getByText('Wipe now')).toBeVisible();
  /** Whether a finger at the middle of each key that can be seen would meet that key. */
  const feels = () =>
    [...document.querySelectorAll('button')]
      .filter((one) => one.checkVisibility())
      .filter((one) => {
        const { left, top, width, height } = one.getBoundingClientRect();
        return one.contains(document.elementFromPoint(left + width / 2, top + height / 2));
      }).length;
  expect(feels()).toBe(0);
  keyDown(pageDown, atMs + 1_000);
  await mainSays(/^Setting/);
  expect(await count()).toBe(1);
  table.pass(7_900);
  await expect.element(page.getByText('Wipe now')).toBeVisible();
  expect(feels()).toBe(0);
  table.pass(200);
  await expect.element(page.getByText('Wipe now')).not.toBeInTheDocument();
  expect(feels()).toBeGreaterThan(5);
});

test('no menu of a long press, no pinch and no double tap does anything on the table', async () => {
  const cancelled = (event: Event) => {
    mainKey().dispatchEvent(event);
    return event.defaultPrevented;
  };
  const init = { bubbles: true, cancelable: true };
  expect(cancelled(new MouseEvent('contextmenu', init))).toBe(true);
  expect(cancelled(new MouseEvent('dblclick', init))).toBe(true);
  expect(cancelled(new Event('gesturestart', init))).toBe(true);
  const touch = (identifier: number) => new Touch({ identifier, target: mainKey() });
  expect(cancelled(new TouchEvent('touchmove', { ...init, touches: [touch(1), touch(2)] }))).toBe(
    true,
  );
  expect(cancelled(new TouchEvent('touchmove', { ...init, touches: [touch(1)] }))).toBe(false);
  for (let element: Element | null = mainKey(); element; element = element.parentElement) {
    if (getComputedStyle(element).touchAction === 'none') return;
  }
  expect.unreachable('No touch-action of none around the main key.');
});
