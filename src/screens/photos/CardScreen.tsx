import { useState } from 'preact/hooks';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import type { Material, MaterialId } from '#model/material.ts';
import { AddPhoto } from '#screens/AddPhoto.tsx';
import { NotHere } from '#screens/NotHere.tsx';
import { PhotoTile } from '#screens/PhotoTile.tsx';
import { stepWords } from '#screens/photo-words.ts';
import { CardPicture } from '#screens/photos/CardPicture.tsx';
import { Refusal } from '#screens/Refusal.tsx';
import { hrefTo } from '#screens/routes.ts';
import { useOneAct } from '#screens/use-one-act.ts';
import { changeHead, headOf } from '#store/heads.ts';
import { cardPhotosOf } from '#store/photos.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { DeskPage } from '#ui/DeskPage.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import { ToolKey } from '#ui/ToolKey.tsx';
import styles from './PhotosScreen.module.css';

/** How to photograph a bait of one material, and what its card photos taught. */
export function CardScreen({ materialId }: { materialId: MaterialId }) {
  const { book } = useShop();
  const found = useLive(
    async () => ({
      material: await headOf(book, 'materials', materialId),
      photos: await cardPhotosOf(book, materialId),
    }),
    ['materials', 'photos'],
    materialId,
  );
  if (!found) return null;
  const { material, photos } = found;
  if (!material) return <NotHere what="This material" back={{ at: 'colours' }} word="Colours" />;
  return (
    <DeskPage
      title={material.name}
      small="On the card"
      shape="one"
      tool={<ToolKey href={hrefTo({ at: 'material', materialId })} icon="back" word="Material" />}
    >
      <Sheet title="The photo">
        <CardPicture />
        <p>{howWords(material)}</p>
        <p>
          White paper, a matt black strip and a grey card. The bait lies across the edge of the
          strip, pressed flat. One lamp or open shade, no flash, the phone straight above.
        </p>
        <AddPhoto
          of={{ shows: 'card', materialId }}
          onAdded={({ id }) => {
            window.location.hash = hrefTo({ at: 'photo', photoId: id });
          }}
        />
      </Sheet>
      <Sheet title="What is known" place="beside">
        <Known material={material} />
        {photos.length > 0 && (
          <ul class={styles.row}>
            {photos.map((photo) => (
              <li key={photo.id}>
                <PhotoTile photo={photo} small={photo.readings.length > 0 ? 'read' : 'not read'} />
              </li>
            ))}
          </ul>
        )}
      </Sheet>
    </DeskPage>
  );
}

function howWords({ kind, name }: Material): string {
  if (kind === 'plastisol') return `Pour a bait of ${name} with no colour in it.`;
  return `Pour a bait with ${name} and no other colour in it.`;
}

/** What the card taught, and the way to forget it and to have it back. */
function Known({ material }: { material: Material }) {
  const { book, clock } = useShop();
  const { act, trouble } = useOneAct();
  const [forgotten, setForgotten] = useState<Material['optics']>(null);
  const { optics } = material;
  const set = (next: Material['optics']) =>
    void act(async () => {
      await changeHead(book, 'materials', material.id, { optics: next }, clock.now());
      setForgotten(next === null ? optics : null);
      return null;
    });
  return (
    <>
      <p>{opticsWords(material)}</p>
      {optics && <ActKey onPress={() => set(null)}>Forget this card</ActKey>}
      {!optics && forgotten && <ActKey onPress={() => set(forgotten)}>Bring back</ActKey>}
      <Refusal says={trouble} />
    </>
  );
}

function opticsWords(material: Material): string {
  const { optics, kind, glowsOrChanges } = material;
  if (glowsOrChanges) return 'It glows or changes: no forecast covers it, with a card or without.';
  if (!optics) return 'No card was read yet. Until then no mix with it is forecast.';
  const where = optics.isOnCard ? 'over white and over black' : 'over white alone';
  if (kind === 'plastisol') return `Read ${where}.`;
  return `Read ${where}, with ${optics.dosePerCup} ${stepWords(material)} in one cup.`;
}
