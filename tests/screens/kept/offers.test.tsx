import { beforeEach, describe, expect, test, vi } from 'vitest';
import { page } from 'vitest/browser';
import { Notices } from '#app/Notices.tsx';
import { askForHome } from '#platform/home-screen.ts';
import { GloveCheckScreen } from '#screens/checks/GloveCheckScreen.tsx';
import { endSession } from '#store/sessions.ts';
import { changeSettings } from '#store/settings.ts';
import { startPouring } from '#store/start.ts';
import { drawn } from '../../hands/drawn.ts';
import { aMould } from '../../hands/evening.ts';
import { faults, isNoWider } from '../../hands/faults.ts';
import { aSafety, aShop, show, type TestShop } from '../../hands/show.tsx';

const hourMs = 3_600_000;
let shop: TestShop;

beforeEach(async () => {
  await page.viewport(360, 740);
  shop = { ...(await aShop()), safety: aSafety({ isPromised: true }) };
});

const key = (name: string) => page.getByRole('button', { name, exact: true });
const check = (name: string) => page.getByRole('link', { name, exact: true });

async function begin() {
  const mould = await aMould(shop.book, 'Grub 50', { rows: 2, cols: 2 });
  const lined = {
    mouldIds: [mould.id],
    injectorId: null,
    colourwayId: null,
    zone: 'Europe/Berlin',
  };
  return await startPouring(shop.book, lined, shop.clock.now());
}

async function pourOnce() {
  await endSession(shop.book, await begin(), shop.clock.now());
}

/** The lines over Pour, drawn anew. */
function look(at: 'pour' | 'moulds' = 'pour', isPouring = false) {
  return show(
    shop,
    <Notices at={at} address={`#/${at}`} isPouring={isPouring} wasAtTable={false} />,
  );
}

/** Nothing is said here, now and after the logbook was read. */
async function isQuiet(root: Element) {
  for (let reads = 0; reads < 3; reads += 1) {
    await shop.book.db.count('sealed');
    await drawn();
  }
  expect(root.textContent).toBe('');
}

/** What a browser does that can put the app on the home screen; the standard has no way to cause it. */
function browserOffersHome(): { asked: number } {
  const heard = { asked: 0 };
  const event = Object.assign(new Event('beforeinstallprompt', { cancelable: true }), {
    prompt: async () => {
      heard.asked += 1;
    },
  });
  window.dispatchEvent(event);
  // Held back: else the browser puts up a band of its own, before the first shot.
  expect(event.defaultPrevented).toBe(true);
  return heard;
}

describe('what is offered once', () => {
  test('comes neither before the first session is over, nor while one runs, nor on another page', async () => {
    browserOffersHome();
    const sessionId = await begin();
    await isQuiet(look());
    await isQuiet(look('pour', true));
    await endSession(shop.book, sessionId, shop.clock.now());
    await isQuiet(look('moulds'));
    const root = look();
    await expect.element(key('Add it')).toBeVisible();
    expect(await faults(root)).toEqual([]);
    expect(isNoWider()).toBe(true);
  });

  test('waits for the question whether the phone keeps the log', async () => {
    await pourOnce();
    shop.safety = aSafety({ isPromised: false, shouldAsk: true });
    look();
    await expect.element(key('Ask it')).toBeVisible();
    expect(page.getByRole('status').elements()).toHaveLength(1);
  });

  test('is the home screen first, asked by the browser, and one thing in a sitting', async () => {
    const heard = browserOffersHome();
    await pourOnce();
    look();
    await key('Add it').click();
    await expect.poll(() => heard.asked).toBe(1);
    await expect.element(page.getByRole('status')).not.toBeInTheDocument();
    shop.set(shop.clock.now() + hourMs - 1_000);
    look();
    await expect.element(page.getByRole('status')).not.toBeInTheDocument();
    shop.set(shop.clock.now() + 1_000);
    look();
    await expect.element(check('Check sound')).toHaveAttribute('href', '#/sound-check');
  });

  test('where only the menu of a phone does it, it says to take a copy first', async () => {
    await askForHome();
    await pourOnce();
    const { matchMedia } = window;
    vi.spyOn(window, 'matchMedia').mockImplementation((query) =>
      matchMedia.call(window, query === '(pointer: coarse)' ? 'all' : query),
    );
    const root = look();
    await expect.element(page.getByText(/begins empty there: take a copy first/)).toBeVisible();
    await expect.element(check('Take a copy')).toHaveAttribute('href', '#/keep');
    expect(await faults(root)).toEqual([]);
    expect(isNoWider()).toBe(true);
    vi.restoreAllMocks();
  });

  test('never comes again after Not now', async () => {
    browserOffersHome();
    await pourOnce();
    for (const first of [key('Add it'), check('Check sound'), check('Check gloves')]) {
      look();
      await expect.element(first).toBeVisible();
      await key('Not now').click();
      await expect.element(page.getByRole('status')).not.toBeInTheDocument();
      shop.set(shop.clock.now() + hourMs);
    }
    await pourOnce();
    await isQuiet(look());
  });

  test('leaves out what was done without an offer', async () => {
    await pourOnce();
    await changeSettings(shop.book, { music: 'none' }, shop.clock.now());
    browserOffersHome();
    show(shop, <GloveCheckScreen />);
    await expect.element(page.getByRole('heading', { name: 'Glove check' })).toBeVisible();
    shop.set(shop.clock.now() + hourMs);
    look();
    await key('Not now').click();
    shop.set(shop.clock.now() + hourMs);
    await isQuiet(look());
  });
});
