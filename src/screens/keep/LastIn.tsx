import { useState } from 'preact/hooks';
import { dayOf } from '#calc/days.ts';
import { confirm } from '#live/answer.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import { ageWords } from '#screens/copy-words.ts';
import { ComingList } from '#screens/keep/ComingList.tsx';
import { useHandOver } from '#screens/keep/use-hand-over.tsx';
import { Refusal } from '#screens/Refusal.tsx';
import { keptAside } from '#store/copy/aside.ts';
import { lastBroughtIn, undoBroughtIn } from '#store/copy/bring.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import styles from './Keep.module.css';

/** The last file that came in, with the way back. */
export function LastIn({ onUndone }: { onUndone: () => void }) {
  const shop = useShop();
  const { book, clock } = shop;
  const handOver = useHandOver();
  const [trouble, setTrouble] = useState('');
  const [isOpen, setOpen] = useState(false);
  const last = useLive(
    async () => (await lastBroughtIn(book)) ?? null,
    ['meta', 'entries', 'sealed', 'moulds'],
    'last',
  );

  async function undo() {
    try {
      const became = await undoBroughtIn(book);
      if (became !== 'undone') return setTrouble('Something was written since. It stays.');
      confirm(shop);
      onUndone();
    } catch {
      setTrouble('Not undone. Free some space and press again.');
    }
  }

  async function saveBefore(at: number) {
    const bytes = await keptAside(book, 'before');
    const name = `warmshot-${dayOf(at, clock.zone())}-before.warmshot`;
    if (bytes) handOver.give(new File([bytes], name, { type: 'application/octet-stream' }));
  }

  if (!last) return null;
  const { name, at, canUndo, difference } = last;
  return (
    <Sheet title="Came in last" aside={ageWords(at, clock.now(), clock.zone())}>
      <p>{name}</p>
      <details class={styles.list} onToggle={({ currentTarget }) => setOpen(currentTarget.open)}>
        <summary>What came in</summary>
        {isOpen && <ComingList difference={difference} tense="did" />}
      </details>
      {canUndo ? (
        <ActKey onPress={() => void undo()}>Undo this</ActKey>
      ) : (
        <p>You have logged since, so it cannot be undone alone. The copy from before is kept.</p>
      )}
      <ActKey onPress={() => void saveBefore(at)}>Save the copy from before</ActKey>
      <Refusal says={trouble} />
      {handOver.part}
    </Sheet>
  );
}
