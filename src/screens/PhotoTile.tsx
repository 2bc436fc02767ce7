import { dayOf } from '#calc/days.ts';
import { useShop } from '#live/shop.ts';
import type { Photo } from '#model/photo.ts';
import { PhotoPicture } from '#screens/PhotoPicture.tsx';
import { hrefTo } from '#screens/routes.ts';
import { dateWords } from '#screens/words.ts';
import styles from './PhotoTile.module.css';

/** One photo as a key to its page, with its day; a drawn one says so. */
export function PhotoTile({ photo, small }: { photo: Photo; small?: string }) {
  const { clock } = useShop();
  const day = dayOf(photo.takenAt, clock.zone());
  return (
    <a class={styles.tile} href={hrefTo({ at: 'photo', photoId: photo.id })}>
      <PhotoPicture id={photo.id} alt="" />
      <b>{dateWords(day, dayOf(clock.now(), clock.zone()))}</b>
      {photo.isDrawn && <span>drawn, no photo</span>}
      {photo.rating !== null && <span>{photo.rating} of 5</span>}
      {small && <span>{small}</span>}
    </a>
  );
}
