import { hrefTo } from '#screens/routes.ts';
import { ActKey } from '#ui/ActKey.tsx';
import styles from './UpdateNotice.module.css';

/** For somebody who left the table of a running session, wanted or not: it goes on, and the way back. */
export function TableLeft() {
  return (
    <div class={styles.notice} role="status">
      <p>Table left; clocks run on.</p>
      <ActKey href={hrefTo({ at: 'table' })}>Back to the table</ActKey>
    </div>
  );
}
