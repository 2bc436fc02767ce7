import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import type { MaterialId } from '#model/material.ts';
import { NotHere } from '#screens/NotHere.tsx';
import { MaterialPage } from '#screens/shelf/MaterialPage.tsx';
import { jarOf } from '#screens/shelf/shelf-view.ts';
import { headOf } from '#store/heads.ts';
import { settingsOf } from '#store/settings.ts';
import { movementsOf, shelfOf, shelfTables } from '#store/stock.ts';

/** One material: what is there, everything that moved it, and how it is measured. */
export function MaterialScreen({ materialId }: { materialId: MaterialId }) {
  const { book } = useShop();
  const found = useLive(
    async () => ({
      material: await headOf(book, 'materials', materialId),
      shelf: await shelfOf(book),
      movements: await movementsOf(book, materialId),
      settings: await settingsOf(book),
    }),
    [...shelfTables, 'settings'],
    materialId,
  );
  if (!found) return null;
  const { material, shelf, movements, settings } = found;
  if (!material) return <NotHere what="This material" back={{ at: 'shelf' }} word="Shelf" />;
  return <MaterialPage jar={jarOf(material, shelf)} movements={movements} settings={settings} />;
}
