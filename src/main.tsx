import { type ComponentChildren, render } from 'preact';
import '#styles/tokens.css';
import '#styles/base.css';
import { App } from '#app/App.tsx';
import { ErrorPage } from '#app/ErrorPage.tsx';
import { behindTable } from '#app/landing.ts';
import { Trouble, type Way } from '#app/Trouble.tsx';
import { lateSafety } from '#live/late-safety.ts';
import type { Safety } from '#live/safety.ts';
import { type Shop, ShopContext } from '#live/shop.ts';
import { openOver } from '#live/use-route.ts';
import { systemClock, wallNow } from '#platform/clock.ts';
import { hasDrawer } from '#platform/drawer.ts';
import { fastClock } from '#platform/fast-clock.ts';
import { deviceFiles } from '#platform/files.ts';
import { whenIdle } from '#platform/idle.ts';
import { deviceKeys } from '#platform/keys.ts';
import { lateSound } from '#platform/late-sound.ts';
import { devicePictures } from '#platform/pictures.ts';
import { deviceRoom } from '#platform/room.ts';
import { holdSession } from '#platform/session-lock.ts';
import { deviceShare } from '#platform/share.ts';
import { deviceTableLock } from '#platform/table-lock.ts';
import { deviceTouch } from '#platform/touch.ts';
import { addScript, trustedScript } from '#platform/trusted.ts';
import { deviceUpdates } from '#platform/updates.ts';
import { deviceWakeLock } from '#platform/wake-lock.ts';
import { hrefTo, routeOf } from '#screens/routes.ts';
import { type Book, openBook } from '#store/book.ts';
import { canaryOf } from '#store/canary.ts';
import { type OpeningNews, openDatabase } from '#store/db.ts';
import { footingOf, isBlank } from '#store/footing.ts';
import { bookName, demoName } from '#store/names.ts';
import { joinWindows } from '#store/notice.ts';
import { keepSentMix } from '#store/sent-mix-in.ts';
import { version } from '../package.json';
import keeperUrl from './keeper.ts?worker&url';

const isDemo = new URLSearchParams(window.location.search).has('demo');
const name = isDemo ? demoName : bookName;

/** How much faster than life the clocks of the demo table run. */
const demoPace = 10;

/** Introduces everybody to each other and then keeps quiet. */
async function open(root: HTMLElement): Promise<void> {
  const system = systemClock();
  const clock = fastClock(system, demoPace);
  const news: OpeningNews = {
    onBlocked: () => {
      isWaiting = false;
      render(<Trouble {...blocked} />, root);
    },
    onMadeWay: () => render(<Trouble {...madeWay} />, root),
    onLost: () => void reopen({ book, safety, clock }, news, root),
  };
  let opened: Book | null = null;
  const safety = safetyOf(() => opened);
  // Some browsers never answer until the app is loaded anew: a white page would say nothing.
  let isWaiting = true;
  setTimeout(async () => {
    if (!isWaiting) return;
    const { slow } = await import('#app/opening-troubles.ts');
    if (isWaiting) render(<Trouble {...slow} />, root);
  }, longestMs);
  const book = await openBook(name, news)
    .catch(async (error: unknown) => {
      // A disk that is full to the last byte does not even open: the reserve lets it.
      if (isNewer(error) || !(await hasDrawer(name)) || !(await hasRoomMade(safety))) throw error;
      return await openBook(name, news);
    })
    .finally(() => {
      isWaiting = false;
    });
  opened = book;
  joinWindows(name);
  const demo = isDemo ? await import('#app/demo-door.ts') : null;
  if (demo) {
    await demo.furnish(book, clock);
    await demo.hurry(book, clock);
  }
  const footing = await footingOf(book);
  if (footing.hasRunning) {
    // Wherever the app was left, it opens on the table of a running session. A mix that was sent waits.
    const asked = routeOf(window.location.hash);
    if (asked.at === 'take-mix' && asked.packed) keepSentMix(book, asked.packed);
    openOver(hrefTo({ at: 'table' }), behindTable);
  }
  const shop: Shop = {
    book,
    clock,
    touch: deviceTouch,
    sound: lateSound(async () => (await import('#platform/sound.ts')).deviceSound),
    keys: deviceKeys,
    pictures: devicePictures,
    share: deviceShare,
    wakeLock: deviceWakeLock,
    files: deviceFiles,
    tableLock: deviceTableLock(name),
    updates: deviceUpdates(system.now),
    safety,
    leaveDemo: demo ? () => void demo.leaveDemo(book) : null,
    version,
    holdSession,
  };
  const show = (page: ComponentChildren) => {
    render(
      <ShopContext.Provider value={shop}>
        <ErrorPage check={shop.safety.check} wayAround={() => wayFrom(shop)}>
          {page}
        </ErrorPage>
      </ShopContext.Provider>,
      root,
    );
  };
  const goOn = () => {
    show(<App />);
    // Made-up numbers need no second copy: they come again from their file.
    if (!isDemo) whenIdle(() => void startKeeping(shop.safety));
  };
  const isLost = footing.isEmpty && !isDemo && (await isBlank(book));
  const lost = isLost ? await lostFrom(shop) : null;
  if (!lost) return goOn();
  const { Lost } = await import('#app/Lost.tsx');
  show(<Lost {...lost} onGoOn={goOn} />);
}

/** What keeps the logbook safe; fetched after the first paint. Without a book it can only look. */
function safetyOf(book: () => Book | null): Safety {
  return lateSafety(async () => {
    const { keepSafe } = await import('#live/keep-safe.ts');
    return keepSafe({ name, book, now: wallNow, room: deviceRoom, startWorker });
  });
}

/** Begins to keep the second copy; a busy device that does not hand out its files at once is asked again. */
async function startKeeping(safety: Safety): Promise<void> {
  for (const pauseMs of [0, 2_000, 10_000, 60_000]) {
    await new Promise((resolve) => setTimeout(resolve, pauseMs));
    const start = safety.start().then(() => true);
    if (await start.catch(() => false)) return;
  }
}

/** The worker that keeps the second copy. */
function startWorker(name: string): Worker {
  addScript(keeperUrl);
  return new Worker(trustedScript(keeperUrl), { type: 'module', name });
}

/** What a blank logbook held before, as far as that is remembered; null: it never held anything. */
async function lostFrom({ safety }: Shop) {
  const canary = canaryOf(name);
  const copy = (await hasDrawer(name)) ? await safety.look().catch(() => null) : null;
  const known = [canary?.held, copy].filter((held) => held && held.records > 0);
  return known.length > 0 ? { held: canary?.held ?? null, at: canary?.at ?? null, copy } : null;
}

/**
 * Opens the database again under the same book. Everybody holds that book, and the table may hold
 * entries that are not stored yet: what is on screen stays there.
 */
async function reopen(
  { book, safety, clock }: Pick<Shop, 'book' | 'safety' | 'clock'>,
  news: OpeningNews,
  root: HTMLElement,
): Promise<void> {
  try {
    Object.assign(book, { db: await openDatabase(name, news) });
    void refill({ book, safety, clock }).catch(() => {});
  } catch (error) {
    if (isNewer(error)) return void fail(root, error);
    await hasRoomMade(safety);
    setTimeout(() => void reopen({ book, safety, clock }, news, root), 2_000);
  }
}

/** No sooner than so many ms after the last look is a database that was lost looked into again. */
const betweenLooksMs = 60_000;
let lookedAt = Number.NEGATIVE_INFINITY;

/**
 * A lost database may have been thrown away, and this be an empty one in its place: what was in it is
 * put back at once. One that is not empty is left alone: a damaged one is closed at every look, so that
 * looking would go round and stand in the way of whoever builds it anew.
 */
async function refill({
  book,
  safety,
  clock,
}: Pick<Shop, 'book' | 'safety' | 'clock'>): Promise<void> {
  const now = clock.now();
  if (isDemo || Math.abs(now - lookedAt) < betweenLooksMs) return;
  lookedAt = now;
  if (await isBlank(book)) await safety.check();
}

/** Longer than this no phone should take to open the logbook. */
const longestMs = 8_000;
const blocked = {
  title: 'Another window is open',
  text: 'An older Warmshot window holds the logbook. Close it and this one goes on.',
};
const madeWay = {
  title: 'Updated in another window',
  text: 'A newer Warmshot is open elsewhere. Start again here to go on.',
};

async function fail(root: HTMLElement, error: unknown): Promise<void> {
  const { textWay, troubleOf, wayAround } = await import('#app/opening-troubles.ts');
  const { fault, ...trouble } = troubleOf(error);
  render(<Trouble {...trouble} />, root);
  if (fault === 'newer') textWay(name, (way) => render(<Trouble {...trouble} way={way} />, root));
  if (fault !== 'other' || !(await hasDrawer(name))) return;
  const way = await wayAround(
    name,
    safetyOf(() => null),
  );
  if (way) render(<Trouble {...trouble} way={way} />, root);
}

/** The way on for an app that broke down: only when the database itself can no longer be read. */
async function wayFrom({ safety, book }: Shop): Promise<Way | null> {
  await safety.check().catch(() => {});
  if (safety.state().trouble !== 'other') return null;
  const { wayAround } = await import('#app/opening-troubles.ts');
  return await wayAround(name, safety, () => book.db.close());
}

/** Frees the reserve of a full device; false where that is of no help. */
function hasRoomMade(safety: Safety): Promise<boolean> {
  return safety.makeRoom().catch(() => false);
}

/** Whether the logbook was written by a newer version of the app. */
function isNewer(error: unknown): boolean {
  return error instanceof DOMException && error.name === 'VersionError';
}

// In somebody else's frame nothing is shown: a press there could be stolen.
const root = document.querySelector<HTMLElement>('#app');
if (root && window.top === window.self) {
  void open(root).catch((error: unknown) => fail(root, error));
  window.addEventListener('pageshow', (event) => {
    // Browsers close the database of a page they keep in the back-forward cache.
    if (event.persisted) window.location.reload();
  });
}
