import type { Columns } from '#calc/columns.ts';
import { dayOf } from '#calc/days.ts';
import { scrapSaid } from '#calc/scrap-check.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import { ScrapScale } from '#screens/ScrapScale.tsx';
import { scrapSaidWords } from '#screens/scrap-words.ts';
import { dateWords } from '#screens/words.ts';
import { newestColumns } from '#store/history.ts';
import { entriesOf } from '#store/sessions.ts';

/** The scale for the scrap of the last session. */
export function ScrapSheet({ columns }: { columns: readonly Columns[] }) {
  const { book, clock } = useShop();
  const found = useLive(
    async () => {
      const last = await newestColumns(book);
      return last && { last, entries: await entriesOf(book, last.sessionId) };
    },
    ['columns', 'sealed'],
    'last',
  );
  if (!found) return null;
  const { startedAt, sessionId, zone } = found.last;
  const date = dateWords(dayOf(startedAt, zone), dayOf(clock.now(), zone));
  const said = scrapSaid(columns);
  return (
    <ScrapScale
      key={sessionId}
      sessionId={sessionId}
      entries={found.entries}
      aside={date}
      together={said.sessions > 1 ? scrapSaidWords(said) : ''}
    />
  );
}
