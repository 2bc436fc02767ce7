import type { Table } from '#calc/table.ts';
import { Fitted } from '#screens/table/Fitted.tsx';
import { PressKey } from '#screens/table/PressKey.tsx';
import { undoWords } from '#screens/table/undo-words.ts';
import styles from './Table.module.css';

/** Takes back the newest line that stands, and names it. */
export function UndoKey({ table, onUndo }: { table: Table; onUndo: () => void }) {
  const undoes = table.undoes;
  const [what, where] = undoes ? undoWords(table, undoes) : ['nothing yet', ''];
  return (
    <PressKey kind={styles.undo} onPress={onUndo}>
      <b>Undo</b>{' '}
      <span>
        {what}
        {where && (
          <>
            {' '}
            <Fitted name={where} />
          </>
        )}
      </span>
    </PressKey>
  );
}
