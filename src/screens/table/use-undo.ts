import { useEffect, useRef } from 'preact/hooks';
import type { Table } from '#calc/table.ts';
import { refuse } from '#live/answer.ts';
import { useShop } from '#live/shop.ts';
import type { SessionLog } from '#live/use-session-log.ts';
import type { EntryId } from '#model/entry.ts';

interface Undo {
  /** Takes back the newest line that stands. One that is being taken back, or none, is refused. */
  undo: () => void;
  /** Brings again what the last undo took back, if nothing was undone since. */
  bringBack: () => void;
}

/** Undo, and the way back from it for a foot that stayed down. */
export function useUndo(table: Table, log: SessionLog): Undo {
  const shop = useShop();
  const last = useRef<EntryId | null>(null);
  /** What the newest press of Undo took back; null: nothing. */
  const took = useRef<EntryId | null>(null);
  /** What is to come again as soon as the line that took it back is there. */
  const wanted = useRef<EntryId | null>(null);
  const latest = useRef(log);
  latest.current = log;

  const bringWanted = () => {
    const target = wanted.current;
    const { entries, write } = latest.current;
    const taker =
      target &&
      entries.findLast(({ said }) => said.kind === 'taken-back' && said.target === target);
    if (!taker) return;
    wanted.current = null;
    last.current = null;
    void write({ kind: 'taken-back', target: taker.id });
  };
  useEffect(bringWanted, [log.entries.length]);

  return {
    undo() {
      const target = table.undoes?.id;
      took.current = null;
      if (!target || target === last.current) return refuse(shop);
      last.current = target;
      took.current = target;
      void log.write({ kind: 'taken-back', target });
    },
    bringBack() {
      wanted.current = took.current;
      took.current = null;
      bringWanted();
    },
  };
}
