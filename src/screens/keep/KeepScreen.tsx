import { useState } from 'preact/hooks';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import { CopyReady } from '#screens/CopyReady.tsx';
import { sinceTables } from '#screens/copy-words.ts';
import { LockFields, type TypedLock } from '#screens/keep/LockFields.tsx';
import { SinceLines } from '#screens/keep/SinceLines.tsx';
import { Refusal } from '#screens/Refusal.tsx';
import { hrefTo } from '#screens/routes.ts';
import { useCopying } from '#screens/use-copying.ts';
import { Work } from '#screens/Work.tsx';
import { countWords } from '#screens/words.ts';
import { sixWords } from '#store/copy/passphrase.ts';
import { sinceCopy } from '#store/copy/since.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Acts } from '#ui/Acts.tsx';
import { DeskPage } from '#ui/DeskPage.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import { ToolKey } from '#ui/ToolKey.tsx';

const leastLetters = 12;

/** Takes a copy of the whole logbook out of the phone. */
export function KeepScreen() {
  const { book } = useShop();
  const copying = useCopying();
  const photos = useLive(() => book.db.count('photo-bytes'), ['photo-bytes'], 'photos');
  const since = useLive(() => sinceCopy(book), sinceTables, 'since');
  const [withPhotos, setWithPhotos] = useState(true);
  const [lock, setLock] = useState<TypedLock>({ kind: 'open', six: '', own: '' });
  const [error, setError] = useState('');
  // All at once: what comes later would push the keys from under a finger.
  if (photos === undefined || since === undefined) return null;

  function change(part: Partial<TypedLock>) {
    setError('');
    setLock((now) => ({ ...now, six: now.six || sixWords(), ...part }));
  }

  function make() {
    if (lock.kind === 'own' && lock.own.trim().length < leastLetters) {
      return setError('Use 12 letters or more, or take the six words.');
    }
    const words = { open: null, six: lock.six, own: lock.own }[lock.kind];
    void copying.make({ withPhotos, words });
  }

  const { share, ready, trouble } = copying;
  return (
    <DeskPage
      title="Take a copy"
      small="One file that holds the whole logbook"
      tool={<ToolKey href={hrefTo({ at: 'workshop' })} icon="back" word="Workshop" />}
    >
      <SinceLines since={since} />
      {share !== null && (
        <Work title="Copying and reading back" share={share} onStop={copying.stop} />
      )}
      {ready && (
        <CopyReady
          ready={ready}
          onHandOver={(how) => void copying.handOver(how)}
          onFound={(isThere) => void copying.found(isThere)}
        />
      )}
      {share === null && !ready && (
        <Sheet>
          {photos > 0 && (
            <Acts label="Photos">
              <ActKey isPressed={withPhotos} onPress={() => setWithPhotos(true)}>
                With {countWords(photos, 'photo')}
              </ActKey>
              <ActKey isPressed={!withPhotos} onPress={() => setWithPhotos(false)}>
                Without
              </ActKey>
            </Acts>
          )}
          <LockFields
            lock={lock}
            error={error}
            onChange={change}
            onDrawAnew={() => change({ six: sixWords() })}
          />
          <ActKey size="main" onPress={make}>
            Make the copy
          </ActKey>
        </Sheet>
      )}
      <Refusal says={trouble} />
    </DeskPage>
  );
}
