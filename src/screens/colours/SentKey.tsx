import { useState } from 'preact/hooks';
import { useShop } from '#live/shop.ts';
import { forgetSentMix, putBackSentMix, sentMixes } from '#store/sent-mixes.ts';
import { ActKey } from '#ui/ActKey.tsx';

/** Puts away a mix that was kept because a session ran, and brings it back; nothing for any other. */
export function SentKey({ packed }: { packed: string }) {
  const { book } = useShop();
  const [wasKept] = useState(() => isKept());
  const [isAway, setIsAway] = useState(false);
  if (!wasKept) return null;
  function isKept() {
    return sentMixes(book).some((one) => one.packed === packed);
  }
  function turn() {
    if (isKept()) forgetSentMix(book, packed);
    else putBackSentMix(book, packed);
    setIsAway(!isKept());
  }
  return <ActKey onPress={turn}>{isAway ? 'Put away. Keep it after all' : 'Put it away'}</ActKey>;
}
