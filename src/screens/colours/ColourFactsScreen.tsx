import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import type { ColourwayId } from '#model/gear.ts';
import { ColourForm } from '#screens/colours/ColourForm.tsx';
import { NotHere } from '#screens/NotHere.tsx';
import { hrefTo, type Route } from '#screens/routes.ts';
import { headOf } from '#store/heads.ts';
import { DeskPage } from '#ui/DeskPage.tsx';
import { ToolKey } from '#ui/ToolKey.tsx';

/** Name and look of a colourway; null: a new one. */
export function ColourFactsScreen({ colourwayId }: { colourwayId: ColourwayId | null }) {
  const { book } = useShop();
  const found = useLive(
    async () => ({
      colourway: colourwayId ? await headOf(book, 'colourways', colourwayId) : null,
    }),
    ['colourways'],
    colourwayId ?? 'new',
  );
  if (!found) return null;
  const { colourway } = found;
  if (colourway === undefined) {
    return <NotHere what="This colour" back={{ at: 'colours' }} word="Colours" />;
  }
  const back: Route = colourway ? { at: 'colour', colourwayId: colourway.id } : { at: 'colours' };
  return (
    <DeskPage
      title={colourway?.name ?? 'A new colour'}
      shape="wall"
      tool={<ToolKey href={hrefTo(back)} icon="back" word={colourway ? 'Colour' : 'Colours'} />}
    >
      <ColourForm colourway={colourway} />
    </DeskPage>
  );
}
