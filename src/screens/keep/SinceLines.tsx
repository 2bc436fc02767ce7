import { useShop } from '#live/shop.ts';
import { ageWords, sinceWords } from '#screens/copy-words.ts';
import type { SinceCopy } from '#store/copy/since.ts';
import { Sheet } from '#ui/Sheet.tsx';

/** How old the last copy is, and what is only on this phone. */
export function SinceLines({ since }: { since: SinceCopy }) {
  const { clock } = useShop();
  const { last } = since;
  const only = sinceWords(since);
  const none = last ? 'Everything here is in it.' : 'Nothing is here to copy yet.';
  return (
    <Sheet>
      <p>
        {last
          ? `Last copy: ${ageWords(last.at, clock.now(), clock.zone())}${last.isLocked ? ', locked' : ''}.`
          : 'No copy has left this phone yet.'}
      </p>
      <p>{only ? `Only on this phone: ${only}.` : none}</p>
    </Sheet>
  );
}
