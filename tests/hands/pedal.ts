/** What one key event says about itself. */
export type KeyWords = Pick<KeyboardEventInit, 'key' | 'code' | 'repeat' | 'ctrlKey' | 'altKey'>;

export const pageDown: KeyWords = { key: 'PageDown', code: 'PageDown' };
export const pageUp: KeyWords = { key: 'PageUp', code: 'PageUp' };

/** A key comes down where the focus is, at an instant of the page's own clock; returns the event when all have heard it. */
export function keyDown(words: KeyWords, atMs: number): KeyboardEvent {
  const event = new KeyboardEvent('keydown', { ...words, bubbles: true, cancelable: true });
  Object.defineProperty(event, 'timeStamp', { value: atMs });
  (document.activeElement ?? document.body).dispatchEvent(event);
  return event;
}

/** A foot on a pedal that is worn: bounces, then says over and over that it is held. */
export function wornPress(words: KeyWords, atMs: number): void {
  keyDown(words, atMs);
  for (const bounceMs of [8, 31, 90]) keyDown(words, atMs + bounceMs);
  for (const heldMs of [330, 365, 400]) keyDown({ ...words, repeat: true }, atMs + heldMs);
}

/** The pedal that came down at `fromAt` stays down for more than a second: it repeats, and never says that it came up. */
export function stayDown(words: KeyWords, fromAt: number): void {
  for (let heldMs = 500; heldMs <= 1_200; heldMs += 35) {
    keyDown({ ...words, repeat: true }, fromAt + heldMs);
  }
}
