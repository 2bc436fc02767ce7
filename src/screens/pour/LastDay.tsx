import type { Columns } from '#calc/columns.ts';
import type { Day } from '#calc/day-count.ts';
import { totalOf, yieldsByMould } from '#calc/yields.ts';
import { MouldLane } from '#screens/pour/MouldLane.tsx';
import { hrefTo } from '#screens/routes.ts';
import { dayWords, spanWords } from '#screens/words.ts';
import { apartWords, worstWords } from '#screens/yield-words.ts';
import { Figure } from '#ui/Figure.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import styles from './LastDay.module.css';

interface Props {
  day: Day;
  today: Day;
  columns: readonly Columns[];
}

/** From so many moulds on the lanes go without numbers: the keys below have to be in sight. */
const crowd = 3;

/** The last day that was poured on; the whole sheet leads to its page. */
export function LastDay({ day, today, columns }: Props) {
  const yields = yieldsByMould(columns);
  const tally = totalOf(yields);
  const spanMs = columns.reduce((sum, { startedAt, endedAt }) => sum + endedAt - startedAt, 0);
  const worst = worstWords(yields);
  return (
    <div class={styles.whole}>
      <Sheet>
        <div class={styles.head}>
          <h2>
            <a href={hrefTo({ at: 'day', day })}>{dayWords(day, today)}</a>
          </h2>
          <span>{spanWords(spanMs)}</span>
        </div>
        {tally.shots === 0 ? (
          <p>No shots.</p>
        ) : (
          <>
            <Figure count={tally.good} rest={`of ${tally.checked} good`} />
            {yields.map((own) => (
              <MouldLane key={own.mouldId} own={own} height="low" isBare={yields.length >= crowd} />
            ))}
            <p>{[apartWords(columns, tally), worst].filter(Boolean).join(' ')}</p>
          </>
        )}
      </Sheet>
    </div>
  );
}
