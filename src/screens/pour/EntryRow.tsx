import type { ComponentChildren } from 'preact';
import { clockText } from '#calc/days.ts';
import type { Line } from '#calc/log.ts';
import type { EntryWords } from '#screens/entry-words.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Acts } from '#ui/Acts.tsx';
import styles from './Entries.module.css';

/** What is open under a chosen line. */
export type Panel = 'right' | 'time';

interface Props {
  line: Line;
  words: EntryWords;
  /** What became of it, in words; empty: nothing. */
  fate: string;
  zone: string;
  isChosen: boolean;
  panel: Panel | null;
  /** Its word on the row: to put right, or to check what nobody looked at. */
  rightWord: string;
  hasTimeKey: boolean;
  /** Whether it can be taken back, and brought back again. */
  canTakeBack: boolean;
  onPanel: (panel: Panel) => void;
  onTakeBack: () => void;
  onBringBack: () => void;
  /** The open panel. */
  children?: ComponentChildren;
}

/** One line of the log: time, outcome, place; its keys when it is chosen. */
export function EntryRow(props: Props) {
  const { line, words, fate, zone, isChosen, canTakeBack } = props;
  const isBack = line.takenBackAt !== null;
  const about = `: ${words.what}, ${words.where}`;
  return (
    <li
      id={`entry-${line.id}`}
      tabIndex={-1}
      class={styles.row}
      data-state={isBack ? 'back' : isChosen ? 'chosen' : undefined}
      data-bad={(words.isBad && !isBack) || undefined}
    >
      <time>{clockText(line.at, zone)}</time>
      <div>
        <p class={styles.what}>{isBack ? <del>{words.what}</del> : words.what}</p>
        {(words.where || fate) && (
          <p class={styles.was}>{[words.where, fate].filter(Boolean).join('. ')}</p>
        )}
      </div>
      {isBack && canTakeBack && (
        <ActKey label={`Bring back${about}`} onPress={props.onBringBack}>
          Bring back
        </ActKey>
      )}
      {!isBack && !isChosen && (
        <ActKey label={`${props.rightWord}${about}`} onPress={() => props.onPanel('right')}>
          {props.rightWord}
        </ActKey>
      )}
      {!isBack && isChosen && <ChosenKeys {...props} />}
      {!isBack && isChosen && props.children && <div class={styles.panel}>{props.children}</div>}
    </li>
  );
}

function ChosenKeys(props: Props) {
  const { panel, rightWord, hasTimeKey, canTakeBack, onPanel, onTakeBack } = props;
  return (
    <div class={styles.keys}>
      <Acts>
        <ActKey isPressed={panel === 'right'} onPress={() => onPanel('right')}>
          {rightWord}
        </ActKey>
        {canTakeBack && <ActKey onPress={onTakeBack}>Take back</ActKey>}
        {hasTimeKey && (
          <ActKey isPressed={panel === 'time'} onPress={() => onPanel('time')}>
            Earlier
          </ActKey>
        )}
      </Acts>
    </div>
  );
}
