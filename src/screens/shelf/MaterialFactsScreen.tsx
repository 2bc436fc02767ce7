import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import type { MaterialId } from '#model/material.ts';
import { NotHere } from '#screens/NotHere.tsx';
import { hrefTo } from '#screens/routes.ts';
import { MaterialForm } from '#screens/shelf/MaterialForm.tsx';
import { unitsOf } from '#screens/shelf/shelf-view.ts';
import { headOf } from '#store/heads.ts';
import { settingsOf } from '#store/settings.ts';
import { movementsOf } from '#store/stock.ts';
import { DeskPage } from '#ui/DeskPage.tsx';
import { ToolKey } from '#ui/ToolKey.tsx';

/** What is known about a material; null: a new one. */
export function MaterialFactsScreen({ materialId }: { materialId: MaterialId | null }) {
  const { book } = useShop();
  const found = useLive(
    async () => ({
      material: materialId ? await headOf(book, 'materials', materialId) : null,
      hasJournal: materialId ? (await movementsOf(book, materialId)).length > 0 : false,
      settings: await settingsOf(book),
    }),
    ['materials', 'movements', 'settings'],
    materialId ?? 'new',
  );
  if (!found) return null;
  const { material, hasJournal, settings } = found;
  if (material === undefined) {
    return <NotHere what="This material" back={{ at: 'shelf' }} word="Shelf" />;
  }
  return (
    <DeskPage
      title={material?.name ?? 'A new material'}
      small="Leave empty what you do not know"
      shape="wall"
      tool={
        <ToolKey
          href={hrefTo(materialId ? { at: 'material', materialId } : { at: 'shelf' })}
          icon="back"
          word="Back"
        />
      }
    >
      <MaterialForm material={material} units={unitsOf(settings)} hasJournal={hasJournal} />
    </DeskPage>
  );
}
