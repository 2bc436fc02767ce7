import { useState } from 'preact/hooks';
import type { Table } from '#calc/table.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import type { Said } from '#model/entry.ts';
import type { Injector } from '#model/gear.ts';
import { Fitted } from '#screens/table/Fitted.tsx';
import { PressKey } from '#screens/table/PressKey.tsx';
import { headsOf } from '#store/heads.ts';
import { takenInjector } from '#store/start.ts';
import styles from './Table.module.css';

interface Props {
  table: Table;
  onSaid: (said: Said) => void;
}

/** Three keys abreast fit every glass. */
const abreast = 3;

/** The shop's injectors: one press takes another, a press on the one in use puts it away. */
export function InjectorKeys({ table, onSaid }: Props) {
  const { book } = useShop();
  const injectors = useLive(() => headsOf(book, 'injectors'), ['injectors'], 'all') ?? [];
  const [page, setPage] = useState(0);
  if (injectors.length === 0) return null;
  const used = table.injector?.injectorId;
  const perPage = injectors.length > abreast ? abreast - 1 : abreast;
  const pages = Math.ceil(injectors.length / perPage);
  const shown = injectors.slice((page % pages) * perPage, ((page % pages) + 1) * perPage);
  const take = (injector: Injector) =>
    onSaid(takenInjector(injector.id === used ? null : injector));
  return (
    <div class={`${styles.keyRow} ${styles.injectors}`} role="group" aria-label="Injector">
      {shown.map((injector) => (
        <PressKey key={injector.id} isPressed={injector.id === used} onPress={() => take(injector)}>
          <span class={styles.plain}>Injector</span> <Fitted name={injector.name} />
        </PressKey>
      ))}
      {pages > 1 && <PressKey onPress={() => setPage(page + 1)}>More</PressKey>}
    </div>
  );
}
