import type { Table } from '#calc/table.ts';
import type { PotId, Said } from '#model/entry.ts';
import { nextPots } from '#screens/table/next-pots.ts';
import { shortened } from '#screens/table/PotKeys.tsx';
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
          <PressKey
            key={pot.id}
            isPressed={next.length === 1 && pot === first}
            onPress={() => choose([pot.id])}
            label={`${'ABCDEF'.charAt(index)} ${shortened(pot.name, 9)}, pour next: ${pot.name}`}
          >
            {'ABCDEF'.charAt(index)} {shortened(pot.name, 9)}
          </PressKey>
        ))}
      </div>
      <div class={styles.keyRow}>
        {sides.length > 1 && (
          <PressKey isPressed={next.length > 1} onPress={() => choose(sides.map(({ id }) => id))}>
            Both sides
          </PressKey>
        )}
        {first && (
          <PressKey
            onPress={() => onPot(first.id)}
            label={`About ${shortened(first.name, 9)}, ${first.name}`}
          >
            About {shortened(first.name, 9)}
          </PressKey>
        )}
      </div>
    </section>
  );
}
