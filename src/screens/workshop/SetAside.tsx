import { useState } from 'preact/hooks';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import { Refusal } from '#screens/Refusal.tsx';
import { useOneAct } from '#screens/use-one-act.ts';
import { countWords } from '#screens/words.ts';
import { type Aside, putBackAside, setAside } from '#store/aside.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import styles from './SetAside.module.css';

/** What each table's record is called. */
const kinds: Partial<Record<Aside['table'], string>> = {
  moulds: 'Mould',
  injectors: 'Injector',
  colourways: 'Colour',
  settings: 'Settings',
  entries: 'Line of a session',
  sealed: 'Session',
  materials: 'Material',
  mixes: 'Mix',
  photos: 'Picture',
  remarks: 'Remark',
  ideas: 'Idea',
  changes: 'Change of a mould',
  movements: 'Line of the stock',
};

/** Records that could not be read: kept as they were found, with a way back where there is one. */
export function SetAside() {
  const { book } = useShop();
  const all = useLive(() => setAside(book), ['meta'], 'aside');
  if (!all || all.length === 0) return null;
  return (
    <Sheet title="Set aside">
      <p>
        These could not be read. They are kept as they were found, and nothing is worked out from
        them.
      </p>
      {all.map((aside) => (
        <OneAside key={aside.name} aside={aside} />
      ))}
    </Sheet>
  );
}

function OneAside({ aside }: { aside: Aside }) {
  const { book, clock } = useShop();
  const { act, trouble } = useOneAct();
  const [isShown, setShown] = useState(false);
  const title = [kinds[aside.table] ?? 'Record', aside.title].filter(Boolean).join(': ');
  const mend = () => act(() => putBackAside(book, aside.name, clock.now()).then(() => null));
  return (
    <div class={styles.acts}>
      <h3>{title}</h3>
      <p>
        {countWords(aside.faults, 'fact')} of it cannot be read.{' '}
        {aside.mended
          ? 'Mend puts it back with that not set.'
          : 'It makes no sense without. A copy may have it whole.'}
      </p>
      {aside.mended && (
        <ActKey label={`Mend ${title}`} onPress={() => void mend()}>
          Mend
        </ActKey>
      )}
      <ActKey label={`Show ${title}`} isPressed={isShown} onPress={() => setShown(!isShown)}>
        Show
      </ActKey>
      {isShown && <pre class={styles.text}>{JSON.stringify(aside.record, null, 1)}</pre>}
      <Refusal says={trouble} />
    </div>
  );
}
