import { Offers } from '#app/Offers.tsx';
import { SentMix, sentHref } from '#app/SentMix.tsx';
import { useShop } from '#live/shop.ts';
import { useSafety } from '#live/use-safety.ts';
import { untoldWords } from '#screens/kept-words.ts';
import { ActKey } from '#ui/ActKey.tsx';
import styles from './UpdateNotice.module.css';

/**
 * What the person has to hear about the logbook; the frame leaves it out while a session runs. With
 * nothing to hear there is room for a question or an offer, on the quiet page alone: one that followed
 * the person would nag.
 */
export function KeptNotice({ isQuiet }: { isQuiet: boolean }) {
  const { book, safety } = useShop();
  const { untold, trouble, shouldAsk, isPromised } = useSafety();
  if (untold) {
    return (
      <div class={styles.notice} role="status">
        <div>
          {untoldWords(untold).map((words) => (
            <p key={words}>{words}</p>
          ))}
        </div>
        <ActKey onPress={safety.noted}>Noted</ActKey>
      </div>
    );
  }
  if (trouble === 'full') {
    return (
      <div class={styles.notice} role="status">
        <p>
          This phone is full. Free some space before you pour. The table says so when a shot cannot
          be saved.
        </p>
      </div>
    );
  }
  if (!isQuiet) return null;
  const sent = sentHref(book);
  if (sent) return <SentMix href={sent} />;
  // Before the device has answered, the question for its promise may still come.
  if (!shouldAsk) return isPromised === undefined ? null : <Offers />;
  return (
    <div class={styles.notice} role="status">
      <p>Phones may clear web data when they run out of room. Ask this phone to keep the log?</p>
      <ActKey onPress={() => void safety.ask()}>Ask it</ActKey>
      <ActKey onPress={safety.skipAsking}>Not now</ActKey>
    </div>
  );
}
