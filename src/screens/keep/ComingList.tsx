import { dayOf } from '#calc/days.ts';
import { useShop } from '#live/shop.ts';
import { ComingThing } from '#screens/keep/ComingThing.tsx';
import { useSettings } from '#screens/use-settings.ts';
import { differenceWords, kindWord } from '#screens/what-words.ts';
import { countWords } from '#screens/words.ts';
import { type Difference, isNothing, unlisted } from '#store/copy/difference.ts';
import styles from './Keep.module.css';

/** So many faults are written out. */
const shownFaults = 300;

/** What a file brings or brought: in a sentence or two, then thing by thing and event by event. */
export function ComingList(props: { difference: Difference; tense: 'will' | 'did' }) {
  const { difference, tense } = props;
  const { clock } = useShop();
  const { settings } = useSettings();
  const { list, faults } = difference;
  const zone = clock.zone();
  const reader = settings && { ...settings, zone, today: dayOf(clock.now(), zone) };
  const more = unlisted(difference);
  return (
    <>
      {isNothing(difference) && faults.length === 0 && (
        <p role="status">Nothing new: all of it is here already.</p>
      )}
      {differenceWords(difference, tense).map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
      {list.length > 0 && reader && (
        <details class={styles.list}>
          <summary>Thing by thing</summary>
          <ul>
            {list.map((coming, index) => (
              <ComingThing key={index} coming={coming} reader={reader} />
            ))}
          </ul>
          {more > 0 && <p>And {more} more.</p>}
        </details>
      )}
      {faults.length > 0 && (
        <details class={styles.list}>
          <summary>{countWords(faults.length, 'record')} left out</summary>
          <ul>
            {faults.slice(0, shownFaults).map(({ table, line, reason }) => (
              <li key={line}>
                <b>
                  {kindWord(table)}: {reason}
                </b>
                <small>line {line}</small>
              </li>
            ))}
          </ul>
          {faults.length > shownFaults && <p>And {faults.length - shownFaults} more.</p>}
        </details>
      )}
    </>
  );
}
