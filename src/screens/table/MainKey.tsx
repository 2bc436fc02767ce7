import { useEffect, useRef } from 'preact/hooks';
import { useShop } from '#live/shop.ts';
import { type Drawing, Icon } from '#ui/Icon.tsx';
import { usePress } from '#ui/use-press.ts';
import styles from './Table.module.css';

/** What the main key says and does. */
export interface Meaning {
  means: 'filled' | 'good' | 'save-bad' | 'save' | 'nothing';
  icon?: Drawing;
  word: string;
  /** Names what the press will touch. */
  touches: string;
  /** The same in full, for a screen reader, where the key shows numbers. */
  spoken?: string;
  /** The same where there is little room: by number. */
  short: string;
  act: () => void;
}

/** A label that changed less than this before the finger came down still has its earlier meaning. */
const settlingMs = 300;

/**
 * The main key: always the next right thing. A press is read by the label that was painted when the
 * finger came down, or by the one before if that had only just changed.
 */
export function MainKey({ meaning }: { meaning: Meaning }) {
  const { clock, touch } = useShop();
  const label = `${meaning.word} ${meaning.spoken ?? meaning.touches}`;
  const now = useRef({ meaning, label, since: Number.NEGATIVE_INFINITY });
  const before = useRef(meaning);
  const atDown = useRef(meaning);
  if (now.current.label === label) now.current.meaning = meaning;
  useEffect(() => {
    if (now.current.label === label) return;
    before.current = now.current.meaning;
    now.current = { meaning, label, since: clock.now() };
  });
  const press = usePress(
    () => {
      const read = atDown.current;
      if (read.means === 'nothing') touch.refuse();
      else read.act();
    },
    () => {
      const isFresh = clock.now() - now.current.since < settlingMs;
      atDown.current = isFresh ? before.current : now.current.meaning;
    },
  );
  return (
    <button
      type="button"
      class={styles.go}
      data-means={meaning.means}
      aria-label={label}
      aria-disabled={meaning.means === 'nothing' || undefined}
      {...press}
      onClick={(event) => {
        if (event.detail === 0) atDown.current = meaning;
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
