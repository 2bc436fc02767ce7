import type { Table } from '#calc/table.ts';
import { useShop } from '#live/shop.ts';
import type { EntryId } from '#model/entry.ts';
import { shortened } from '#screens/table/PotKeys.tsx';
import { PressKey } from '#screens/table/PressKey.tsx';
import { undoWords } from '#screens/table/undo-words.ts';
import styles from './Table.module.css';

/** Takes back the newest line that stands, and names it. */
export function UndoKey({ table, onUndo }: { table: Table; onUndo: (target: EntryId) => void }) {
  const { touch } = useShop();
  const undoes = table.undoes;
  const [what, where] = undoes ? undoWords(table, undoes) : ['nothing yet', ''];
  return (
    <PressKey kind={styles.undo} onPress={() => (undoes ? onUndo(undoes.id) : touch.refuse())}>
      <b>Undo</b>{' '}
      <span>
        {what}
        {where && (
          <>
            {' '}
            <br />
            {shortened(where, 10)}
          </>
        )}
      </span>
    </PressKey>
  );
}
