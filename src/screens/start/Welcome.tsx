import { useEffect, useState } from 'preact/hooks';
import { useShop } from '#live/shop.ts';
import { hrefTo } from '#screens/routes.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { GridPicture } from '#ui/GridPicture.tsx';
import styles from './Welcome.module.css';

/** What this is, in three lines, and the one key. */
export function Welcome({ onPour }: { onPour: () => void }) {
  const { updates } = useShop();
  // Said only once it is true: a first visit that is cut short would not open again.
  const [isStored, setIsStored] = useState(false);
  useEffect(() => updates.whenStored(() => setIsStored(true)), [updates]);
  return (
    <main class={styles.welcome}>
      <p class={styles.word}>Warmshot</p>
      <div class={styles.hello}>
        <div class={styles.picture}>
          <GridPicture
            rows={4}
            cols={2}
            cells={[1, 2, 3, 4, 5, 6, 7, 8].map((number) => ({
              number,
              row: ((number - 1) % 4) + 1,
              col: Math.ceil(number / 4),
              share: number === 3 ? 1 : 0,
            }))}
          />
        </div>
        <h1>Pour, log, see what worked.</h1>
        <p>
          Saved on this phone.
          <br />
          {isStored ? 'Works with no network.' : ' '}
        </p>
      </div>
      <div class={styles.choices}>
        <ActKey size="main" onPress={onPour}>
          Log a pour now
        </ActKey>
        <ActKey href="./?demo#/moulds">Look round a demo shop</ActKey>
        <ActKey href={hrefTo({ at: 'open-copy' })}>Open a copy</ActKey>
      </div>
    </main>
  );
}
