/** What a browser hands over that can put the app on the home screen by itself. */
interface InstallEvent extends Event {
  prompt(): Promise<unknown>;
}

let kept: InstallEvent | null = null;

// Held back: some browsers would show a band of their own over the page, before the first shot.
window.addEventListener('beforeinstallprompt', (event) => {
  event.preventDefault();
  kept = event as InstallEvent;
});

/** Whether this device has a home screen and the app was not opened from it. */
export function isHomeOpen(): boolean {
  const isOnIt =
    window.matchMedia('(display-mode: standalone), (display-mode: fullscreen)').matches ||
    Reflect.get(navigator, 'standalone') === true;
  return !isOnIt && (kept !== null || window.matchMedia('(pointer: coarse)').matches);
}

/** Whether the browser asks the person itself; else the person goes through its menu. */
export function canAskForHome(): boolean {
  return kept !== null;
}

/** Lets the browser ask, once; false: it would not. */
export async function askForHome(): Promise<boolean> {
  const event = kept;
  kept = null;
  try {
    await event?.prompt();
    return event !== null;
  } catch {
    return false;
  }
}
