import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import type { ColourwayId } from '#model/gear.ts';
import type { Material } from '#model/material.ts';
import { headOf, headsOf } from '#store/heads.ts';
import { poursOf, versionsOf } from '#store/mixes.ts';
import { settingsOf } from '#store/settings.ts';

/** Everything a page about one colour's mix needs; undefined while it is read. */
export function useMixBook(colourwayId: ColourwayId) {
  const { book } = useShop();
  return useLive(
    async () => {
      const versions = await versionsOf(book, colourwayId);
      const materials = await headsOf(book, 'materials');
      return {
        colourway: await headOf(book, 'colourways', colourwayId),
        versions,
        pours: await poursOf(
          book,
          versions.map(({ id }) => id),
        ),
        mixes: await headsOf(book, 'mixes'),
        moulds: await headsOf(book, 'moulds'),
        remarks: (await headsOf(book, 'remarks')).filter((one) => one.colourwayId === colourwayId),
        materials: new Map<string, Material>(materials.map((one) => [one.id, one])),
        settings: await settingsOf(book),
      };
    },
    ['colourways', 'mixes', 'materials', 'moulds', 'remarks', 'settings', 'sealed', 'entries'],
    colourwayId,
  );
}

export type MixBook = NonNullable<ReturnType<typeof useMixBook>>;
