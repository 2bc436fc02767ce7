import type { Carry } from '#model/settings.ts';
import type { CarriedRow, Field } from '#screens/start/carried.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import styles from './CarriedSheet.module.css';

interface Props {
  title: string;
  rows: readonly CarriedRow[];
  /** Null: something else was chosen by hand. */
  carryOf: (row: CarriedRow) => Carry | null;
  onCarry: (field: Field, carry: Carry) => void;
}

const words: Record<Carry, string> = {
  'as-then': 'As then',
  'left-out': 'Leave out',
  asked: 'Ask me',
};

/** What an old evening brings along, thing by thing: as it was, left out, or asked for at the table. */
export function CarriedSheet({ title, rows, carryOf, onCarry }: Props) {
  return (
    <Sheet title={title}>
      <p>Times, counts and results begin anew.</p>
      <ul class={styles.rows}>
        {rows.map((row) => {
          const now = carryOf(row);
          return (
            <li key={row.field}>
              <h3>{row.name}</h3>
              <p data-gone={now !== 'as-then' || undefined}>{row.was}</p>
              <div class={styles.keys} role="group" aria-label={row.name}>
                {(['as-then', 'left-out', 'asked'] as const).map(
                  (carry) =>
                    (carry !== 'asked' || row.asks !== null) && (
                      <ActKey
                        key={carry}
                        isPressed={now === carry}
                        label={`${words[carry]}: ${row.name}`}
                        onPress={() => onCarry(row.field, carry)}
                      >
                        {words[carry]}
                      </ActKey>
                    ),
                )}
              </div>
              {now !== 'as-then' && <p class={styles.now}>{nowWords(row, now)}</p>}
            </li>
          );
        })}
      </ul>
    </Sheet>
  );
}

function nowWords({ without, asks }: CarriedRow, carry: Carry | null): string {
  if (carry === null) return 'As you chose below.';
  return (carry === 'asked' ? asks : without) ?? '';
}
