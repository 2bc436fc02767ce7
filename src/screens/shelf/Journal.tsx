import { useState } from 'preact/hooks';
import { useShop } from '#live/shop.ts';
import type { Movement } from '#model/movement.ts';
import type { Units } from '#screens/amounts.ts';
import { Refusal } from '#screens/Refusal.tsx';
import { type JournalRow, journalRows } from '#screens/shelf/journal-view.ts';
import type { Jar } from '#screens/shelf/shelf-view.ts';
import { useOneAct } from '#screens/use-one-act.ts';
import { countWords } from '#screens/words.ts';
import { takeBackMovement } from '#store/stock.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import styles from './Journal.module.css';

interface Props {
  jar: Jar;
  /** All of the material, those taken back too. */
  movements: readonly Movement[];
  units: Units;
}

const shownFirst = 12;

/** Everything that moved a material, newest first. A line that is taken back stays, and can come again. */
export function Journal({ jar, movements, units }: Props) {
  const { book, clock, touch } = useShop();
  const { act, trouble } = useOneAct();
  const [isAll, setIsAll] = useState(false);
  const rows = journalRows(jar, movements, units, { now: clock.now(), zone: clock.zone() });
  const shown = isAll ? rows : rows.slice(0, shownFirst);

  function takeBack(target: Movement) {
    void act(async () => {
      await takeBackMovement(book, target, clock.now());
      touch.confirm();
      return null;
    }, target.id);
  }

  return (
    <Sheet title="Journal" aside={countWords(rows.length, 'line')} place="beside">
      {rows.length === 0 && <p>Nothing yet. Write down what you bought, or count what is there.</p>}
      <ul class={styles.lines}>
        {shown.map((row) => (
          <Line key={row.key} row={row} onTakeBack={takeBack} />
        ))}
      </ul>
      {rows.length > shown.length && (
        <ActKey onPress={() => setIsAll(true)}>All {rows.length} lines</ActKey>
      )}
      <Refusal says={trouble} />
    </Sheet>
  );
}

function Line({ row, onTakeBack }: { row: JournalRow; onTakeBack: (target: Movement) => void }) {
  const { date, title, detail, after, note, target, isTakenBack, href } = row;
  return (
    <li data-gone={isTakenBack || undefined}>
      <div>
        <small>{date}</small>
        <b>{title}</b>
        {[after, detail, note].map((words) => words && <small key={words}>{words}</small>)}
        {isTakenBack && <small>Taken back, counts no more</small>}
      </div>
      {href && (
        <ActKey href={href} label={`Session of ${date}`}>
          Session
        </ActKey>
      )}
      {target && (
        <ActKey
          label={`${isTakenBack ? 'Bring back' : 'Take back'}: ${title}, ${date}`}
          onPress={() => onTakeBack(target)}
        >
          {isTakenBack ? 'Bring back' : 'Take back'}
        </ActKey>
      )}
    </li>
  );
}
