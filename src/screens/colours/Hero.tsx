import type { Colourway } from '#model/gear.ts';
import type { Photo } from '#model/photo.ts';
import { PhotoPicture } from '#screens/PhotoPicture.tsx';
import { hrefTo } from '#screens/routes.ts';
import styles from './Mix.module.css';

const letters = ['A', 'B'];

interface Props {
  colourway: Colourway;
  /** The newest photo of the real bait; none: the look it was given stands for it. */
  photo: Photo | undefined;
}

/** The look of a colour: the real bait, or its swatches with their join line, A on the left. */
export function Hero({ colourway: { sides }, photo }: Props) {
  const label = sides.map(({ name }, side) => `${sides.length > 1 ? letters[side] : ''} ${name}`);
  const named = label.join(', ').trim();
  if (photo) {
    return (
      <a class={styles.heroPhoto} href={hrefTo({ at: 'photo', photoId: photo.id })}>
        <PhotoPicture id={photo.id} alt={`The newest photo: ${named}`} />
      </a>
    );
  }
  return (
    <div class={styles.hero} role="img" aria-label={named}>
      {sides.map(({ swatch }, side) => (
        <i key={letters[side]} style={{ '--swatch': swatch }} />
      ))}
    </div>
  );
}
