import { useEffect, useRef, useState } from 'preact/hooks';
import { dayOf } from '#calc/days.ts';
import { useShop } from '#live/shop.ts';
import { useHandOver } from '#screens/keep/use-hand-over.tsx';
import { troubleWords } from '#screens/trouble-words.ts';
import { Work } from '#screens/Work.tsx';
import { readableFile } from '#store/copy/readable.ts';
import { type OutKind, outText } from '#store/csv/out.ts';
import type { Dialect } from '#store/csv/text.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Acts } from '#ui/Acts.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import styles from './Keep.module.css';

const tables: readonly [OutKind, string, string][] = [
  ['shots', 'Shots', 'A line a shot, every cavity.'],
  ['sessions', 'Sessions', 'A line a session, good and bad.'],
  ['mixes', 'Mixes', 'A line for each thing that goes in.'],
  ['stock', 'Stock', 'A line for each stock line.'],
];

const dialects: readonly [string, Dialect][] = [
  ['1.5', { separator: ',', decimal: '.' }],
  ['1,5', { separator: ';', decimal: ',' }],
];

/** The tables that go out, one file each. */
export function TablesOut() {
  const shop = useShop();
  const { book, clock, version } = shop;
  const handOver = useHandOver();
  const [dialect, setDialect] = useState(0);
  const [share, setShare] = useState<number | null>(null);
  const stop = useRef<AbortController | null>(null);
  useEffect(() => () => stop.current?.abort(), []);

  async function takeOut(kind: OutKind) {
    try {
      const [, how] = dialects[dialect] ?? dialects[0] ?? [];
      if (!how) return;
      const text = await outText(book, kind, how);
      const name = `warmshot-${kind}-${dayOf(clock.now(), clock.zone())}.csv`;
      handOver.give(new File([text], name, { type: 'text/csv' }));
    } catch {
      handOver.failed('That did not work. Free some space and press again.');
    }
  }

  async function takeAllOut() {
    if (stop.current) return;
    const controller = new AbortController();
    stop.current = controller;
    setShare(0);
    try {
      const at = clock.now();
      const watch = { onShare: setShare, signal: controller.signal };
      const text = await readableFile(book, { at, version }, watch);
      const name = `warmshot-${dayOf(at, clock.zone())}.json`;
      handOver.give(new File([text], name, { type: 'application/json' }));
    } catch (error) {
      handOver.failed(troubleWords(error));
    } finally {
      stop.current = null;
      setShare(null);
    }
  }

  return (
    <Sheet title="Out">
      <p>How your spreadsheet writes one and a half:</p>
      <Acts label="Figures">
        {dialects.map(([word], index) => (
          <ActKey key={word} isPressed={dialect === index} onPress={() => setDialect(index)}>
            {word}
          </ActKey>
        ))}
      </Acts>
      <ul class={styles.rows}>
        {tables.map(([kind, word, what]) => (
          <li key={kind}>
            <div>
              <h3>{word}</h3>
              <p>{what}</p>
            </div>
            <ActKey label={`Take out ${word.toLowerCase()}`} onPress={() => void takeOut(kind)}>
              Take out
            </ActKey>
          </li>
        ))}
        <li>
          <div>
            <h3>Everything as JSON</h3>
            <p>Every record with every field, pictures too. To read, not to bring in again.</p>
          </div>
          <ActKey label="Take out everything as JSON" onPress={() => void takeAllOut()}>
            Take out
          </ActKey>
        </li>
      </ul>
      {share !== null && (
        <Work title="Writing everything" share={share} onStop={() => stop.current?.abort()} />
      )}
      {handOver.part}
    </Sheet>
  );
}
