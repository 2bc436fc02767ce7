import type { SafetyState } from '#live/safety.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import { useSafety } from '#live/use-safety.ts';
import { heldWords, withoutPictureWords } from '#screens/kept-words.ts';
import { picturesIn } from '#store/keeping.ts';
import { ActKey } from '#ui/ActKey.tsx';

/** How safely the log lies on this phone: the second copy, the phone's promise, its room. */
export function SecondCopy() {
  const { book, safety } = useShop();
  const state = useSafety();
  const { isPromised, isCramped } = state;
  const photos = useLive(() => picturesIn(book.db), ['photos', 'photo-bytes'], 'pictures');
  const bare = withoutPictureWords(photos?.bare ?? 0);
  return (
    <>
      <p>{copyWords(state)}</p>
      {bare && <p>{bare}</p>}
      <p>{promiseWords(isPromised)}</p>
      {isPromised === false && (
        <ActKey onPress={() => void safety.ask()}>Ask the phone to keep the log</ActKey>
      )}
      {isCramped && (
        <p>This window has little room. A private window forgets everything when it is closed.</p>
      )}
    </>
  );
}

function copyWords({ copy, trouble }: SafetyState): string {
  if (trouble === 'full') return 'This phone is full. The second copy waits until there is room.';
  if (trouble === 'newer') return 'The second copy is from a newer Warmshot. Update the app first.';
  if (trouble === 'other') return 'The second copy could not be written. Take a copy.';
  if (copy === undefined) return 'The second copy is being looked at.';
  if (copy === null) return 'This browser keeps no second copy. Take a copy.';
  return `A second copy lies beside it: ${heldWords(copy)}. Pictures are not in it.`;
}

function promiseWords(isPromised: SafetyState['isPromised']): string {
  if (isPromised) return 'The phone promised not to clear the log by itself.';
  if (isPromised === false) return 'The phone may clear the log when it runs out of room.';
  return 'The phone does not say whether it may clear the log.';
}
