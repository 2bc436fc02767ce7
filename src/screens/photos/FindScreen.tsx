import { useState } from 'preact/hooks';
import { dayOf } from '#calc/days.ts';
import { foundEvenings, foundPhotos, monthsOf, type Wanted } from '#calc/find.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import { PhotoTile } from '#screens/PhotoTile.tsx';
import { Pick } from '#screens/photos/Pick.tsx';
import { hrefTo } from '#screens/routes.ts';
import { countWords, dateWords, joined, monthWords } from '#screens/words.ts';
import { headsOf } from '#store/heads.ts';
import { allColumns } from '#store/history.ts';
import { baitPhotos, photoTables } from '#store/photos.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { DeskPage } from '#ui/DeskPage.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import { ToolKey } from '#ui/ToolKey.tsx';
import styles from './PhotosScreen.module.css';

const [photosShown, eveningsShown] = [24, 12];
const anything: Wanted = { colourwayId: null, mouldId: null, month: null };

/** Photos and evenings by colour, mould and month, by eye. */
export function FindScreen() {
  const { book, clock } = useShop();
  const [wanted, setWanted] = useState(anything);
  const [isAll, setIsAll] = useState(false);
  const found = useLive(
    async () => ({
      photos: await baitPhotos(book),
      columns: await allColumns(book),
      colourways: await headsOf(book, 'colourways'),
      moulds: await headsOf(book, 'moulds'),
    }),
    [...photoTables, 'columns', 'colourways', 'moulds'],
    'find',
  );
  if (!found) return null;
  const zone = clock.zone();
  const today = dayOf(clock.now(), zone);
  const photos = foundPhotos(found.photos, wanted, zone);
  const evenings = foundEvenings(found.columns, wanted);
  const months = monthsOf([
    ...found.photos.map(({ takenAt }) => dayOf(takenAt, zone)),
    ...found.columns.map((session) => dayOf(session.startedAt, session.zone)),
  ]);
  const set = (change: Partial<Wanted>) => {
    setWanted({ ...wanted, ...change });
    setIsAll(false);
  };
  return (
    <DeskPage
      title="Find"
      small={`${countWords(photos.length, 'photo')}, ${countWords(evenings.length, 'evening')}`}
      shape="wall"
      tool={<ToolKey href={hrefTo({ at: 'colours' })} icon="back" word="Colours" />}
    >
      <Sheet>
        <div class={styles.picks}>
          <Pick
            label="Colour"
            value={wanted.colourwayId}
            of={found.colourways.map(({ id, name }) => [id, name])}
            onPick={(colourwayId) => set({ colourwayId })}
          />
          <Pick
            label="Mould"
            value={wanted.mouldId}
            of={found.moulds.map(({ id, name }) => [id, name])}
            onPick={(mouldId) => set({ mouldId })}
          />
          <Pick
            label="Month"
            value={wanted.month}
            of={months.map((month) => [month, monthWords(month)])}
            onPick={(month) => set({ month })}
          />
        </div>
      </Sheet>
      <Sheet title="Photos">
        {photos.length === 0 && <p role="status">No photo like that.</p>}
        <ul class={styles.row}>
          {photos.slice(0, isAll ? photos.length : photosShown).map((photo) => (
            <li key={photo.id}>
              <PhotoTile photo={photo} small={nameOf(found.colourways, photo.colourwayId)} />
            </li>
          ))}
        </ul>
        {!isAll && photos.length > photosShown && (
          <ActKey onPress={() => setIsAll(true)}>Show all {photos.length} photos</ActKey>
        )}
      </Sheet>
      <Sheet title="Evenings">
        {evenings.length === 0 && <p role="status">No evening like that.</p>}
        {evenings.slice(0, isAll ? evenings.length : eveningsShown).map((session) => (
          <ActKey
            key={session.sessionId}
            href={hrefTo({ at: 'session', sessionId: session.sessionId })}
            small={joined(session.moulds.map(({ name }) => name))}
          >
            {dateWords(dayOf(session.startedAt, session.zone), today)}
          </ActKey>
        ))}
        {!isAll && evenings.length > eveningsShown && (
          <ActKey onPress={() => setIsAll(true)}>Show all {evenings.length} evenings</ActKey>
        )}
      </Sheet>
    </DeskPage>
  );
}

function nameOf(named: readonly { id: string; name: string }[], id: string | null): string {
  return named.find((one) => one.id === id)?.name ?? 'no colour told';
}
