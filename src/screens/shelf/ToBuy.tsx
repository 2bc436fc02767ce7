import { useState } from 'preact/hooks';
import { useShop } from '#live/shop.ts';
import type { Units } from '#screens/amounts.ts';
import { Refusal } from '#screens/Refusal.tsx';
import { buyGroups, buyText, whyWords } from '#screens/shelf/buy-list.ts';
import { isTicked, type Jar } from '#screens/shelf/shelf-view.ts';
import { useOneAct } from '#screens/use-one-act.ts';
import { changeHead } from '#store/heads.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Acts } from '#ui/Acts.tsx';
import { Icon } from '#ui/Icon.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import styles from './ToBuy.module.css';

/** What is out or low, by kind: ticked off, copied or shared as plain text. */
export function ToBuy({ jars, units }: { jars: readonly Jar[]; units: Units }) {
  const { book, clock, share } = useShop();
  const { act, trouble } = useOneAct();
  const [answer, setAnswer] = useState('');
  const text = buyText(jars, units);

  function tick(jar: Jar) {
    const tickedAt = isTicked(jar) ? null : clock.now();
    void act(async () => {
      await changeHead(book, 'materials', jar.material.id, { tickedAt }, clock.now());
      return null;
    }, jar.material.id);
  }

  async function hand(way: 'copy' | 'share') {
    const isDone = await share[way](text);
    if (way === 'copy') setAnswer(isDone ? 'Copied.' : byHand);
  }

  return (
    <Sheet title={`To buy ${jars.length}`}>
      {buyGroups(jars).map(([kind, group]) => (
        <div key={kind}>
          <h3>{kind}</h3>
          <ul class={styles.list}>
            {group.map((jar) => (
              <li key={jar.material.id}>
                <button
                  type="button"
                  role="checkbox"
                  aria-checked={isTicked(jar)}
                  onClick={() => tick(jar)}
                >
                  <Icon of={isTicked(jar) ? 'good' : 'box'} />
                  <span>
                    <b>{jar.material.name}</b>
                    <small>{whyWords(jar, units)}</small>
                  </span>
                </button>
              </li>
            ))}
          </ul>
        </div>
      ))}
      <Acts>
        <ActKey onPress={() => void hand('copy')}>Copy the list</ActKey>
        {share.can() && <ActKey onPress={() => void hand('share')}>Share it</ActKey>}
      </Acts>
      <p role="status" class={styles.answer}>
        {answer}
      </p>
      {answer === byHand && <pre class={styles.text}>{text}</pre>}
      <Refusal says={trouble} />
    </Sheet>
  );
}

const byHand = 'This device did not copy it. Mark the text and copy it by hand.';
