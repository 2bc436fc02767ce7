import { ActKey } from '#ui/ActKey.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import styles from './Trouble.module.css';

/** A key that leads on, and what it does. */
export interface Way {
  word: string;
  text: string;
  onPress: () => void;
}

interface Props {
  title: string;
  text: string;
  /** What the device said, for whoever helps. */
  detail?: string;
  /** Done before the app starts again, as far as it is done in time. */
  first?: () => Promise<void>;
  /** Another way on, and what it does. */
  way?: Way;
}

const longestMs = 5_000;

/** A page for when the app cannot go on: what happened, what is safe, what to do. */
export function Trouble({ title, text, detail, first, way }: Props) {
  const start = () => {
    const tooLong = new Promise<void>((resolve) => setTimeout(resolve, longestMs));
    void Promise.race([first?.(), tooLong])
      .catch(() => {})
      .then(() => window.location.reload());
  };
  return (
    <main class={styles.trouble}>
      <Sheet>
        <h1>{title}</h1>
        <p role="alert">{text}</p>
        {detail && <p class={styles.detail}>{detail}</p>}
        <ActKey size="main" onPress={start}>
          Start again
        </ActKey>
        {way && (
          <>
            <p role="status">{way.text}</p>
            <ActKey onPress={way.onPress}>{way.word}</ActKey>
          </>
        )}
      </Sheet>
    </main>
  );
}
