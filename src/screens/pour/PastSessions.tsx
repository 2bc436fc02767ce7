import type { Day } from '#calc/day-count.ts';
import { PastPage } from '#screens/pour/PastPage.tsx';
import { SessionRows } from '#screens/pour/SessionRows.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import styles from './PastSessions.module.css';

/** The sessions before the last poured day, newest first. */
export function PastSessions({ lastDay, today }: { lastDay: Day; today: Day }) {
  return (
    <Sheet title="Past sessions" aside="good of checked" place="beside">
      <SessionRows>
        <PastPage before={null} lastDay={lastDay} today={today} />
      </SessionRows>
      <p class={styles.legend}>
        Dot: what happened. Bar: what to expect on a day like it. Line: 50 to 100.
      </p>
    </Sheet>
  );
}
