import type { Shop } from '#live/shop.ts';

/** Answers the hand that its press is stored: it is felt and heard. */
export function confirm({ touch, sound }: Shop): void {
  touch.confirm();
  sound.logged();
}

/** Answers the hand that its press did nothing. */
export function refuse({ touch, sound }: Shop): void {
  touch.refuse();
  sound.wrongWay();
}
