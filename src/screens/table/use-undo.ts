import { useRef } from 'preact/hooks';
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
  const latest = useRef(log);
  latest.current = log;
  /** What the newest press of Undo took back; null: nothing. */
  const took = useRef<EntryId | null>(null);
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
      const taker = latest.current.entries.findLast(
        ({ said }) => said.kind === 'taken-back' && said.target === took.current,
      );
      took.current = null;
      if (!taker) return;
      last.current = null;
      void latest.current.write({ kind: 'taken-back', target: taker.id });
    },
  };
}
