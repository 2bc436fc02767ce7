import { useShop } from '#live/shop.ts';
import type { Photo } from '#model/photo.ts';
import { ColourSpot } from '#screens/ColourSpot.tsx';
import { PhotoPicture } from '#screens/PhotoPicture.tsx';
import { faultWords, partWords, teachesNothing } from '#screens/photo-words.ts';
import { Refusal } from '#screens/Refusal.tsx';
import { useOneAct } from '#screens/use-one-act.ts';
import { changeHead } from '#store/heads.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Acts } from '#ui/Acts.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import styles from './PhotosScreen.module.css';

const ratings = [1, 2, 3, 4, 5] as const;

/** The picture, how the person likes it and what was read off it. */
export function PhotoKnown({ photo }: { photo: Photo }) {
  const { book, clock } = useShop();
  const { act, trouble } = useOneAct();
  const rate = (next: number) =>
    void act(async () => {
      const rating = next === photo.rating ? null : next;
      await changeHead(book, 'photos', photo.id, { rating }, clock.now());
      return null;
    }, `${next}`);
  return (
    <Sheet title="How it came out, of 5">
      <div class={styles.whole}>
        <PhotoPicture id={photo.id} alt={photo.isDrawn ? 'The bait, drawn' : 'The bait'} />
      </div>
      <Acts label="How it came out, of 5">
        {ratings.map((value) => (
          <ActKey
            key={value}
            isPressed={photo.rating === value}
            label={`${value} of 5`}
            onPress={() => rate(value)}
          >
            {value}
          </ActKey>
        ))}
      </Acts>
      <Refusal says={trouble} />
      {photo.readings.map(({ part, lab, fault }) => (
        <div key={part}>
          <ColourSpot lab={lab} words={`${partWords[part]}, as read`} />
          {fault && (
            <p>
              {faultWords[fault]} {teachesNothing}
            </p>
          )}
        </div>
      ))}
    </Sheet>
  );
}
