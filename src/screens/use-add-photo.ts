import { useState } from 'preact/hooks';
import { headerBytes, pictureHeader } from '#calc/picture-header.ts';
import { useShop } from '#live/shop.ts';
import { mostPhotoBytes, mostPhotoPx, type Photo } from '#model/photo.ts';
import { useTurns } from '#screens/use-turns.ts';
import { addPhoto, type PhotoOf } from '#store/photos.ts';

/** What a file field takes. Without HEIC in it, phones that take HEIC hand over a JPEG (from memory). */
export const photoTypes = 'image/jpeg,image/png,image/webp';

/** Beyond this a phone may run out of memory on opening it. */
const mostPoints = 50_000_000;
const mostFileBytes = 60_000_000;

/** What a file may be refused for, before or while it is opened. */
export const photoRefusals = {
  none: 'This is no photo. Take a JPEG, PNG or WebP picture.',
  large: 'This picture is too large. Choose one of at most 50 million points.',
  damaged: 'This picture does not open. Take it again.',
  waits: 'This phone is full. Shots go first, photos wait. Free some space and try again.',
  full: 'No room for this photo. All else is kept. Free some space and try again.',
} as const;

/** Makes a file small and keeps it, one after the other. `trouble` is a sentence when the last one was refused. */
export function useAddPhoto(of: PhotoOf) {
  const { book, clock, pictures, safety, touch } = useShop();
  const inTurn = useTurns();
  const [underWay, setUnderWay] = useState(0);
  const [trouble, setTrouble] = useState('');

  async function keep(file: File): Promise<Photo | string> {
    // What little room there is belongs to the log of a session.
    const isFull = safety.state().trouble === 'full';
    if (isFull && !(await safety.hasRoom().catch(() => false))) return photoRefusals.waits;
    if (file.size > mostFileBytes) return photoRefusals.large;
    const start = await file.slice(0, headerBytes).arrayBuffer();
    const header = pictureHeader(new Uint8Array(start));
    if (!header) return photoRefusals.none;
    if (header.widthPx * header.heightPx > mostPoints) return photoRefusals.large;
    const limits = { mostPx: mostPhotoPx, mostBytes: mostPhotoBytes };
    const picture = await pictures.remake(file, limits, header).catch(() => null);
    if (!picture) return photoRefusals.damaged;
    return await addPhoto(book, of, picture, clock.now()).catch(() => photoRefusals.full);
  }

  /** Resolves to the kept photo; null: it was refused. */
  async function add(file: File): Promise<Photo | null> {
    // Given while another is made small, it does not take away what that one is refused for.
    if (underWay === 0) setTrouble('');
    setUnderWay((now) => now + 1);
    const kept = await inTurn(file, () => keep(file).catch(() => photoRefusals.damaged));
    setUnderWay((now) => now - 1);
    if (kept === null) return null;
    if (typeof kept === 'string') {
      setTrouble(kept);
      touch.refuse();
      return null;
    }
    touch.confirm();
    return kept;
  }

  return { add, trouble, isBusy: underWay > 0 };
}
