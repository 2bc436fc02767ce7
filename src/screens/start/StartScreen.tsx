import { useState } from 'preact/hooks';
import { useShop } from '#live/shop.ts';
import { hrefTo } from '#screens/routes.ts';
import { ShapeChoice } from '#screens/start/ShapeChoice.tsx';
import { changeSettings } from '#store/settings.ts';
import { addPlainMould, startPouring } from '#store/start.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { GridPicture } from '#ui/GridPicture.tsx';
import styles from './StartScreen.module.css';

/** The first screen of an empty shop: nothing is asked before the first shot but the mould's shape. */
export function StartScreen() {
  const { book, clock } = useShop();
  const [isChoosing, setIsChoosing] = useState(false);

  async function pour(shape: { rows: number; cols: number }) {
    const at = clock.now();
    const mould = await addPlainMould(book, shape, at);
    // The cautions stand on the page of this key.
    await changeSettings(book, { cautionsReadAt: at }, at);
    const plain = { mouldIds: [mould.id], injectorId: null, colourwayId: null };
    await startPouring(book, { ...plain, zone: clock.zone() }, at);
    window.location.hash = hrefTo({ at: 'table' });
  }

  if (isChoosing) {
    return (
      <ShapeChoice onBack={() => setIsChoosing(false)} onChosen={(shape) => void pour(shape)} />
    );
  }
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
          Works with no network.
          <br />
          Saved on this phone.
        </p>
      </div>
      <div class={styles.choices}>
        <ActKey size="main" onPress={() => setIsChoosing(true)}>
          Log a pour now
        </ActKey>
      </div>
    </main>
  );
}
