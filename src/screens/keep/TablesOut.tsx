import { useState } from 'preact/hooks';
import { dayOf } from '#calc/days.ts';
import { confirm, refuse } from '#live/answer.ts';
import { useShop } from '#live/shop.ts';
import { Refusal } from '#screens/Refusal.tsx';
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
  const { book, clock, files } = shop;
  const [dialect, setDialect] = useState(0);
  const [said, setSaid] = useState('');
  const [trouble, setTrouble] = useState('');

  async function takeOut(kind: OutKind) {
    setTrouble('');
    try {
      const [, how] = dialects[dialect] ?? dialects[0] ?? [];
      if (!how) return;
      const text = await outText(book, kind, how);
      const name = `warmshot-${kind}-${dayOf(clock.now(), clock.zone())}.csv`;
      const file = new File([text], name, { type: 'text/csv' });
      if (!files.canShare(file)) files.save(file);
      else if (!(await files.share(file))) return;
      setSaid(`${name} is out.`);
      confirm(shop);
    } catch {
      setTrouble('This phone did not take the file.');
      refuse(shop);
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
      </ul>
      {said && <p role="status">{said}</p>}
      <Refusal says={trouble} />
    </Sheet>
  );
}
