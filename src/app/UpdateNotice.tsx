import { useUpdate } from '#live/use-update.ts';
import { ActKey } from '#ui/ActKey.tsx';
import styles from './UpdateNotice.module.css';

/** One quiet line about this version and the next; the frame leaves it out while a session runs. */
export function UpdateNotice() {
  const [state, take] = useUpdate();
  switch (state) {
    case 'current':
      return null;
    case 'ready-offline':
      return (
        <div class={styles.notice} role="status">
          <p>This app is stored on this device now. It works with no network.</p>
        </div>
      );
    case 'waiting':
      return (
        <div class={styles.notice} role="status">
          <p>A newer version is here.</p>
          <ActKey onPress={take}>Take it now</ActKey>
        </div>
      );
    case 'held-back':
      return (
        <div class={styles.notice} role="status">
          <p>Another window still holds a session. Close it to take the newer version.</p>
          <ActKey onPress={take}>Try again</ActKey>
        </div>
      );
  }
}
