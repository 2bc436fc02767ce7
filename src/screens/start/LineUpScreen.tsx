import { eveningOf } from '#calc/evening.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import type { SessionId } from '#model/entry.ts';
import { hrefTo } from '#screens/routes.ts';
import { LineUp } from '#screens/start/LineUp.tsx';
import { headsOf } from '#store/heads.ts';
import { entriesOf, runningEntries } from '#store/sessions.ts';
import { settingsOf } from '#store/settings.ts';
import { lastTime } from '#store/start.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { DeskPage } from '#ui/DeskPage.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import { ToolKey } from '#ui/ToolKey.tsx';

/**
 * Which moulds, which colour, which injector: the choice before a session. Repeating an old one
 * brings what it was poured with, thing by thing; its times, counts and results stay where they are.
 */
export function LineUpScreen({ like = null }: { like?: SessionId | null }) {
  const { book } = useShop();
  const heads = useLive(
    async () => ({
      settings: await settingsOf(book),
      moulds: await headsOf(book, 'moulds'),
      colourways: await headsOf(book, 'colourways'),
      injectors: await headsOf(book, 'injectors'),
      isRunning: (await runningEntries(book)) !== null,
      last: await lastTime(book),
      like: like && eveningOf(await entriesOf(book, like)),
    }),
    ['moulds', 'colourways', 'injectors', 'entries', 'settings'],
    like ?? 'line-up',
  );
  if (!heads) return null;
  const back = <ToolKey href={hrefTo({ at: 'pour' })} icon="back" word="Pour" />;
  if (heads.isRunning) {
    return (
      <DeskPage title="A session is open" tool={back} shape="wall">
        <Sheet>
          <p>Finish it first, or change its moulds at the table.</p>
          <ActKey size="main" href={hrefTo({ at: 'table' })}>
            Go to the table
          </ActKey>
        </Sheet>
      </DeskPage>
    );
  }
  if (heads.moulds.length === 0) {
    return (
      <DeskPage title="Which moulds?" tool={back} shape="wall">
        <Sheet>
          <p>There is no mould on the list.</p>
          <ActKey size="main" href={hrefTo({ at: 'mould-facts', mouldId: null })}>
            Add a mould
          </ActKey>
        </Sheet>
      </DeskPage>
    );
  }
  return <LineUp {...heads} back={back} />;
}
