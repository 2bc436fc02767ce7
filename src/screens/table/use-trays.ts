import { type Trays, trayMoulds, traysNow } from '#calc/parts.ts';
import type { Table } from '#calc/table.ts';
import { trayAfter } from '#calc/tray.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import { allColumns } from '#store/history.ts';

/** The trays of parts that matter at this table; null: not known yet. */
export function useTrays(table: Table): Trays | null {
  const { book } = useShop();
  const moulds = trayMoulds(table);
  const before = useLive(
    async () => {
      // Without parts on the table, the history is not read.
      const history = moulds.length > 0 ? await allColumns(book) : [];
      return new Map(moulds.map((mouldId) => [mouldId, trayAfter(history, mouldId)]));
    },
    ['columns'],
    moulds.join(),
  );
  return before ? traysNow(table, before) : null;
}
