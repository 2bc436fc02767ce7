import { lastOpenSec } from '#calc/last-time.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import type { MouldId } from '#model/mould.ts';
import { lengthUnitOf } from '#screens/lengths.ts';
import { lastSizes } from '#screens/moulds/last-sizes.ts';
import { MouldForm } from '#screens/moulds/MouldForm.tsx';
import { NotHere } from '#screens/NotHere.tsx';
import { hrefTo } from '#screens/routes.ts';
import { headOf, headsOf } from '#store/heads.ts';
import { sessionsBefore } from '#store/last-time.ts';
import { settingsOf } from '#store/settings.ts';
import { DeskPage } from '#ui/DeskPage.tsx';
import { ToolKey } from '#ui/ToolKey.tsx';

/** What is known about a mould, to be typed at the desk; null: a new one. */
export function MouldFactsScreen({ mouldId }: { mouldId: MouldId | null }) {
  const { book } = useShop();
  const found = useLive(
    async () => ({
      mould: mouldId ? await headOf(book, 'moulds', mouldId) : null,
      unit: lengthUnitOf(await settingsOf(book)),
      moulds: await headsOf(book, 'moulds'),
      openSec: mouldId ? lastOpenSec(await sessionsBefore(book, null), mouldId) : null,
      makers: (await headsOf(book, 'moulds')).filter(({ id, makes }) => makes && id !== mouldId),
    }),
    ['moulds', 'columns', 'settings'],
    mouldId ?? 'new',
  );
  if (!found) return null;
  const { mould, makers, moulds, openSec, unit } = found;
  if (mould === undefined)
    return <NotHere what="This mould" back={{ at: 'moulds' }} word="Moulds" />;
  return (
    <DeskPage
      title={mould?.name ?? 'A new mould'}
      small="Leave empty what you do not know"
      shape="wall"
      tool={
        <ToolKey
          href={hrefTo(mouldId ? { at: 'mould', mouldId } : { at: 'moulds' })}
          icon="back"
          word="Back"
        />
      }
    >
      <MouldForm {...{ mould, makers, unit }} last={lastSizes(mould, moulds, openSec, unit)} />
    </DeskPage>
  );
}
