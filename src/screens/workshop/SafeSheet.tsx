import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import { countWords } from '#screens/words.ts';
import { allColumns } from '#store/history.ts';
import { Icon } from '#ui/Icon.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import styles from './Rows.module.css';

/** What is stored on this phone, counted now. */
export function SafeSheet() {
  const { book } = useShop();
  const held = useLive(
    async () => {
      const columns = await allColumns(book);
      return {
        sessions: columns.length,
        shots: columns.reduce((sum, session) => sum + session.mould.length, 0),
      };
    },
    ['columns'],
    'held',
  );
  if (!held) return null;
  return (
    <Sheet>
      <p class={styles.fact}>
        <Icon of="good" />
        <span>
          Saved on this phone: {countWords(held.sessions, 'session')},{' '}
          {countWords(held.shots, 'shot')}.
        </span>
      </p>
      <p>
        Nothing leaves the phone. Whoever clears the data of this site or loses the phone loses the
        log.
      </p>
    </Sheet>
  );
}
