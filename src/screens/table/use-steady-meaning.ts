import { useLayoutEffect, useRef } from 'preact/hooks';
import { refuse } from '#live/answer.ts';
import { useShop } from '#live/shop.ts';
import type { Instant } from '#model/schemas.ts';
import { type Meaning, spokenOf } from '#screens/table/meaning.ts';

/** A label that changed less than this before the hand came down still has its earlier meaning. */
const settlingMs = 300;
/** How long a press may be on its way to the disk and back to the glass. */
const underWayMs = 2_000;

/** What the main key says, as it is painted, and since when. */
export interface Painted {
  meaning: Meaning;
  label: string;
  since: Instant;
  pressedAt: Instant;
}

/** The main key's meaning, whoever presses it: a finger, a pedal or a keyboard. */
export interface SteadyMeaning {
  /** What a hand that comes down now has read. */
  read: () => Painted;
  /** Does what was read, once: what was pressed before it was painted anew is refused. */
  act: (read: Painted) => void;
}

/** Keeps the main key from changing its meaning under a hand, and one press from counting twice. */
export function useSteadyMeaning(meaning: Meaning): SteadyMeaning {
  const shop = useShop();
  const { clock } = shop;
  const label = spokenOf(meaning);
  const now = useRef<Painted>({ meaning, label, since: never, pressedAt: never });
  const before = useRef(now.current);
  if (now.current.label === label) now.current.meaning = meaning;
  useLayoutEffect(() => {
    if (now.current.label === label) return;
    before.current = now.current;
    now.current = { meaning, label, since: clock.now(), pressedAt: never };
  });
  const passedMs = (from: number) => clock.realMs(clock.now() - from);
  return {
    read: () => (passedMs(now.current.since) < settlingMs ? before.current : now.current),
    act(read) {
      const isUnderWay = !read.meaning.isQuick && passedMs(read.pressedAt) < underWayMs;
      if (read.meaning.means === 'nothing' || isUnderWay) return refuse(shop);
      read.pressedAt = clock.now();
      read.meaning.act();
    },
  };
}

const never = Number.NEGATIVE_INFINITY;
