import { useEffect, useState } from 'preact/hooks';
import { useShop } from '#live/shop.ts';
import type { PhotoId } from '#model/photo.ts';
import { pictureOf } from '#store/photos.ts';

/** The address of a stored picture for an `img`; null while it is fetched or when there is none. */
export function usePicture(id: PhotoId | null): string | null {
  const { book, pictures } = useShop();
  const [shown, setShown] = useState<{ id: PhotoId; url: string } | null>(null);
  useEffect(() => {
    if (id === null) return;
    let isOver = false;
    let letGo = () => {};
    pictureOf(book, id).then(
      (picture) => {
        if (isOver || !picture) return;
        const held = pictures.show(picture);
        letGo = held.letGo;
        setShown({ id, url: held.url });
      },
      // A picture that cannot be read leaves its words standing.
      () => {},
    );
    return () => {
      isOver = true;
      letGo();
    };
  }, [book, pictures, id]);
  return shown?.id === id ? shown.url : null;
}
