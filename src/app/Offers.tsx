import { useState } from 'preact/hooks';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import { askForHome, canAskForHome, isHomeOpen } from '#platform/home-screen.ts';
import { hrefTo } from '#screens/routes.ts';
import { type Offer, offerOf, settleOffer } from '#store/offers.ts';
import { ActKey } from '#ui/ActKey.tsx';
import styles from './UpdateNotice.module.css';

/** One thing that is offered once, after a finished session. An answer ends it for good. */
export function Offers() {
  const { book, clock } = useShop();
  const [isAnswered, setIsAnswered] = useState(false);
  const offer = useLive(
    () => offerOf(book, isHomeOpen(), clock.now()),
    ['sealed', 'settings'],
    'offer',
  );
  if (!offer || isAnswered) return null;
  const answer = () => {
    settleOffer(book, offer, clock.now());
    setIsAnswered(true);
  };
  return (
    <div class={styles.notice} role="status">
      <OfferLine offer={offer} onAnswer={answer} />
    </div>
  );
}

function OfferLine({ offer, onAnswer }: { offer: Offer; onAnswer: () => void }) {
  const notNow = <ActKey onPress={onAnswer}>Not now</ActKey>;
  switch (offer) {
    case 'home':
      return canAskForHome() ? (
        <>
          <p>Put Warmshot on the home screen? Phones then clear its log less readily.</p>
          <ActKey onPress={() => void askForHome().then(onAnswer)}>Add it</ActKey>
          {notNow}
        </>
      ) : (
        <>
          {/* Where only the menu does it, the app on the home screen may have a logbook of its own. */}
          <p>
            Phones clear the log less readily once this is on the home screen, by the browser's
            menu. On some it begins empty there: take a copy first, and open it there.
          </p>
          <ActKey href={hrefTo({ at: 'keep' })}>Take a copy</ActKey>
          {notNow}
        </>
      );
    case 'sound':
      return (
        <>
          <p>Do you hear a mould come ready over all else in the shop? Try it in 5 seconds.</p>
          <ActKey href={hrefTo({ at: 'sound-check' })}>Check sound</ActKey>
          {notNow}
        </>
      );
    case 'gloves':
      return (
        <>
          <p>Does this glass feel the gloves you pour in? Try it in 20 seconds.</p>
          <ActKey href={hrefTo({ at: 'glove-check' })}>Check gloves</ActKey>
          {notNow}
        </>
      );
  }
}
