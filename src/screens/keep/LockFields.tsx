import { WordsField } from '#screens/WordsField.tsx';
import { ActKey } from '#ui/ActKey.tsx';
import { Acts } from '#ui/Acts.tsx';
import styles from './Keep.module.css';

/** How a copy is to be locked, as it is typed. */
export interface TypedLock {
  kind: 'open' | 'six' | 'own';
  six: string;
  own: string;
}

interface Props {
  lock: TypedLock;
  error: string;
  onChange: (part: Partial<TypedLock>) => void;
  onDrawAnew: () => void;
}

const kinds = [
  ['open', 'No lock'],
  ['six', 'Six words'],
  ['own', 'My words'],
] as const;

/** The choice of a lock, and the words that open it again. */
export function LockFields({ lock, error, onChange, onDrawAnew }: Props) {
  return (
    <>
      <Acts label="Lock">
        {kinds.map(([kind, word]) => (
          <ActKey key={kind} isPressed={lock.kind === kind} onPress={() => onChange({ kind })}>
            {word}
          </ActKey>
        ))}
      </Acts>
      {lock.kind === 'open' && <p>Whoever gets the file can read it, mixes too.</p>}
      {lock.kind === 'six' && (
        <>
          <p class={styles.words}>{lock.six}</p>
          <p>
            Write them on paper. Without them nobody opens the copy, and neither do we. They are
            drawn by chance, each from 2,048 words: 66 bits, too many to try.
          </p>
          <ActKey onPress={onDrawAnew}>Other words</ActKey>
        </>
      )}
      {lock.kind === 'own' && (
        <WordsField
          label="Your words"
          hint="12 letters or more. A lock is only as good as its words: a saying or a name is soon found. Without them nobody opens the copy."
          error={error}
          words={lock.own}
          onInput={(own) => onChange({ own })}
        />
      )}
    </>
  );
}
