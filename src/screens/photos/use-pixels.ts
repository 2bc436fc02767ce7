import { useEffect, useState } from 'preact/hooks';
import type { Raster } from '#calc/patch.ts';
import { useShop } from '#live/shop.ts';
import type { PhotoId } from '#model/photo.ts';
import { pictureOf } from '#store/photos.ts';

/** The points of a stored picture; undefined while they are fetched, null when it does not open. */
export function usePixels(id: PhotoId): Raster | null | undefined {
  const { book, pictures } = useShop();
  const [pixels, setPixels] = useState<Raster | null>();
  useEffect(() => {
    let isOver = false;
    const fetched = async () => {
      const picture = await pictureOf(book, id);
      return picture && (await pictures.pixelsOf(picture));
    };
    const set = (found: Raster | null) => {
      if (!isOver) setPixels(found);
    };
    fetched().then(set, () => set(null));
    return () => {
      isOver = true;
    };
  }, [book, pictures, id]);
  return pixels;
}
