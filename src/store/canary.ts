import type { Instant } from '#model/schemas.ts';
import type { Findings } from '#store/findings.ts';
import { type Held, noneHeld } from '#store/held.ts';

/**
 * What is remembered outside of the database, so that its loss is noticed: browsers may throw a
 * database away and open an empty one in its place without a word.
 */
export interface Canary {
  /** What the logbook held last. */
  held: Held;
  /** Whether there was anything in a second copy. */
  hasCopy: boolean;
  at: Instant;
  /** What was found at a start and not noted by the person yet. */
  untold: Untold | null;
  /** True when the person was asked once whether the device should keep the logbook. */
  wasAsked: boolean;
}

/** What the person has to hear about the logbook and its second copy. */
export interface Untold {
  putBack: Findings['putBack'];
  putRight: Findings['putRight'];
  setAside: number;
  /** What is gone from both places. */
  missingEntries: number;
  missingMoulds: number;
  /** Records of every other kind. */
  missingOthers: number;
  /** Photos whose picture is gone; the second copy holds none. */
  missingPictures: number;
  /** The second copy was gone or damaged, and was written again. */
  copyAgain: boolean;
}

const blank: Canary = { held: noneHeld, hasCopy: false, at: 0, untold: null, wasAsked: false };

/** What is remembered of the logbook `name`; null when nothing is. */
export function canaryOf(name: string): Canary | null {
  try {
    const found: unknown = JSON.parse(localStorage.getItem(keyOf(name)) ?? 'null');
    if (typeof found !== 'object' || found === null) return null;
    const canary: Canary = { ...blank, ...found };
    canary.held = { ...noneHeld, ...canary.held };
    return Object.values(canary.held).every(Number.isFinite) ? canary : null;
  } catch {
    // No such storage, or not ours: the second copy still tells.
    return null;
  }
}

/** Remembers more of the logbook `name`. Where the device keeps nothing, nothing is remembered. */
export function remember(name: string, changes: Partial<Canary>): void {
  try {
    const next = { ...(canaryOf(name) ?? blank), ...changes };
    localStorage.setItem(keyOf(name), JSON.stringify(next));
  } catch {
    // A full or forbidden storage: the second copy still tells.
  }
}

/** Forgets the logbook `name`. */
export function forgetCanary(name: string): void {
  try {
    localStorage.removeItem(keyOf(name));
  } catch {
    // There was none.
  }
}

function keyOf(name: string): string {
  return `${name}-kept`;
}
