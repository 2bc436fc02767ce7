import type { Ready } from '#screens/use-copying.ts';
import { heldWords, kindWord } from '#screens/what-words.ts';
import { countWords } from '#screens/words.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Acts } from '#ui/Acts.tsx';
import { Fold } from '#ui/Fold.tsx';
import { Sheet } from '#ui/Sheet.tsx';

interface Props {
  ready: Ready;
  onHandOver: (how: 'share' | 'save') => void;
  /** The person looked whether the file is where the browser puts it. */
  onFound: (isThere: boolean) => void;
}

/** A copy that was read back and found good, and the ways out of the phone. */
export function CopyReady({ ready, onHandOver, onFound }: Props) {
  const { copy, file, canShare, out } = ready;
  const { faults, counts } = copy;
  return (
    <Sheet title="The copy is good" aside={sizeWords(file.size)}>
      <p role="status">It was opened again and read to its end. It holds {heldWords(counts)}.</p>
      {faults.length > 0 && (
        <Fold
          says={`${countWords(faults.length, 'record')} in it cannot be brought in again as ${
            faults.length === 1 ? 'it is' : 'they are'
          }`}
        >
          <ul>
            {faults.slice(0, shownFaults).map(({ table, line, reason }) => (
              <li key={line}>
                {kindWord(table)}: {reason}
              </li>
            ))}
          </ul>
          {faults.length > shownFaults && <p>And {faults.length - shownFaults} more.</p>}
        </Fold>
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
      {out === 'asked' && (
        <>
          <p role="status">Look where this browser puts its downloads. Is the file there?</p>
          <Acts label="Is it there?">
            <ActKey onPress={() => onFound(true)}>It is there</ActKey>
            <ActKey onPress={() => onFound(false)}>It is not</ActKey>
          </Acts>
        </>
      )}
      {out === 'missing' && (
        <p role="status">
          Then it does not count as a copy. {canShare ? 'Share it, or save' : 'Save'} it once more.
        </p>
      )}
      {out === 'out' && (
        <p role="status">
          Handed over. Keep it somewhere else than on this phone: a computer, a stick, a second
          phone.
        </p>
      )}
    </Sheet>
  );
}

/** So many faults are shown one by one. */
const shownFaults = 300;

function sizeWords(bytes: number): string {
  if (bytes < 1_000_000) return `${Math.max(1, Math.round(bytes / 1_000))} kB`;
  return `${(bytes / 1_000_000).toFixed(1)} MB`;
}
