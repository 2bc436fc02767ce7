import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import type { ColourwayId } from '#model/gear.ts';
import type { Photo } from '#model/photo.ts';
import { AddPhoto } from '#screens/AddPhoto.tsx';
import { NotHere } from '#screens/NotHere.tsx';
import { PhotoTile } from '#screens/PhotoTile.tsx';
import { comparedWords } from '#screens/photo-words.ts';
import { hrefTo } from '#screens/routes.ts';
import { headOf } from '#store/heads.ts';
import { photosOfColourway, photoTables } from '#store/photos.ts';
import { DeskPage } from '#ui/DeskPage.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import { ToolKey } from '#ui/ToolKey.tsx';
import styles from './PhotosScreen.module.css';

/** All photos of a colour side by side in the same crop, newest first: is it the same? */
export function PhotosScreen({ colourwayId }: { colourwayId: ColourwayId }) {
  const { book } = useShop();
  const found = useLive(
    async () => ({
      colourway: await headOf(book, 'colourways', colourwayId),
      photos: await photosOfColourway(book, colourwayId),
    }),
    ['colourways', ...photoTables],
    colourwayId,
  );
  if (!found) return null;
  const { colourway, photos } = found;
  if (!colourway) return <NotHere what="This colour" back={{ at: 'colours' }} word="Colours" />;
  return (
    <DeskPage
      title="Same?"
      small={colourway.name}
      shape="wall"
      tool={<ToolKey href={hrefTo({ at: 'colour', colourwayId })} icon="back" word="Colour" />}
    >
      <Sheet>
        <p>{rowWords(photos)}</p>
        <ul class={styles.row}>
          {photos.map((photo) => (
            <li key={photo.id}>
              <PhotoTile photo={photo} {...besideNewest(photo, photos)} />
            </li>
          ))}
        </ul>
        <AddPhoto of={{ shows: 'bait', colourwayId }} />
      </Sheet>
    </DeskPage>
  );
}

function rowWords(photos: readonly Photo[]): string {
  if (photos.length === 0) return 'No photo of this colour yet.';
  const read = photos.filter((photo) => readingOf(photo) !== null);
  return read.length > 1
    ? 'Each is compared with the newest whose colour was read.'
    : 'Newest first, all in the same crop. Read the colour of two to have them compared.';
}

/** How a photo compares with the newest that was read. */
function besideNewest(photo: Photo, photos: readonly Photo[]): { small?: string } {
  const newest = photos.find((other) => readingOf(other) !== null);
  const own = readingOf(photo);
  if (!newest || !own) return {};
  if (newest.id === photo.id) return { small: 'read' };
  const other = newest.readings.find(({ part, fault }) => part === own.part && fault === null);
  return other ? { small: comparedWords(own.lab, other.lab) } : {};
}

/** The first spot that was read without a fault. */
function readingOf({ readings }: Photo) {
  return readings.find(({ fault }) => fault === null) ?? null;
}
