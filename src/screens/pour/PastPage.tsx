import { useState } from 'preact/hooks';
import type { Columns } from '#calc/columns.ts';
import type { Day } from '#calc/day-count.ts';
import { dayOf } from '#calc/days.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import { SessionRow } from '#screens/pour/SessionRow.tsx';
import { dateWords } from '#screens/words.ts';
import { columnsBackFrom } from '#store/history.ts';
import { ActKey } from '#ui/ActKey.tsx';
import styles from './PastSessions.module.css';

const perPage = 10;

interface Props {
  /** The session that the page before ends with; null: the first page. */
  before: Columns | null;
  /** The day that has a sheet of its own. */
  lastDay: Day;
  today: Day;
}

/** Ten sessions and the key to the next ten. */
export function PastPage({ before, lastDay, today }: Props) {
  const { book } = useShop();
  const [hasMore, setHasMore] = useState(false);
  const found = useLive(
    () => columnsBackFrom(book, before, perPage + 1),
    ['columns'],
    before?.sessionId ?? 'newest',
  );
  if (!found) return null;
  const page = found.slice(0, perPage);
  const last = page.at(-1);
  return (
    <>
      {page
        .map((session) => ({ session, day: dayOf(session.startedAt, session.zone) }))
        .filter(({ day }) => day !== lastDay)
        .map(({ session, day }) => (
          <SessionRow key={session.sessionId} session={session} title={dateWords(day, today)} />
        ))}
      {found.length > perPage &&
        last &&
        (hasMore ? (
          <PastPage before={last} lastDay={lastDay} today={today} />
        ) : (
          <li class={styles.more}>
            <ActKey onPress={() => setHasMore(true)}>Show more</ActKey>
          </li>
        ))}
    </>
  );
}
