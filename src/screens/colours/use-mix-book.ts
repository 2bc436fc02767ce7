import { pricesOf } from '#calc/mix-price.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import type { ColourwayId } from '#model/gear.ts';
import type { Material } from '#model/material.ts';
import type { Remark } from '#model/photo.ts';
import { deletedHeadsOf, headOf, headsOf } from '#store/heads.ts';
import { allColumns } from '#store/history.ts';
import { poursOf, versionsOf } from '#store/mixes.ts';
import { photosOfColourway } from '#store/photos.ts';
import { settingsOf } from '#store/settings.ts';
import { shelfOf, shelfTables } from '#store/stock.ts';
import { usualPlastisol } from '#store/usual-plastisol.ts';

/** Everything a page about one colour's mix needs; undefined while it is read. */
export function useMixBook(colourwayId: ColourwayId) {
  const { book } = useShop();
  return useLive(
    async () => {
      const versions = await versionsOf(book, colourwayId);
      const materials = await headsOf(book, 'materials');
      const columns = await allColumns(book);
      // A note on a mix from before it had its name may come from another window or phone.
      const isOfColour = (one: Remark) =>
        one.colourwayId === colourwayId ||
        (one.colourwayId === null && versions.some(({ id }) => id === one.mixId));
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
        remarks: (await headsOf(book, 'remarks')).filter(isOfColour),
        takenOff: (await deletedHeadsOf(book, 'remarks')).filter(isOfColour),
        photo: (await photosOfColourway(book, colourwayId)).find(({ isDrawn }) => !isDrawn),
        materials: new Map<string, Material>(materials.map((one) => [one.id, one])),
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
