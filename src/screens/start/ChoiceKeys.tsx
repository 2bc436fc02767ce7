import { ActKey } from '#ui/ActKey.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import styles from './ChoiceKeys.module.css';

interface Props<T> {
  title: string;
  /** The word for choosing none. */
  none: string;
  choices: readonly T[];
  chosen: T | null;
  wordOf: (choice: T) => string;
  onChoose: (choice: T | null) => void;
}

/** One of several, or none, as keys. */
export function ChoiceKeys<T extends { id: string }>(props: Props<T>) {
  const { title, none, choices, chosen, wordOf, onChoose } = props;
  return (
    <Sheet title={title}>
      <div class={styles.keys} role="group" aria-label={title}>
        <ActKey isPressed={chosen === null} onPress={() => onChoose(null)}>
          {none}
        </ActKey>
        {choices.map((choice) => (
          <ActKey
            key={choice.id}
            isPressed={chosen?.id === choice.id}
            onPress={() => onChoose(choice)}
          >
            {wordOf(choice)}
          </ActKey>
        ))}
      </div>
    </Sheet>
  );
}
