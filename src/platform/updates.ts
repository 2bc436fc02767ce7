import { Workbox } from 'workbox-window';
import { ifNoSession } from '#platform/session-lock.ts';
import { trustedScript } from '#platform/trusted.ts';

/** How the app stands to its newest version. */
export type UpdateState =
  | 'current'
  /** The first load is stored: the app works with no network. */
  | 'ready-offline'
  /** A newer version is loaded and waits. */
  | 'waiting'
  /** A newer version waits for a session in this or another window to end. */
  | 'after-session';

/** New versions of the app: fetched when they are there, taken only when the person says so. */
export interface Updates {
  /** Calls back with the present state and with every new one, until the returned function is called. */
  watch(hear: (state: UpdateState) => void): () => void;
  /** Takes the waiting version and loads the page anew, unless a session is open somewhere. */
  take(): Promise<void>;
}

const hourMs = 3_600_000;

/** The service worker of the built app; nothing where there is none, as while developing. */
export function deviceUpdates(now: () => number): Updates {
  const hearers = new Set<(state: UpdateState) => void>();
  let state: UpdateState = 'current';
  const tell = (next: UpdateState) => {
    state = next;
    for (const hear of hearers) hear(next);
  };
  const workbox = 'serviceWorker' in navigator ? new Workbox(trustedScript('./sw.js')) : null;
  workbox?.addEventListener('installed', ({ isUpdate }) => {
    if (!isUpdate) tell('ready-offline');
  });
  workbox?.addEventListener('waiting', () => tell('waiting'));
  workbox?.addEventListener('controlling', ({ isUpdate }) => {
    if (!isUpdate) return;
    // Another window took the update. A window with a session in it stays as it is.
    void ifNoSession(() => window.location.reload()).then((ran) => {
      if (!ran) tell('after-session');
    });
  });
  const registering = workbox?.register().catch(() => undefined);
  let lookedAt = now();
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'hidden' || now() - lookedAt < hourMs) return;
    lookedAt = now();
    void ifNoSession(() => void registering?.then((found) => found?.update().catch(() => {})));
  });
  return {
    watch(hear) {
      hearers.add(hear);
      hear(state);
      return () => hearers.delete(hear);
    },
    async take() {
      const found = await registering;
      const ran = await ifNoSession(() => {
        // The page loads anew when the new worker takes over, or at once if nothing waits.
        if (found?.waiting) workbox?.messageSkipWaiting();
        else window.location.reload();
      });
      if (!ran) tell('after-session');
    },
  };
}
