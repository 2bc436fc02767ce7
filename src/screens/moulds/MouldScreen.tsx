import { tableOf } from '#calc/table.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import type { MouldId } from '#model/mould.ts';
import { MouldPage } from '#screens/moulds/MouldPage.tsx';
import { NotHere } from '#screens/NotHere.tsx';
import { headOf } from '#store/heads.ts';
import { allColumns } from '#store/history.ts';
import { runningEntries } from '#store/sessions.ts';
import { settingsOf } from '#store/settings.ts';

/** One mould: its picture with the bad ones counted, warm shots first, cold beside. */
export function MouldScreen({ mouldId }: { mouldId: MouldId }) {
  const { book } = useShop();
  const found = useLive(
    async () => {
      const running = await runningEntries(book);
      const seats = running ? tableOf(running).seats : [];
      return {
        mould: await headOf(book, 'moulds', mouldId),
        columns: await allColumns(book),
        settings: await settingsOf(book),
        isAtTable: seats.some(({ mould }) => mould.mouldId === mouldId),
      };
    },
    ['moulds', 'columns', 'settings', 'entries'],
    mouldId,
  );
  if (!found) return null;
  const { mould, ...rest } = found;
  if (!mould) return <NotHere what="This mould" back={{ at: 'moulds' }} word="Moulds" />;
  return <MouldPage mould={mould} {...rest} />;
}
