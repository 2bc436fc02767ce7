import { dayOf } from '#calc/days.ts';
import { useShop } from '#live/shop.ts';
import { differenceWords, kindWord, wayWords } from '#screens/keep/what-words.ts';
import { countWords, dateWords } from '#screens/words.ts';
import { type Coming, type Difference, isNothing } from '#store/copy/difference.ts';
import styles from './Keep.module.css';

/** What a file brings or brought: in a sentence or two, then thing by thing. */
export function ComingList(props: { difference: Difference; tense: 'will' | 'did' }) {
  const { difference, tense } = props;
  const { clock } = useShop();
  const today = dayOf(clock.now(), clock.zone());
  const { list, faults } = difference;
  return (
    <>
      {isNothing(difference) && faults.length === 0 && (
        <p role="status">Nothing new: all of it is here already.</p>
      )}
      {differenceWords(difference, tense).map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
      {list.length > 0 && (
        <details class={styles.list}>
          <summary>Thing by thing</summary>
          <ul>
            {list.map((coming, index) => (
              <li key={index}>
                <b>{comingWords(coming, today)}</b>
                <small>{wayWords[coming.what]}</small>
              </li>
            ))}
          </ul>
        </details>
      )}
      {faults.length > 0 && (
        <details class={styles.list}>
          <summary>{countWords(faults.length, 'record')} left out</summary>
          <ul>
            {faults.slice(0, 300).map(({ table, line, reason }) => (
              <li key={line}>
                <b>
                  {kindWord(table)}: {reason}
                </b>
                <small>line {line}</small>
              </li>
            ))}
          </ul>
        </details>
      )}
    </>
  );
}

function comingWords({ table, name, session }: Coming, today: string): string {
  const kind = kindWord(table);
  if (!session) return name ? `${kind}: ${name}` : kind;
  const day = dateWords(dayOf(session.startedAt, session.zone), today);
  const shots = countWords(session.shots, 'shot');
  return `${kind}: ${day}, ${shots}, ${countWords(session.newLines, 'new line')}`;
}
