import { useRef, useState } from 'preact/hooks';
import { confirm, refuse } from '#live/answer.ts';
import { useShop } from '#live/shop.ts';
import { countedOf, forgetCounted, keepCounted } from '#store/glass.ts';

/** A material that is counted in drops. */
export interface Counted {
  id: string;
  name: string;
  drops: number;
}

/** The count of one mix: which material is counted, how far it is, and what a hand can do. */
export interface DropCount {
  line: Counted | undefined;
  count: number;
  /** What is counted after this one; undefined: it is the only one. */
  nextLine: Counted | undefined;
  add: () => void;
  undo: () => void;
  /** Gives back the drop that the last undo took, if it took one. */
  bringBack: () => void;
  next: () => void;
  /** Whether a drop of any line was counted. */
  hasCounted: boolean;
  /** Every line from none again. */
  beginAnew: () => void;
  /** Brings again what stood there before it began anew; null: it did not, or a drop fell since. */
  before: (() => void) | null;
  /** The cup is left: where all is in it is done, and the next one begins at none. */
  leave: () => void;
}

/** Counts drops line by line; `countKey` names the count, which goes on after a reload. */
export function useDropCount(lines: readonly Counted[], countKey: string): DropCount {
  const shop = useShop();
  const { book, clock } = shop;
  const [counts, setCounts] = useState(() => countedOf(book, countKey, clock.now()));
  const [at, setAt] = useState(() => firstOpen(lines, countedOf(book, countKey, clock.now())));
  // Two drops may fall before the page is drawn once.
  const now = useRef(counts);
  const hasTaken = useRef(false);
  const line = lines[at];
  const nextAt = (at + 1) % Math.max(1, lines.length);

  const [anewFrom, setAnewFrom] = useState<readonly number[] | null>(null);

  const setAll = (next: readonly number[]) => {
    now.current = [...next];
    setCounts(now.current);
    keepCounted(book, countKey, now.current, clock.now());
  };
  const set = (next: number) => {
    setAll(lines.map((_, index) => (index === at ? next : (now.current[index] ?? 0))));
    setAnewFrom(null);
  };
  const add = () => {
    if (!line) return;
    const next = (now.current[at] ?? 0) + 1;
    hasTaken.current = false;
    set(next);
    // Every fifth drop is heard: the eyes stay on the bottle.
    if (next % 5 === 0 || next === line.drops) confirm(shop);
  };
  return {
    line,
    count: counts[at] ?? 0,
    nextLine: lines.length > 1 ? lines[nextAt] : undefined,
    add,
    undo() {
      const before = now.current[at] ?? 0;
      hasTaken.current = before > 0;
      if (before === 0) refuse(shop);
      else set(before - 1);
    },
    bringBack() {
      if (hasTaken.current) set((now.current[at] ?? 0) + 1);
      hasTaken.current = false;
    },
    next: () => setAt(nextAt),
    hasCounted: counts.some((counted) => counted > 0),
    beginAnew() {
      setAnewFrom(now.current);
      setAll([]);
      setAt(0);
    },
    before:
      anewFrom &&
      (() => {
        setAll(anewFrom);
        setAt(firstOpen(lines, anewFrom));
        setAnewFrom(null);
      }),
    leave() {
      if (isFull(lines, now.current)) forgetCounted(book, countKey);
    },
  };
}

/** How far a material is: `of 12`, `all 12 are in`, `2 more than 12`. */
export function restWords(count: number, drops: number): string {
  if (count === drops) return `all ${drops} are in`;
  return count > drops ? `${count - drops} more than ${drops}` : `of ${drops}`;
}

/** Where a count that was broken off goes on. */
function firstOpen(lines: readonly Counted[], counts: readonly number[]): number {
  const open = lines.findIndex(({ drops }, index) => (counts[index] ?? 0) < drops);
  return Math.max(0, open);
}

/** True when all that goes in by drops is in. */
function isFull(lines: readonly Counted[], counts: readonly number[]): boolean {
  return lines.length > 0 && lines.every(({ drops }, index) => (counts[index] ?? 0) >= drops);
}
