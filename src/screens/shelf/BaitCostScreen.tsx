import { pricesOf } from '#calc/mix-price.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import { hrefTo } from '#screens/routes.ts';
import { BaitCostPage } from '#screens/shelf/BaitCostPage.tsx';
import { mixChoices } from '#screens/shelf/cost-view.ts';
import { headsOf } from '#store/heads.ts';
import { allColumns } from '#store/history.ts';
import { settingsOf } from '#store/settings.ts';
import { shelfOf, shelfTables } from '#store/stock.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { DeskPage } from '#ui/DeskPage.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import { ToolKey } from '#ui/ToolKey.tsx';

/** What one good bait costs, of a mould and a mix. */
export function BaitCostScreen() {
  const { book } = useShop();
  const found = useLive(
    async () => ({
      moulds: await headsOf(book, 'moulds'),
      mixes: mixChoices(await headsOf(book, 'mixes'), await headsOf(book, 'colourways')),
      prices: pricesOf(await shelfOf(book)),
      columns: await allColumns(book),
      settings: await settingsOf(book),
    }),
    [...shelfTables, 'moulds', 'mixes', 'colourways', 'settings'],
    'cost',
  );
  if (!found) return null;
  const { moulds, mixes, ...scene } = found;
  const isReady = moulds.length > 0 && mixes.length > 0;
  return (
    <DeskPage
      title="What a bait costs"
      tool={<ToolKey href={hrefTo({ at: 'shelf' })} icon="back" word="Shelf" />}
    >
      {isReady ? (
        <BaitCostPage moulds={moulds} mixes={mixes} scene={scene} />
      ) : (
        <Sheet>
          <p>It takes a mould and a mix. A mix is written at its colour.</p>
          <ActKey href={hrefTo({ at: moulds.length === 0 ? 'moulds' : 'colours' })}>
            {moulds.length === 0 ? 'To the moulds' : 'To the colours'}
          </ActKey>
        </Sheet>
      )}
    </DeskPage>
  );
}
