import type { Day } from '#calc/day-count.ts';
import { clockText, dayOf } from '#calc/days.ts';
import { scrapOf, scrapTogether } from '#calc/scrap.ts';
import { tableOf } from '#calc/table.ts';
import { totalOf, yieldsByMould } from '#calc/yields.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import { NotHere } from '#screens/NotHere.tsx';
import { DayMould } from '#screens/pour/DayMould.tsx';
import { SessionRow } from '#screens/pour/SessionRow.tsx';
import { SessionRows } from '#screens/pour/SessionRows.tsx';
import { Totals } from '#screens/pour/Totals.tsx';
import { hrefTo } from '#screens/routes.ts';
import { countWords, dateWords, spanWords } from '#screens/words.ts';
import type { Book } from '#store/book.ts';
import { columnsOfDay } from '#store/day-history.ts';
import { entriesOf } from '#store/sessions.ts';
import { DeskPage } from '#ui/DeskPage.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import { ToolKey } from '#ui/ToolKey.tsx';
import styles from './Page.module.css';

/** All sessions that were poured on one calendar day, together and mould by mould. */
export function DayScreen({ day }: { day: Day }) {
  const { book, clock } = useShop();
  const found = useLive(() => dayIn(book, day), ['sealed', 'columns'], day);
  if (!found) return null;
  const { columns, tables } = found;
  const today = dayOf(clock.now(), clock.zone());
  if (columns.length === 0)
    return <NotHere what={`A finished session of ${dateWords(day, today)}`} />;
  const yields = yieldsByMould(columns);
  const spanMs = columns.reduce((sum, { startedAt, endedAt }) => sum + endedAt - startedAt, 0);
  return (
    <DeskPage
      title={dateWords(day, today)}
      small={`${countWords(columns.length, 'session')}, ${spanWords(spanMs)}`}
      tool={<ToolKey href={hrefTo({ at: 'pour' })} icon="back" word="Pour" />}
      shape="one"
    >
      <div class={styles.column}>
        <Totals
          columns={columns}
          tally={totalOf(yields)}
          scrap={scrapTogether(tables.map(scrapOf))}
        />
        <Sheet title={columns.length === 1 ? 'Session' : 'Sessions'} aside="good of checked">
          <SessionRows>
            {columns.map((session) => (
              <SessionRow
                key={session.sessionId}
                session={session}
                title={`${clockText(session.startedAt, session.zone)} to ${clockText(session.endedAt, session.zone)}`}
              />
            ))}
          </SessionRows>
        </Sheet>
      </div>
      <div class={styles.column}>
        {yields.map((own) => (
          <DayMould
            key={own.mouldId}
            own={own}
            mould={
              tables
                .flatMap(({ allSeats }) => allSeats)
                .findLast(({ mould }) => mould.mouldId === own.mouldId)?.mould
            }
          />
        ))}
      </div>
    </DeskPage>
  );
}

/** The digests of a day, and its tables for what the digests leave out: layouts and volumes. */
async function dayIn(book: Book, day: Day) {
  const columns = await columnsOfDay(book, day);
  const entries = await Promise.all(columns.map(({ sessionId }) => entriesOf(book, sessionId)));
  return { columns, tables: entries.map(tableOf) };
}
