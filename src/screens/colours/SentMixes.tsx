import { useEffect, useState } from 'preact/hooks';
import { useShop } from '#live/shop.ts';
import { Refusal } from '#screens/Refusal.tsx';
import { hrefTo } from '#screens/routes.ts';
import { type Unpacked, unpackMix } from '#store/mix-parcel.ts';
import { forgetSentMix, sentMixes } from '#store/sent-mixes.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Sheet } from '#ui/Sheet.tsx';

interface Read {
  packed: string;
  found: Unpacked;
}

/** Mixes whose links were opened while a session ran; nothing while there are none. */
export function SentMixes() {
  const { book } = useShop();
  const [reads, setReads] = useState<readonly Read[]>([]);
  useEffect(() => {
    let isShown = true;
    const reading = sentMixes(book).map(async ({ packed }) => ({
      packed,
      found: await unpackMix(packed),
    }));
    void Promise.all(reading).then((all) => {
      if (isShown) setReads(all);
    });
    return () => {
      isShown = false;
    };
  }, [book]);
  if (reads.length === 0) return null;

  function clear(gone: string) {
    forgetSentMix(book, gone);
    setReads(reads.filter(({ packed }) => packed !== gone));
  }
  return (
    <Sheet title="Sent to you">
      {reads.map(({ packed, found: { mix, refusal } }) =>
        mix ? (
          <ActKey key={packed} href={hrefTo({ at: 'take-mix', packed })} small="look at it">
            {mix.name}
          </ActKey>
        ) : (
          <div key={packed}>
            <Refusal says={refusal} />
            <ActKey onPress={() => clear(packed)}>Clear it away</ActKey>
          </div>
        ),
      )}
    </Sheet>
  );
}
