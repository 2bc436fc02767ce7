import { sentHref } from '#app/SentMix.tsx';
import { useShop } from '#live/shop.ts';
import { hrefTo, type Route } from '#screens/routes.ts';
import { ActKey } from '#ui/ActKey.tsx';
import styles from './UpdateNotice.module.css';

/**
 * For somebody who left the table of a running session, wanted or not: it goes on, and the way back;
 * beside it the way to a mix that was sent meanwhile.
 */
export function TableLeft({ at }: { at: Route['at'] }) {
  const { book } = useShop();
  const sent = at === 'take-mix' ? null : sentHref(book);
  return (
    <div class={styles.notice} role="status">
      <p>Table left; clocks run on.</p>
      {sent && <ActKey href={sent}>The mix sent to you</ActKey>}
      <ActKey href={hrefTo({ at: 'table' })}>Back to the table</ActKey>
    </div>
  );
}
