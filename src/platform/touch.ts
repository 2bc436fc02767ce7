/** What the hand feels, where the device can. */
export interface Touch {
  /** Stored: one short buzz. */
  confirm(): void;
  /** Refused: two. */
  refuse(): void;
}

/** The device's own buzz; quiet where there is none. Never the only answer. */
export const deviceTouch: Touch = {
  confirm: () => buzz(60),
  refuse: () => buzz([60, 60, 60]),
};

function buzz(pattern: number | number[]): void {
  if ('vibrate' in navigator) navigator.vibrate(pattern);
}
