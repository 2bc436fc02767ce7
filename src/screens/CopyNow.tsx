import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import { useSafety } from '#live/use-safety.ts';
import { CopyReady } from '#screens/CopyReady.tsx';
import { sinceTables, sinceWords } from '#screens/copy-words.ts';
import { Refusal } from '#screens/Refusal.tsx';
import { hrefTo } from '#screens/routes.ts';
import { useCopying } from '#screens/use-copying.ts';
import { Work } from '#screens/Work.tsx';
import { isCopyDue, sinceCopy } from '#store/copy/since.ts';
import { demoName } from '#store/names.ts';
import { ActKey } from '#ui/ActKey.tsx';
import styles from './CopyNow.module.css';

/** When much is on this phone only: what, and the one key that copies it. Nothing otherwise. */
export function CopyNow() {
  const { book } = useShop();
  const { copy } = useSafety();
  const copying = useCopying();
  const since = useLive(() => sinceCopy(book), sinceTables, 'since');
  const { share, ready, trouble } = copying;

  async function copyNow() {
    const made = await copying.make({ withPhotos: true, words: null });
    if (made) await copying.handOver(made.canShare ? 'share' : 'save', made);
  }

  if (share !== null) {
    return <Work title="Copying and reading back" share={share} onStop={copying.stop} />;
  }
  if (ready) {
    return (
      <>
        <CopyReady
          ready={ready}
          onHandOver={(how) => void copying.handOver(how)}
          onFound={(isThere) => void copying.found(isThere)}
        />
        <Refusal says={trouble} />
      </>
    );
  }
  // The made-up shop is nobody's to lose.
  if (!since || book.db.name === demoName || !isCopyDue(since, copy !== null)) return null;
  // Words that lock a copy are kept nowhere: a new locked one is made on its page.
  const isLocked = since.last?.isLocked === true;
  return (
    <div class={styles.due}>
      <p>{sinceWords(since)} only on this phone.</p>
      {isLocked ? (
        <ActKey href={hrefTo({ at: 'keep' })}>Copy now</ActKey>
      ) : (
        <ActKey onPress={() => void copyNow()}>Copy now</ActKey>
      )}
      <Refusal says={trouble} />
    </div>
  );
}
