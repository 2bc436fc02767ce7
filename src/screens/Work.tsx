import { ActKey } from '#ui/ActKey.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import styles from './CopyParts.module.css';

/** A long piece of work: how far it is, and the way to stop it. */
export function Work(props: { title: string; share: number; onStop: () => void }) {
  const percent = Math.floor(props.share * 100);
  return (
    <Sheet title={props.title} aside={`${percent} %`}>
      <div class={styles.work}>
        <progress aria-label={props.title} max={100} value={percent} />
        <ActKey onPress={props.onStop}>Stop</ActKey>
      </div>
    </Sheet>
  );
}
