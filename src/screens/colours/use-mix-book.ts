import { pricesOf } from '#calc/mix-price.ts';
import { byId, calledNow } from '#calc/names-now.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import type { ColourwayId } from '#model/gear.ts';
import type { Material } from '#model/material.ts';
import { headOf, headsOf } from '#store/heads.ts';
import { allColumns } from '#store/history.ts';
import { poursOf, versionsOf } from '#store/mixes.ts';
import { photosOfColourway } from '#store/photos.ts';
import { remarksThat } from '#store/remarks.ts';
import { settingsOf } from '#store/settings.ts';
import { shelfOf, shelfTables } from '#store/stock.ts';
import { usualPlastisol } from '#store/usual-plastisol.ts';

/** Everything a page about one colour's mix needs; undefined while it is read. */
export function useMixBook(colourwayId: ColourwayId) {
  const { book } = useShop();
  return useLive(
    async () => {
      const materials = await headsOf(book, 'materials');
      const known = byId<Material>(materials);
      const versions = (await versionsOf(book, colourwayId)).map((mix) => calledNow(mix, known));
      const columns = await allColumns(book);
      return {
        colourway: await headOf(book, 'colourways', colourwayId),
        versions,
        pours: await poursOf(
          book,
          versions.map(({ id }) => id),
          columns,
        ),
        mixes: await headsOf(book, 'mixes'),
        moulds: await headsOf(book, 'moulds'),
        ...(await remarksThat(book, (one) => one.colourwayId === colourwayId)),
        photo: (await photosOfColourway(book, colourwayId)).find(({ isDrawn }) => !isDrawn),
        materials: known,
        usualPlastisolId: await usualPlastisol(book, materials),
        settings: await settingsOf(book),
        prices: pricesOf(await shelfOf(book)),
        columns,
      };
    },
    [...shelfTables, 'colourways', 'mixes', 'moulds', 'photos', 'remarks', 'settings', 'sealed'],
    colourwayId,
  );
}

export type MixBook = NonNullable<ReturnType<typeof useMixBook>>;
