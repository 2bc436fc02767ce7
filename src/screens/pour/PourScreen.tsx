import { dayOf } from '#calc/days.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import { CopyNow } from '#screens/CopyNow.tsx';
import { LastDay } from '#screens/pour/LastDay.tsx';
import { PastSessions } from '#screens/pour/PastSessions.tsx';
import { PourerKeys } from '#screens/pour/PourerKeys.tsx';
import { StartKeys } from '#screens/pour/StartKeys.tsx';
import { hrefTo } from '#screens/routes.ts';
import type { Book } from '#store/book.ts';
import { columnsOfDay } from '#store/day-history.ts';
import { columnsBackFrom } from '#store/history.ts';
import { settingsOf } from '#store/settings.ts';
import { lastTime } from '#store/start.ts';
import { DeskPage } from '#ui/DeskPage.tsx';
import { ToolKey } from '#ui/ToolKey.tsx';
import styles from './Page.module.css';

/** The Pour place while no session runs: what the last day gave, the ways to the table, the past. */
export function PourScreen() {
  const { book, clock } = useShop();
  const found = useLive(
    () => pouredIn(book),
    ['columns', 'moulds', 'colourways', 'injectors', 'settings'],
    'pour',
  );
  if (!found) return null;
  const { newest, day, columns, hasPast, last, settings } = found;
  const hasReadCautions = settings.cautionsReadAt !== null;
  const today = dayOf(clock.now(), clock.zone());
  return (
    <DeskPage
      title="Pour"
      small="No session open"
      tool={<ToolKey href={hrefTo({ at: 'workshop' })} icon="workshop" word="Workshop" />}
      shape={hasPast ? 'one' : 'wall'}
    >
      <div class={styles.column}>
        {day && <LastDay day={day} today={today} columns={columns} />}
        <CopyNow />
        <PourerKeys settings={settings} />
        <StartKeys last={last} newest={newest} hasReadCautions={hasReadCautions} />
      </div>
      {day && hasPast && <PastSessions lastDay={day} today={today} />}
    </DeskPage>
  );
}

/** The newest session, all of its day, and whether there was anything before that. */
async function pouredIn(book: Book) {
  const [newest] = await columnsBackFrom(book, null, 1);
  const day = newest && dayOf(newest.startedAt, newest.zone);
  const columns = day ? await columnsOfDay(book, day) : [];
  const before = await columnsBackFrom(book, null, columns.length + 1);
  return {
    newest,
    day,
    columns,
    hasPast: before.length > columns.length,
    last: await lastTime(book),
    settings: await settingsOf(book),
  };
}
