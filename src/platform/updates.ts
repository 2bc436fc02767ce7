import { ifNoSession } from '#platform/session-lock.ts';
import { trustedScript } from '#platform/trusted.ts';

/** How the app stands to its newest version. */
export type UpdateState =
  | 'current'
  /** The first load is stored, and nobody was told yet: the app works with no network. */
  | 'ready-offline'
  /** A newer version is loaded and waits. */
  | 'waiting'
  /** It was asked for, but a window of this app still holds a session. */
  | 'held-back';

/** New versions of the app: fetched when they are there, taken only when the person says so. */
export interface Updates {
  /** How it stands now. */
  state(): UpdateState;
  /** The person was told that the app works with no network: once is enough. */
  told(): void;
  /** Takes the newer version and loads the page anew, unless a session is open somewhere. */
  take(): Promise<void>;
}

const hourMs = 3_600_000;

/** The service worker of the built app; nothing where there is none, as while developing. */
export function deviceUpdates(now: () => number): Updates {
  let state: UpdateState = 'current';
  const turn = (next: UpdateState) => {
    state = next;
  };
  const watching = 'serviceWorker' in navigator ? register(turn).catch(() => null) : null;
  let lookedAt = now();
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'hidden' || now() - lookedAt < hourMs) return;
    void ifNoSession(() => {
      lookedAt = now();
      void watching?.then((found) => found?.registration?.update()).catch(() => {});
    });
  });
  return {
    state: () => state,
    told() {
      if (state === 'ready-offline') turn('current');
    },
    async take() {
      const found = await watching;
      const ran = await ifNoSession(() => {
        const waiting = found?.registration?.waiting;
        if (!waiting) return window.location.reload();
        // The page loads anew when the newer worker takes over. A page that no worker serves yet,
        // as on the first visit, does not hear of that.
        if (!navigator.serviceWorker.controller) {
          waiting.addEventListener('statechange', () => {
            if (waiting.state === 'activated') void loadAnew(turn);
          });
        }
        found?.workbox.messageSkipWaiting();
      });
      if (!ran) turn('held-back');
    },
  };
}

async function register(turn: (next: UpdateState) => void) {
  // Fetched after the first paint: nothing waits for it.
  const { Workbox } = await import('workbox-window');
  const workbox = new Workbox(trustedScript('./sw.js'));
  workbox.addEventListener('installed', ({ isUpdate, isExternal }) => {
    if (!isUpdate && !isExternal) turn('ready-offline');
  });
  workbox.addEventListener('waiting', () => turn('waiting'));
  workbox.addEventListener('controlling', ({ isUpdate }) => {
    if (isUpdate) void loadAnew(turn);
  });
  return { workbox, registration: await workbox.register() };
}

/** The newer version has taken over, by this window or another. A session stays as it is. */
async function loadAnew(turn: (next: UpdateState) => void): Promise<void> {
  const ran = await ifNoSession(() => window.location.reload());
  if (!ran) turn('waiting');
}
