import { dayOf } from '#calc/days.ts';
import { lastPoured } from '#calc/last-poured.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import { NamelessList } from '#screens/colours/NamelessList.tsx';
import { SentMixes } from '#screens/colours/SentMixes.tsx';
import { PhotoPicture } from '#screens/PhotoPicture.tsx';
import { hrefTo } from '#screens/routes.ts';
import { dateWords } from '#screens/words.ts';
import { headsOf } from '#store/heads.ts';
import { allColumns } from '#store/history.ts';
import { newestPhotos, photoTables } from '#store/photos.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { DeskPage } from '#ui/DeskPage.tsx';
import { ToolKey } from '#ui/ToolKey.tsx';
import styles from './ColoursScreen.module.css';

const sides = ['A', 'B'];

/** The wall of colours, last poured first. */
export function ColoursScreen() {
  const { book, clock } = useShop();
  const wall = useLive(
    async () => {
      const last = lastPoured(await allColumns(book));
      const colourways = await headsOf(book, 'colourways');
      const photos = await newestPhotos(book);
      return colourways
        .map((colourway) => ({
          colourway,
          at: last.get(colourway.id) ?? null,
          photo: photos.get(colourway.id) ?? null,
        }))
        .sort((a, b) => (b.at ?? 0) - (a.at ?? 0));
    },
    ['colourways', 'columns', ...photoTables],
    'colours',
  );
  if (!wall) return null;
  const today = dayOf(clock.now(), clock.zone());
  return (
    <DeskPage
      title="Colours"
      small="Last poured first"
      shape="wall"
      tool={<ToolKey href={hrefTo({ at: 'workshop' })} icon="workshop" word="Workshop" />}
    >
      <ul class={styles.wall}>
        {wall.map(({ colourway, at, photo }) => (
          <li key={colourway.id}>
            <a class={styles.colour} href={hrefTo({ at: 'colour', colourwayId: colourway.id })}>
              {photo ? (
                <span class={styles.photo}>
                  <PhotoPicture id={photo.id} alt="" />
                </span>
              ) : (
                <span class={styles.swatch} aria-hidden="true">
                  {colourway.sides.map(({ swatch }, side) => (
                    <i key={sides[side]} style={{ '--swatch': swatch }} />
                  ))}
                </span>
              )}
              <b>{colourway.name}</b>
              <span>
                {at === null ? 'not poured yet' : dateWords(dayOf(at, clock.zone()), today)}
              </span>
              {photo?.isDrawn && <span>drawn, no photo</span>}
            </a>
          </li>
        ))}
      </ul>
      <ActKey href={hrefTo({ at: 'colour-facts', colourwayId: null })}>New colour</ActKey>
      <ActKey href={hrefTo({ at: 'find-photo' })}>Find a photo or an evening</ActKey>
      <ActKey href={hrefTo({ at: 'ideas' })}>What shall I pour?</ActKey>
      <ActKey href={hrefTo({ at: 'take-mix', packed: null })}>Take in a mix</ActKey>
      <SentMixes />
      <NamelessList />
    </DeskPage>
  );
}
