import { useUpdate } from '#live/use-update.ts';
import { ActKey } from '#ui/ActKey.tsx';
import styles from './UpdateNotice.module.css';

/** One quiet line when a newer version waits; never while a session is open. */
export function UpdateNotice() {
  const [state, take] = useUpdate();
  if (state !== 'waiting' && state !== 'after-session') return null;
  return (
    <div class={styles.notice} role="status">
      {state === 'waiting' ? (
        <>
          <p>A newer version is here.</p>
          <ActKey onPress={take}>Take it now</ActKey>
        </>
      ) : (
        <>
          <p>A newer version waits until no session is open.</p>
          <ActKey onPress={take}>Try again</ActKey>
        </>
      )}
    </div>
  );
}
