import { render } from 'preact';
import '#styles/tokens.css';
import '#styles/base.css';
import { App } from '#app/App.tsx';
import { ErrorPage } from '#app/ErrorPage.tsx';
import { Trouble } from '#app/Trouble.tsx';
import { type Shop, ShopContext } from '#live/shop.ts';
import { systemClock } from '#platform/clock.ts';
import { holdSession } from '#platform/session-lock.ts';
import { deviceTouch } from '#platform/touch.ts';
import { deviceUpdates } from '#platform/updates.ts';
import { deviceWakeLock } from '#platform/wake-lock.ts';
import { openBook } from '#store/book.ts';
import { joinWindows } from '#store/notice.ts';

const bookName = 'warmshot';

/** Introduces everybody to each other and then keeps quiet. */
async function open(root: HTMLElement): Promise<void> {
  const clock = systemClock();
  const book = await openBook(bookName, {
    onBlocked: () => render(<Trouble {...blocked} />, root),
    onMadeWay: () => render(<Trouble {...madeWay} />, root),
    onLost: () => void open(root).catch((error: unknown) => fail(root, error)),
  });
  joinWindows(bookName);
  const shop: Shop = {
    book,
    clock,
    touch: deviceTouch,
    wakeLock: deviceWakeLock,
    updates: deviceUpdates(clock.now),
    holdSession,
  };
  render(
    <ShopContext.Provider value={shop}>
      <ErrorPage>
        <App />
      </ErrorPage>
    </ShopContext.Provider>,
    root,
  );
}

const blocked = {
  title: 'Another window is open',
  text: 'An older Warmshot window holds the logbook. Close it and this one goes on.',
};
const madeWay = {
  title: 'Updated in another window',
  text: 'A newer Warmshot is open elsewhere. Start again here to go on.',
};

function fail(root: HTMLElement, error: unknown): void {
  const isNewer = error instanceof DOMException && error.name === 'VersionError';
  render(
    isNewer ? (
      <Trouble
        title="This logbook is newer"
        text="It was written by a newer Warmshot. Update the app first. Your data is untouched."
      />
    ) : (
      <Trouble
        title="The logbook did not open"
        text="Your data is untouched. Close other windows of this app and start again."
        detail={String(error)}
      />
    ),
    root,
  );
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
