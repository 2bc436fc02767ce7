import { useRef } from 'preact/hooks';
import type { Table } from '#calc/table.ts';
import { refuse } from '#live/answer.ts';
import { useShop } from '#live/shop.ts';
import type { SessionLog } from '#live/use-session-log.ts';
import type { EntryId } from '#model/entry.ts';

/** Takes back the newest line that stands. One that is being taken back, or none, is refused. */
export function useUndo(table: Table, log: SessionLog): () => void {
  const shop = useShop();
  const last = useRef<EntryId | null>(null);
  return () => {
    const target = table.undoes?.id;
    if (!target || target === last.current) return refuse(shop);
    last.current = target;
    void log.write({ kind: 'taken-back', target });
  };
}
