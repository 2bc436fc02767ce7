import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import type { Photo, PhotoReading } from '#model/photo.ts';
import { PhotoTile } from '#screens/PhotoTile.tsx';
import { headOf } from '#store/heads.ts';
import styles from './NearestPhoto.module.css';

interface Props {
  photo: Photo | null;
  /** True: it looks most like the guess; false: it is only the newest of the colour. */
  isNearest: boolean;
  /** The part of its bait that is meant; absent: all of it. */
  part?: PhotoReading['part'];
}

const partWords = { only: '', a: ', side A', line: '', b: ', side B' } as const;

/** The real bait that a guess is to be held against. */
export function NearestPhoto({ photo, isNearest, part = 'only' }: Props) {
  const { book } = useShop();
  const colourwayId = photo?.colourwayId ?? null;
  const colourway = useLive(
    async () => (colourwayId ? await headOf(book, 'colourways', colourwayId) : null),
    ['colourways'],
    colourwayId ?? 'none',
  );
  if (!photo) return <p>No photo of yours to hold it against yet.</p>;
  const name = `${colourway?.name ?? 'a colour'}${partWords[part]}`;
  return (
    <div class={styles.near}>
      <p>{isNearest ? `Nearest real bait: ${name}.` : `The newest real bait: ${name}.`}</p>
      <PhotoTile photo={photo} />
    </div>
  );
}
