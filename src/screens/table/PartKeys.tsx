import { PressKey } from '#screens/table/PressKey.tsx';
import { countWords } from '#screens/words.ts';
import styles from './Table.module.css';

interface Props {
  parts: readonly { word: string; bad: number }[];
  /** The part that is shown, from 0. */
  part: number;
  /** How many keys fit side by side. */
  most: number;
  /** Whether two keys and the words between them do not fit side by side. */
  isNarrow: boolean;
  onPress: (part: number) => void;
}

/** A key for every part of a map that cannot be shown whole, each with its bad count; where they are too many, two keys to walk. */
export function PartKeys({ parts, part, most, isNarrow, onPress }: Props) {
  const shown = parts[part];
  if (parts.length <= most) {
    return (
      <div class={styles.parts} role="group" aria-label="Part of the mould">
        {parts.map(({ word, bad }, index) => (
          <PressKey key={word} isPressed={index === part} onPress={() => onPress(index)}>
            {word} <span>{bad} bad</span>
          </PressKey>
        ))}
      </div>
    );
  }
  const walk = (by: number) => onPress((part + by + parts.length) % parts.length);
  const others = parts.reduce((sum, { bad }) => sum + bad, 0) - (shown?.bad ?? 0);
  return (
    <div
      class={styles.parts}
      role="group"
      aria-label="Part of the mould"
      data-narrow={isNarrow || undefined}
    >
      <PressKey label="Part before" onPress={() => walk(-1)}>
        Before
      </PressKey>
      <p class={styles.partNow} role="status">
        {part + 1} of {parts.length}{' '}
        <span>{countWords(others, 'bad elsewhere', 'bad elsewhere')}</span>
      </p>
      <PressKey label="Next part" onPress={() => walk(1)}>
        Next
      </PressKey>
    </div>
  );
}
