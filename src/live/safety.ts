import type { Untold } from '#store/canary.ts';
import type { Held } from '#store/held.ts';

/** How safely the logbook lies on this device. */
export interface SafetyState {
  /** What the second copy holds; null: the device keeps none; undefined: not looked yet. */
  copy: Held | null | undefined;
  /** What stands in the way of the second copy now. */
  trouble: 'full' | 'newer' | 'other' | null;
  /** What was found and not noted yet. */
  untold: Untold | null;
  /** Whether the device promised to keep the logbook; null: it does not say; undefined: not asked. */
  isPromised: boolean | null | undefined;
  /** True while the person should be asked for it: once, after the first session. */
  shouldAsk: boolean;
  /** Too little room for a phone: a window that forgets everything, or a device that is nearly full. */
  isCramped: boolean;
}

/** The second copy, what it found, and the device's promise. */
export interface Safety {
  state(): SafetyState;
  /** Calls back after every change, until the returned function is called. */
  hear(tell: () => void): () => void;
  /** Begins to keep the second copy: looks through everything, then follows every write. */
  start(): Promise<void>;
  /** Looks through everything once more. */
  check(): Promise<void>;
  /** Frees the reserve if the device is full; false: it is not, or the reserve is gone already. */
  makeRoom(): Promise<boolean>;
  /** Whether a device that was full has room again for more than the log of a session. */
  hasRoom(): Promise<boolean>;
  /** What the second copy holds, without writing anything; null: there is none. */
  look(): Promise<Held | null>;
  /** Throws the second copy away, and the memory that there was a logbook. */
  forget(): Promise<void>;
  /** The person has read what was found. */
  noted(): void;
  /** Asks the device to keep the logbook. */
  ask(): Promise<void>;
  /** Not now, and not again by itself. */
  skipAsking(): void;
}
