import type { Ready } from '#screens/keep/use-copying.ts';
import { heldWords, kindWord } from '#screens/keep/what-words.ts';
import { countWords } from '#screens/words.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import styles from './Keep.module.css';

/** A copy that was read back and found good, and the ways out of the phone. */
export function CopyReady(props: { ready: Ready; onHandOver: (how: 'share' | 'save') => void }) {
  const { ready, onHandOver } = props;
  const { copy, file, canShare, isOut } = ready;
  const { faults, counts } = copy;
  return (
    <Sheet title="The copy is good" aside={sizeWords(file.size)}>
      <p role="status">It was opened again and read to its end. It holds {heldWords(counts)}.</p>
      {faults.length > 0 && (
        <>
          <p>
            {countWords(faults.length, 'record')} in it cannot be brought in again as{' '}
            {faults.length === 1 ? 'it is' : 'they are'}:
          </p>
          <ul class={styles.list}>
            {faults.slice(0, 20).map(({ table, line, reason }) => (
              <li key={line}>
                {kindWord(table)}: {reason}
              </li>
            ))}
          </ul>
        </>
      )}
      <p>{file.name}</p>
      {canShare && (
        <ActKey size="main" onPress={() => onHandOver('share')}>
          Share it
        </ActKey>
      )}
      <ActKey {...(canShare ? {} : { size: 'main' as const })} onPress={() => onHandOver('save')}>
        Save it
      </ActKey>
      {isOut && (
        <p role="status">
          Handed over. Keep it somewhere else than on this phone: a computer, a stick, a second
          phone.
        </p>
      )}
    </Sheet>
  );
}

function sizeWords(bytes: number): string {
  if (bytes < 1_000_000) return `${Math.max(1, Math.round(bytes / 1_000))} kB`;
  return `${(bytes / 1_000_000).toFixed(1)} MB`;
}
