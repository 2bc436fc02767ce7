import { useState } from 'preact/hooks';
import { confirm, refuse } from '#live/answer.ts';
import { useShop } from '#live/shop.ts';
import { Refusal } from '#screens/Refusal.tsx';
import { ActKey } from '#ui/ActKey.tsx';
import { Acts } from '#ui/Acts.tsx';

/**
 * Hands a file over. Where the device shares files, two keys come: its share sheet opens only within
 * a press, and making the file may take longer than that. Elsewhere it is saved at once.
 */
export function useHandOver() {
  const shop = useShop();
  const { files } = shop;
  const [file, setFile] = useState<File | null>(null);
  const [said, setSaid] = useState('');
  const [trouble, setTrouble] = useState('');

  const done = (words: string) => {
    setSaid(words);
    setTrouble('');
    confirm(shop);
  };
  const failed = (words: string) => {
    setTrouble(words);
    refuse(shop);
  };

  function save(one: File) {
    try {
      files.save(one);
      done(`${one.name} is out.`);
    } catch {
      failed('This phone did not take the file.');
    }
  }

  function share(one: File) {
    files.share(one).then(
      (isShared) => isShared && done(`${one.name} is out.`),
      () => failed('This phone did not share it. Save it instead.'),
    );
  }

  return {
    give(next: File) {
      setSaid('');
      setTrouble('');
      if (files.canShare(next)) setFile(next);
      else save(next);
    },
    failed,
    /** What belongs under the keys. */
    part: (
      <>
        {file && (
          <>
            <p>{file.name} is ready.</p>
            <Acts label="Hand it over">
              <ActKey onPress={() => share(file)}>Share it</ActKey>
              <ActKey onPress={() => save(file)}>Save it</ActKey>
            </Acts>
          </>
        )}
        {said && <p role="status">{said}</p>}
        <Refusal says={trouble} />
      </>
    ),
  };
}
