import { dayOf } from '#calc/days.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import { hrefTo } from '#screens/routes.ts';
import { countWords, dateWords } from '#screens/words.ts';
import { namelessMixes } from '#store/mixes.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Sheet } from '#ui/Sheet.tsx';

/** Mixes that were made up at the table and wait for a name; nothing while there are none. */
export function NamelessList() {
  const { book, clock } = useShop();
  const mixes = useLive(() => namelessMixes(book), ['mixes'], 'nameless');
  if (!mixes || mixes.length === 0) return null;
  const today = dayOf(clock.now(), clock.zone());
  return (
    <Sheet title="Without a name">
      {mixes.map(({ id, createdAt, sides }) => (
        <ActKey
          key={id}
          href={hrefTo({ at: 'nameless', mixId: id })}
          small={countWords(sides[0]?.doses.length ?? 0, 'material')}
        >
          Made up {dateWords(dayOf(createdAt, clock.zone()), today)}
        </ActKey>
      ))}
    </Sheet>
  );
}
