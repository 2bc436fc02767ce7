import { dayOf } from '#calc/days.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import type { Mix } from '#model/mix.ts';
import { hrefTo } from '#screens/routes.ts';
import { countWords, dateWords } from '#screens/words.ts';
import { namelessMixes } from '#store/nameless.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Sheet } from '#ui/Sheet.tsx';

function insideWords(sides: Mix['sides']): string {
  const doses = sides.flatMap((side) => side.doses);
  const materials = new Set(doses.map(({ materialId }) => materialId)).size;
  return `${sides.length > 1 ? 'two sides, ' : ''}${countWords(materials, 'material')}`;
}

/** Mixes that were made up at the table and wait for a name; nothing while there are none. */
export function NamelessList() {
  const { book, clock } = useShop();
  const mixes = useLive(() => namelessMixes(book), ['mixes', 'entries', 'sealed'], 'nameless');
  if (!mixes || mixes.length === 0) return null;
  const today = dayOf(clock.now(), clock.zone());
  return (
    <Sheet title="Without a name">
      {mixes.map(({ id, createdAt, sides }) => (
        <ActKey key={id} href={hrefTo({ at: 'nameless', mixId: id })} small={insideWords(sides)}>
          Made up {dateWords(dayOf(createdAt, clock.zone()), today)}
        </ActKey>
      ))}
    </Sheet>
  );
}
