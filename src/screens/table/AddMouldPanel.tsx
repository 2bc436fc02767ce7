import { useState } from 'preact/hooks';
import { type Table, waitingShot } from '#calc/table.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import type { Said } from '#model/entry.ts';
import type { Mould } from '#model/mould.ts';
import { useIsLarge } from '#screens/table/key-size.ts';
import { NameKey } from '#screens/table/NameKey.tsx';
import { PressKey } from '#screens/table/PressKey.tsx';
import { headsOf } from '#store/heads.ts';
import { lineUpOf } from '#store/start.ts';
import styles from './Table.module.css';

interface Props {
  table: Table;
  onSaid: (said: Said) => void;
  onBack: () => void;
}

/** Moulds that are not on the table: one press puts one on, in place of an empty one when three are there. */
export function AddMouldPanel({ table, onSaid, onBack }: Props) {
  const { book } = useShop();
  const moulds = useLive(() => headsOf(book, 'moulds'), ['moulds'], 'all');
  const [page, setPage] = useState(0);
  const perPage = useIsLarge() ? 4 : 6;
  const onTable = table.seats.map(({ mould }) => mould.mouldId);
  const others = (moulds ?? []).filter((mould) => !onTable.includes(mould.id));
  const leaves = table.seats.length < 3 ? null : table.seats.find((seat) => !waitingShot(seat));
  const isFull = leaves === undefined;

  async function put(mould: Mould) {
    const stay = table.seats.filter((seat) => seat !== leaves).map((seat) => seat.mould);
    const next = await lineUpOf(book, [mould.id], null);
    onSaid({ ...next, moulds: [...stay, ...next.moulds], injector: table.injector });
    onBack();
  }

  return (
    <section class={styles.panel} aria-label="Add a mould">
      <p class={styles.why}>{sayWords(others.length, isFull, leaves?.mould.name)}</p>
      <div class={styles.keyGrid} role="group" aria-label="Moulds">
        {!isFull &&
          others
            .slice(page * perPage, (page + 1) * perPage)
            .map((mould) => (
              <NameKey
                key={mould.id}
                name={mould.name}
                verb="Add "
                onPress={() => void put(mould)}
              />
            ))}
      </div>
      <div class={styles.keyRow}>
        <PressKey onPress={onBack}>Back</PressKey>
        {others.length > perPage && (
          <PressKey onPress={() => setPage((page + 1) % Math.ceil(others.length / perPage))}>
            More
          </PressKey>
        )}
      </div>
    </section>
  );
}

function sayWords(others: number, isFull: boolean, leaves: string | undefined): string {
  if (others === 0) return 'Every mould is on the table. Add one under Moulds.';
  if (isFull) return 'Three moulds are full. Open one first.';
  return leaves ? `Takes the place of ${leaves}.` : 'Which mould comes to the table?';
}
