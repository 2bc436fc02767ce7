import type { Photo } from '#model/photo.ts';
import { Refusal } from '#screens/Refusal.tsx';
import { photoTypes, useAddPhoto } from '#screens/use-add-photo.ts';
import type { PhotoOf } from '#store/photos.ts';
import { Acts } from '#ui/Acts.tsx';
import { FileKey } from '#ui/FileKey.tsx';
import { useIsHere } from '#ui/use-is-here.ts';

interface Props {
  of: PhotoOf;
  /** Where it leads from this page, if the person is still on it. */
  onAdded?: (photo: Photo) => void;
}

/** Two ways to a photo: the camera, or a picture that is there. Refusals stand right under them. */
export function AddPhoto({ of, onAdded }: Props) {
  const { add, trouble, isBusy } = useAddPhoto(of);
  const isHere = useIsHere();
  const take = (file: File) =>
    void add(file).then((photo) => {
      if (photo && isHere.current) onAdded?.(photo);
    });
  return (
    <>
      <Acts>
        <FileKey word="Take a photo" accept={photoTypes} takes onFile={take} />
        <FileKey word="Choose a picture" accept={photoTypes} onFile={take} />
      </Acts>
      {isBusy && <p role="status">Making the picture small</p>}
      <Refusal says={trouble} />
    </>
  );
}
