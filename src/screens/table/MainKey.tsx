import { useRef } from 'preact/hooks';
import { labelOf, type Meaning } from '#screens/table/meaning.ts';
import type { SteadyMeaning } from '#screens/table/use-steady-meaning.ts';
import { Icon } from '#ui/Icon.tsx';
import { useMedia } from '#ui/use-media.ts';
import { usePress } from '#ui/use-press.ts';
import styles from './Table.module.css';

interface Props {
  meaning: Meaning;
  steady: SteadyMeaning;
}

/** Where the sheet shows the short words. */
const stand = '(orientation: landscape) and (max-height: 500px)';

/**
 * The main key: always the next right thing. A press is read by the label that was painted when the
 * finger came down, or by the one before if that had only just changed.
 */
export function MainKey({ meaning, steady }: Props) {
  const atDown = useRef(steady.read());
  const readNow = () => {
    atDown.current = steady.read();
  };
  const isStand = useMedia(stand);
  const press = usePress(() => steady.act(atDown.current), readNow);
  return (
    <button
      type="button"
      class={styles.go}
      data-means={meaning.means}
      aria-label={labelOf(meaning, isStand)}
      aria-disabled={meaning.means === 'nothing' || undefined}
      {...press}
      onClick={(event) => {
        // Without a finger: a screen reader, or Enter.
        if (event.detail === 0) readNow();
        press.onClick(event);
      }}
    >
      <b>
        {meaning.icon && <Icon of={meaning.icon} />}
        {meaning.word}
      </b>{' '}
      <span class={styles.notStand}>{meaning.touches}</span>
      <span class={styles.onlyStand}>{meaning.short}</span>
    </button>
  );
}
