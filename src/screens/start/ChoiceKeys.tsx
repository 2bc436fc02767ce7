import { ActKey } from '#ui/ActKey.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import styles from './ChoiceKeys.module.css';

interface Props<T> {
  title: string;
  /** The word for choosing none. */
  none: string;
  choices: readonly T[];
  chosen: T | null;
  /** What was chosen the last time; null: nothing, or it is gone. */
  lastId: string | null;
  onChoose: (choice: T | null) => void;
}

/** One of several, or none, as keys; nothing where there is nothing to choose. */
export function ChoiceKeys<T extends { id: string; name: string }>(props: Props<T>) {
  const { title, none, choices, chosen, lastId, onChoose } = props;
  if (choices.length === 0) return null;
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
            {...(choice.id === lastId ? { small: 'last time' } : {})}
            onPress={() => onChoose(choice)}
          >
            {choice.name}
          </ActKey>
        ))}
      </div>
    </Sheet>
  );
}
