import { createContext } from 'preact';
import { useContext } from 'preact/hooks';
import type { Safety } from '#live/safety.ts';
import type { Clock } from '#platform/clock.ts';
import type { Files } from '#platform/files.ts';
import type { Keys } from '#platform/keys.ts';
import type { Pictures } from '#platform/pictures.ts';
import type { Share } from '#platform/share.ts';
import type { Sound } from '#platform/sound.ts';
import type { TableLock } from '#platform/table-lock.ts';
import type { Touch } from '#platform/touch.ts';
import type { Updates } from '#platform/updates.ts';
import type { WakeLock } from '#platform/wake-lock.ts';
import type { Book } from '#store/book.ts';

/** What every screen may use. Made in main, replaced in tests. */
export interface Shop {
  book: Book;
  clock: Clock;
  touch: Touch;
  sound: Sound;
  keys: Keys;
  pictures: Pictures;
  share: Share;
  wakeLock: WakeLock;
  files: Files;
  tableLock: TableLock;
  updates: Updates;
  /** Removes the demo shop and goes back to the person's own; null: this is the person's own. */
  leaveDemo: (() => void) | null;
  safety: Safety;
  /** Of the app, as in its package: `0.1.0`. */
  version: string;
  /** Holds the word that stops updates while a session runs; returns how to let go. */
  holdSession: () => () => void;
}

export const ShopContext = createContext<Shop | null>(null);

/** The shop around this component. Throws outside of one. */
export function useShop(): Shop {
  const shop = useContext(ShopContext);
  if (!shop) throw new Error('There is no shop around this component.');
  return shop;
}
