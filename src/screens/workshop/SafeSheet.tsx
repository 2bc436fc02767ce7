import { tableOf } from '#calc/table.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import { countWords } from '#screens/words.ts';
import { SafetyLine } from '#screens/workshop/SafetyLine.tsx';
import { SecondCopy } from '#screens/workshop/SecondCopy.tsx';
import { TestCopy } from '#screens/workshop/TestCopy.tsx';
import { allColumns } from '#store/history.ts';
import { runningEntries } from '#store/sessions.ts';
import { Icon } from '#ui/Icon.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import styles from './Rows.module.css';

/** What is stored on this phone, counted now. */
export function SafeSheet() {
  const { book, leaveDemo } = useShop();
  const held = useLive(
    async () => {
      const columns = await allColumns(book);
      const running = await runningEntries(book);
      const ended = columns.reduce((sum, session) => sum + session.mould.length, 0);
      return {
        sessions: columns.length + (running ? 1 : 0),
        shots: ended + (running ? tableOf(running).shots.length : 0),
      };
    },
    ['columns', 'entries'],
    'held',
  );
  if (!held) return null;
  return (
    <Sheet title="Kept safe">
      <p class={styles.fact}>
        <Icon of="good" />
        <span>
          Saved on this phone: {countWords(held.sessions, 'session')},{' '}
          {countWords(held.shots, 'shot')}.
        </span>
      </p>
      <SafetyLine />
      {leaveDemo ? <p>Made-up numbers need no second copy: the app has them.</p> : <SecondCopy />}
      <TestCopy />
      <p>
        Nothing leaves the phone. Clear this site's data or lose the phone, and the log is lost.
      </p>
    </Sheet>
  );
}
