import type { Columns } from '#calc/columns.ts';
import { gapsIn } from '#calc/gaps.ts';
import { hrefTo } from '#screens/routes.ts';
import { countWords } from '#screens/words.ts';
import styles from './YieldsScreen.module.css';

/** Older baits are in bags by now: nobody can look at them any more. */
const lately = 20;

/** One quiet line of what nobody has looked at yet; it leads to where that is. */
export function NotLookedAt({ columns }: { columns: readonly Columns[] }) {
  const gaps = gapsIn(columns.slice(-lately));
  if (!gaps) return null;
  const { baits, sessions, newest } = gaps;
  const where = sessions > 1 ? ` in ${sessions} of the last sessions` : '';
  return (
    <p class={styles.gaps}>
      <a href={hrefTo({ at: 'session', sessionId: newest })}>
        {countWords(baits, 'bait')} not looked at yet{where}
      </a>
    </p>
  );
}
