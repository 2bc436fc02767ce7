import { useState } from 'preact/hooks';
import { useShop } from '#live/shop.ts';
import { heldWords } from '#screens/kept-words.ts';
import { Refusal } from '#screens/Refusal.tsx';
import { hrefTo } from '#screens/routes.ts';
import { countWords } from '#screens/words.ts';
import { isBlank } from '#store/footing.ts';
import type { Held } from '#store/held.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import styles from './Trouble.module.css';

interface Props {
  /** What the logbook held last, as far as that is remembered. */
  held: Held | null;
  /** What the second copy holds; null: there is none. */
  copy: Held | null;
  /** Shows the app as it is now. */
  onGoOn: () => void;
}

/** The first page when the logbook is empty and was not: what is gone, and the ways on. */
export function Lost({ held, copy, onGoOn }: Props) {
  const { book, safety } = useShop();
  const [isLeaving, setLeaving] = useState(false);
  const [trouble, setTrouble] = useState('');

  async function putBack() {
    await safety.start().catch(() => {});
    if (await isBlank(book)) setTrouble('Nothing came back. Free some space and press again.');
    else onGoOn();
  }

  async function beginAnew() {
    try {
      await safety.forget();
      onGoOn();
    } catch {
      setTrouble('Not thrown away. Close other windows of this app and press again.');
    }
  }

  function openFile() {
    window.history.replaceState(null, '', hrefTo({ at: 'open-copy' }));
    onGoOn();
  }

  const was = held && held.records > 0 ? held : copy;
  return (
    <main class={styles.trouble}>
      <Sheet>
        <h1>The phone lost the logbook</h1>
        <p role="alert">
          {was && `It held ${heldWords(was)}. `}
          {copy
            ? `The second copy is still here, with ${heldWords(copy)}.`
            : 'There is no second copy on this phone. A copy that you took brings it back.'}
        </p>
        {was && was.pictures > 0 && (
          <p>
            {countWords(was.pictures, 'picture')} {was.pictures === 1 ? 'is' : 'are'} in no second
            copy: only a copy that you took brings {was.pictures === 1 ? 'it' : 'them'} back.
          </p>
        )}
        {isLeaving ? (
          <>
            <p>
              {copy
                ? `This throws the second copy away too: ${heldWords(copy)}. There is no undo.`
                : 'The app opens as on its first day. A copy can still be opened later.'}
            </p>
            <ActKey onPress={() => void beginAnew()}>
              {copy ? 'Throw it away and begin anew' : 'Begin anew'}
            </ActKey>
            <ActKey onPress={() => setLeaving(false)}>Back</ActKey>
          </>
        ) : (
          <>
            {copy && (
              <ActKey size="main" onPress={() => void putBack()}>
                Put it back from the second copy
              </ActKey>
            )}
            <ActKey onPress={openFile}>Open a copy</ActKey>
            <ActKey onPress={() => setLeaving(true)}>Begin anew</ActKey>
          </>
        )}
        <Refusal says={trouble} />
      </Sheet>
    </main>
  );
}
