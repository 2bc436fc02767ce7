import styles from './StackedBar.module.css';

interface Props {
  /** Each part with its word and its value in words; at most five. */
  parts: readonly { word: string; value: number; says: string }[];
  /** The whole picture in words. */
  label: string;
}

/** One bar of parts, told apart by pattern and by the words under it. */
export function StackedBar({ parts, label }: Props) {
  return (
    <div>
      <div class={styles.bar} role="img" aria-label={label}>
        {parts.map(({ word, value }, index) =>
          value > 0 ? <i key={word} data-look={index} style={{ '--part': value }} /> : null,
        )}
      </div>
      <ul class={styles.words}>
        {parts.map(({ word, says }, index) => (
          <li key={word}>
            <i data-look={index} aria-hidden="true" />
            {word}
            <b>{says}</b>
          </li>
        ))}
      </ul>
    </div>
  );
}
