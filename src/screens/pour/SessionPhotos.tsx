import { pouredBy, pouredIn } from '#calc/poured-bait.ts';
import type { Shot, Table } from '#calc/table.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import type { SessionId } from '#model/entry.ts';
import { AddPhoto } from '#screens/AddPhoto.tsx';
import { shotName } from '#screens/entry-words.ts';
import { PhotoTile } from '#screens/PhotoTile.tsx';
import { photosOfSession, photoTables } from '#store/photos.ts';
import { Sheet } from '#ui/Sheet.tsx';
import styles from './SessionPhotos.module.css';

interface Props {
  table: Table;
  sessionId: SessionId;
  /** The shot that is chosen on the page: a new photo is of it; null: of the evening. */
  shot: Shot | null;
}

/** The photos of an evening, each with its shot, and the way to one more. */
export function SessionPhotos({ table, sessionId, shot }: Props) {
  const { book } = useShop();
  const photos = useLive(() => photosOfSession(book, sessionId), photoTables, sessionId);
  if (!photos) return null;
  const { colourwayId, ...poured } = shot
    ? pouredIn(table, sessionId, shot)
    : pouredBy(table, sessionId);
  return (
    <Sheet title="Photos">
      {photos.length > 0 && (
        <ul class={styles.row}>
          {photos.map((photo) => {
            const own = table.shots.find(({ id }) => id === photo.shotId);
            return (
              <li key={photo.id}>
                <PhotoTile photo={photo} small={own ? shotName(table, own) : 'the evening'} />
              </li>
            );
          })}
        </ul>
      )}
      <p role="status">
        {shot
          ? `A new photo is of ${shotName(table, shot)}.`
          : 'A new photo is of the evening. Press a shot first to have it of that shot.'}
      </p>
      <AddPhoto of={{ shows: 'bait', colourwayId, poured }} />
    </Sheet>
  );
}
