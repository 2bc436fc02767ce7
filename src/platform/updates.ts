import type { Workbox } from 'workbox-window';
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
  /** Calls back once every file of the app is stored on the device, unless the returned function is called first. */
  whenStored(tell: () => void): () => void;
  /** The person was told that the app works with no network: once is enough. */
  told(): void;
  /** Takes the newer version and loads the page anew, unless a session is open somewhere. */
  take(): Promise<void>;
}

const hourMs = 3_600_000;

/** The worker behind this page. */
interface Registered {
  workbox: Workbox;
  registration: ServiceWorkerRegistration | undefined;
}

/** The service worker of the built app; nothing where there is none, as while developing. */
export function deviceUpdates(now: () => number): Updates {
  let said: UpdateState = 'current';
  const turn = (next: UpdateState) => {
    said = next;
  };
  let registered: Registered | null = null;
  const registering = register(turn).then(
    (found) => {
      registered = found;
    },
    () => {},
  );
  let lookedAt = now();
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'hidden' || now() - lookedAt < hourMs) return;
    void ifNoSession(() => {
      lookedAt = now();
      registered?.registration?.update().catch(() => {});
    });
  });
  return {
    state: () => (said !== 'held-back' && isNewerWaiting(registered) ? 'waiting' : said),
    whenStored,
    told() {
      if (said === 'ready-offline') turn('current');
    },
    async take() {
      await registering;
      const ran = await ifNoSession(() => {
        if (registered?.registration?.waiting) takeOver(registered, turn);
        else window.location.reload();
      });
      if (!ran) turn('held-back');
    },
  };
}

function whenStored(tell: () => void): () => void {
  let isOver = false;
  // Never answers where there is no worker, as while developing.
  void navigator.serviceWorker?.ready.then(() => {
    if (!isOver) tell();
  });
  return () => {
    isOver = true;
  };
}

async function register(turn: (next: UpdateState) => void): Promise<Registered | null> {
  if (!('serviceWorker' in navigator)) return null;
  // Fetched after the first paint: nothing waits for it.
  const { Workbox } = await import('workbox-window');
  const workbox = new Workbox(trustedScript('./sw.js'));
  workbox.addEventListener('controlling', ({ isUpdate }) => {
    if (isUpdate) void loadAnew(turn);
  });
  // Asked before registering: a load that an earlier page began fires no event here.
  const isFirst = !(await navigator.serviceWorker.getRegistration())?.active;
  const registration = await workbox.register();
  if (isFirst) void navigator.serviceWorker.ready.then(() => turn('ready-offline'));
  return { workbox, registration };
}

/** Looked at when it is asked for: a page that opened while the newer version came hears no event. */
function isNewerWaiting(registered: Registered | null): boolean {
  return Boolean(registered?.registration?.waiting && registered.registration.active);
}

/** Lets the waiting version take over; the page loads anew when it has. */
function takeOver({ workbox, registration }: Registered, turn: (next: UpdateState) => void): void {
  const waiting = registration?.waiting;
  // A page that no worker serves, as after a hard reload, does not hear of the change.
  if (!navigator.serviceWorker.controller) {
    waiting?.addEventListener('statechange', () => {
      if (waiting.state === 'activated') void loadAnew(turn);
    });
  }
  workbox.messageSkipWaiting();
}

/** The newer version has taken over, by this window or another. A session stays as it is. */
async function loadAnew(turn: (next: UpdateState) => void): Promise<void> {
  const ran = await ifNoSession(() => window.location.reload());
  if (!ran) turn('waiting');
}
