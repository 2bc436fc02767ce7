import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import type { ColourwayId } from '#model/gear.ts';
import type { MixId } from '#model/mix.ts';
import { AddPhoto } from '#screens/AddPhoto.tsx';
import { PhotoTile } from '#screens/PhotoTile.tsx';
import { hrefTo } from '#screens/routes.ts';
import { photosOfColourway, photosOfMix, photoTables } from '#store/photos.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import styles from './PhotoStrip.module.css';

/** As many as fit two rows of a phone; the rest is one press away. */
const shown = 4;

/** What the photos are of: a colour, or a mix that has no name yet. */
type Of = { colourwayId: ColourwayId } | { mixId: MixId };

/** The newest photos of a colour, the way to all of them side by side, and to a new one. */
export function PhotoStrip(of: Of) {
  const { book } = useShop();
  const colourwayId = 'colourwayId' in of ? of.colourwayId : null;
  const photos = useLive(
    () => ('mixId' in of ? photosOfMix(book, of.mixId) : photosOfColourway(book, of.colourwayId)),
    photoTables,
    'mixId' in of ? of.mixId : of.colourwayId,
  );
  if (!photos) return null;
  return (
    <Sheet title="Photos" {...(photos.length > 0 ? { aside: 'Newest first' } : {})}>
      {photos.length === 0 && (
        <p>No photo yet. A grey card and white paper beside the bait help to read its colour.</p>
      )}
      {photos.length > 0 && (
        <ul class={styles.row}>
          {photos.slice(0, colourwayId ? shown : photos.length).map((photo) => (
            <li key={photo.id}>
              <PhotoTile photo={photo} />
            </li>
          ))}
        </ul>
      )}
      {colourwayId && photos.length > 1 && (
        <ActKey size="big" small="All side by side" href={hrefTo({ at: 'photos', colourwayId })}>
          Same?
        </ActKey>
      )}
      <AddPhoto
        of={
          'mixId' in of
            ? { shows: 'bait', colourwayId: null, mixId: of.mixId }
            : { shows: 'bait', colourwayId: of.colourwayId }
        }
      />
    </Sheet>
  );
}
