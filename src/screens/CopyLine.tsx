import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import { hrefTo } from '#screens/routes.ts';
import { countWords } from '#screens/words.ts';
import { sinceCopy } from '#store/copy/since.ts';
import { demoName } from '#store/names.ts';
import styles from './CopyLine.module.css';

/** So many sessions may be on one phone only before a line says so. */
const quietSessions = 3;

/** One quiet line when much is on this phone only; nothing otherwise. */
export function CopyLine() {
  const { book } = useShop();
  const since = useLive(() => sinceCopy(book), ['columns', 'meta'], 'since');
  // The made-up shop is nobody's to lose.
  if (!since || book.db.name === demoName || since.sessions < quietSessions) return null;
  return (
    <a class={styles.line} href={hrefTo({ at: 'keep' })}>
      {countWords(since.sessions, 'session')} only on this phone. Take a copy
    </a>
  );
}
