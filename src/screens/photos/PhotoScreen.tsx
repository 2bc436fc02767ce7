import { useState } from 'preact/hooks';
import { dayOf } from '#calc/days.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import type { Colourway } from '#model/gear.ts';
import type { Material } from '#model/material.ts';
import type { Photo, PhotoId } from '#model/photo.ts';
import { NotHere } from '#screens/NotHere.tsx';
import { BaitTask } from '#screens/photos/BaitTask.tsx';
import { CardTask } from '#screens/photos/CardTask.tsx';
import { PhotoKnown } from '#screens/photos/PhotoKnown.tsx';
import { type Poured, pouredWords } from '#screens/photos/poured-words.ts';
import { SwatchTask } from '#screens/photos/SwatchTask.tsx';
import { usePixels } from '#screens/photos/use-pixels.ts';
import { hrefTo, type Route } from '#screens/routes.ts';
import { TakeOff } from '#screens/TakeOff.tsx';
import { dateWords } from '#screens/words.ts';
import { isOfLoneSide } from '#store/colour-shop.ts';
import { headOf, setDeleted } from '#store/heads.ts';
import { photoOf, photoTables } from '#store/photos.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { DeskPage } from '#ui/DeskPage.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import { ToolKey } from '#ui/ToolKey.tsx';

/** One photo: look, liking, what its colour says; and the tasks that tap on it. */
export function PhotoScreen({ photoId }: { photoId: PhotoId }) {
  const { book } = useShop();
  const found = useLive(
    async () => {
      const photo = await photoOf(book, photoId);
      const { colourwayId, materialId } = photo ?? {};
      const colourway = colourwayId && (await headOf(book, 'colourways', colourwayId));
      const material = materialId && (await headOf(book, 'materials', materialId));
      const poured = photo ? await pouredWords(book, photo) : null;
      const isLone = photo ? await isOfLoneSide(book, photo) : false;
      return { photo, colourway: colourway || null, material: material || null, poured, isLone };
    },
    [...photoTables, 'colourways', 'materials', 'entries', 'sealed'],
    photoId,
  );
  if (!found) return null;
  const { photo, ...of } = found;
  if (!photo) return <NotHere what="This photo" back={{ at: 'colours' }} word="Colours" />;
  return <OnePhoto photo={photo} {...of} />;
}

interface Props {
  photo: Photo;
  colourway: Colourway | null;
  material: Material | null;
  /** The evening and the shot that poured it; null: not told. */
  poured: Poured | null;
  /** It shows one side of a laminate alone: one colour to read. */
  isLone: boolean;
}

type Task = 'read' | 'swatch';

function OnePhoto({ photo, colourway, material, poured, isLone }: Props) {
  const { book, clock } = useShop();
  const [task, setTask] = useState<Task | null>(null);
  const pixels = usePixels(photo.id);
  const day = dayOf(photo.takenAt, clock.zone());
  const back = placeOf(photo);
  const leave = () => setTask(null);
  return (
    <DeskPage
      title={colourway?.name ?? material?.name ?? 'A photo'}
      small={[
        dateWords(day, dayOf(clock.now(), clock.zone())),
        ...(photo.shows === 'card' ? ['on the card'] : []),
        ...(photo.isDrawn ? ['drawn, not photographed'] : []),
      ].join(', ')}
      shape="one"
      tool={<ToolKey href={hrefTo(back.route)} icon="back" word={back.word} />}
    >
      {task === null && <PhotoKnown photo={photo} />}
      {task === 'swatch' && colourway && (
        <SwatchTask photo={photo} pixels={pixels} colourway={colourway} onLeave={leave} />
      )}
      {task === 'read' && photo.shows === 'bait' && (
        <BaitTask
          photo={photo}
          pixels={pixels}
          isPair={!isLone && (colourway?.sides.length ?? 1) > 1}
          onLeave={leave}
        />
      )}
      {task === 'read' && photo.shows === 'card' && material && (
        <CardTask photo={photo} pixels={pixels} material={material} onLeave={leave} />
      )}
      {task === null && (
        <Sheet place="beside">
          {(photo.shows === 'bait' || material) && (
            <ActKey size="main" small={readWords(photo)} onPress={() => setTask('read')}>
              {photo.shows === 'bait' ? 'Read its colour' : 'Read the card'}
            </ActKey>
          )}
          {poured && (
            <ActKey size="big" small={poured.shot} href={hrefTo(poured.route)}>
              {poured.day}
            </ActKey>
          )}
          {colourway && photo.shows === 'bait' && (
            <ActKey onPress={() => setTask('swatch')}>Give the swatch this look</ActKey>
          )}
          <TakeOff
            deletedAt={photo.deletedAt}
            list={back.route}
            onSet={(next, at) => setDeleted(book, 'photos', photo.id, next, at)}
          />
        </Sheet>
      )}
    </DeskPage>
  );
}

function readWords({ shows }: Photo): string {
  return shows === 'bait'
    ? 'With white paper and a grey card on it'
    : 'Half on white, half on black';
}

/** Where a photo was come to from. */
function placeOf({ colourwayId, materialId, mixId }: Photo): { route: Route; word: string } {
  if (colourwayId) return { route: { at: 'colour', colourwayId }, word: 'Colour' };
  if (materialId) return { route: { at: 'card', materialId }, word: 'Card' };
  if (mixId) return { route: { at: 'nameless', mixId }, word: 'Mix' };
  return { route: { at: 'colours' }, word: 'Colours' };
}
