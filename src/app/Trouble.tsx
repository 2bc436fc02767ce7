import { ActKey } from '#ui/ActKey.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import styles from './Trouble.module.css';

interface Props {
  title: string;
  text: string;
  /** What the device said, for whoever helps. */
  detail?: string;
  /** Another way on, and what it does. */
  way?: { word: string; text: string; onPress: () => void };
}

/** A page for when the app cannot go on: what happened, what is safe, what to do. */
export function Trouble({ title, text, detail, way }: Props) {
  return (
    <main class={styles.trouble}>
      <Sheet>
        <h1>{title}</h1>
        <p role="alert">{text}</p>
        {detail && <p class={styles.detail}>{detail}</p>}
        <ActKey size="main" onPress={() => window.location.reload()}>
          Start again
        </ActKey>
        {way && (
          <>
            <p>{way.text}</p>
            <ActKey onPress={way.onPress}>{way.word}</ActKey>
          </>
        )}
      </Sheet>
    </main>
  );
}
