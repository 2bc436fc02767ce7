import type { Table } from '#calc/table.ts';
import type { PotId, Said } from '#model/entry.ts';
import { NameKey } from '#screens/table/NameKey.tsx';
import { nextPots } from '#screens/table/next-pots.ts';
import { PressKey } from '#screens/table/PressKey.tsx';
import styles from './Table.module.css';

interface Props {
  table: Table;
  onSaid: (said: Said) => void;
  /** Leads to what can be done with one pot. */
  onPot: (potId: PotId) => void;
}

/** Three pots or more: one press says what is poured next, A and B together where both are sides. */
export function PotsPanel({ table, onSaid, onPot }: Props) {
  const { potsInUse } = table;
  const next = nextPots(table);
  const [first] = next;
  const sides = potsInUse.filter(({ slot }) => slot <= 1);
  const choose = (potIds: PotId[]) => onSaid({ kind: 'pot-chosen', potIds });
  return (
    <section class={styles.panel} aria-label="Pots">
      <div class={styles.pairs} role="group" aria-label="Pour next">
        {potsInUse.map((pot, index) => (
          <NameKey
            key={pot.id}
            name={pot.name}
            before={`${'ABCDEF'.charAt(index)} `}
            says=", pour next"
            isPressed={next.length === 1 && pot === first}
            onPress={() => choose([pot.id])}
          />
        ))}
      </div>
      <div class={styles.keyRow}>
        {sides.length > 1 && (
          <PressKey isPressed={next.length > 1} onPress={() => choose(sides.map(({ id }) => id))}>
            Both sides
          </PressKey>
        )}
        {first && <NameKey name={first.name} before="About " onPress={() => onPot(first.id)} />}
      </div>
    </section>
  );
}
