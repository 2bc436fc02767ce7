import { usePicture } from '#live/use-picture.ts';
import type { PhotoId } from '#model/photo.ts';
import styles from './PhotoPicture.module.css';

interface Props {
  id: PhotoId;
  /** What it shows, in words. Empty: the words stand beside it. */
  alt: string;
}

/** A stored picture in a square crop of its middle, the same for every picture. */
export function PhotoPicture({ id, alt }: Props) {
  const url = usePicture(id);
  return <span class={styles.frame}>{url && <img src={url} alt={alt} decoding="async" />}</span>;
}
