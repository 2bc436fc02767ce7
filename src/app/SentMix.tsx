import { useState } from 'preact/hooks';
import { useShop } from '#live/shop.ts';
import { hrefTo } from '#screens/routes.ts';
import type { Book } from '#store/book.ts';
import { offerSentLater, sentMixes } from '#store/sent-mixes.ts';
import { ActKey } from '#ui/ActKey.tsx';
import styles from './UpdateNotice.module.css';

/** Where the mixes lead that were sent while a session ran: to the one there is, or to all; null: none. */
export function sentHref(book: Book): string | null {
  const sent = sentMixes(book).filter(({ isLater }) => !isLater);
  const [first, ...others] = sent;
  if (!first) return null;
  return hrefTo({ at: 'take-mix', packed: others.length > 0 ? null : first.packed });
}

/** A mix that was sent while somebody poured, once the session is over. */
export function SentMix({ href }: { href: string }) {
  const { book } = useShop();
  const [isAnswered, setIsAnswered] = useState(false);
  if (isAnswered) return null;
  return (
    <div class={styles.notice} role="status">
      <p>A mix was sent to you while you poured.</p>
      <ActKey href={href}>Look at it</ActKey>
      <ActKey
        onPress={() => {
          offerSentLater(book);
          setIsAnswered(true);
        }}
      >
        Not now
      </ActKey>
    </div>
  );
}
