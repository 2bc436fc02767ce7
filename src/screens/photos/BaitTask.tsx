import { useState } from 'preact/hooks';
import { readPatch } from '#calc/card-reading.ts';
import type { Raster } from '#calc/patch.ts';
import { useShop } from '#live/shop.ts';
import type { Photo, PhotoReading } from '#model/photo.ts';
import { ColourSpot } from '#screens/ColourSpot.tsx';
import { faultWords, partWords, teachesNothing } from '#screens/photo-words.ts';
import { PatchPicker } from '#screens/photos/PatchPicker.tsx';
import { PixelsOf } from '#screens/photos/PixelsOf.tsx';
import { sheetTaps, tappedSheet } from '#screens/photos/sheet-patches.ts';
import { type Tapped, usePatches } from '#screens/photos/use-patches.ts';
import { Refusal } from '#screens/Refusal.tsx';
import { ThicknessStepper, usualThicknessMm } from '#screens/ThicknessStepper.tsx';
import { useOneAct } from '#screens/use-one-act.ts';
import { keepReadings } from '#store/colour-shop.ts';
import { ActKey } from '#ui/ActKey.tsx';

interface Props {
  photo: Photo;
  pixels: Raster | null | undefined;
  /** Two colours and the line where they meet are read, not one. */
  isPair: boolean;
  onLeave: () => void;
}

/** Taps on paper, card and bait give the bait's colour as under white light. */
export function BaitTask({ photo, pixels, isPair, onLeave }: Props) {
  return (
    <PixelsOf title="Read its colour" pixels={pixels} onLeave={onLeave}>
      {(raster) => <Reading raster={raster} {...{ photo, isPair, onLeave }} />}
    </PixelsOf>
  );
}

function Reading({ raster, photo, isPair, onLeave }: Omit<Props, 'pixels'> & { raster: Raster }) {
  const { book, clock } = useShop();
  const { act, trouble } = useOneAct();
  const [refusal, setRefusal] = useState('');
  const [thicknessMm, setThicknessMm] = useState(photo.thicknessMm ?? usualThicknessMm);
  const parts = partsOf(isPair);
  const taps: Tapped[] = [
    ...sheetTaps,
    ...parts.map((part) => ({ key: part, word: partWords[part] })),
  ];
  const patches = usePatches(taps, raster);
  const sheet = tappedSheet(patches.patchOf);
  const read = parts.flatMap((part) => {
    const patch = patches.patchOf(part);
    if (!sheet || typeof sheet === 'string' || !patch) return [];
    return [{ part, ...readPatch(sheet, patch) }];
  });

  function save() {
    if (typeof sheet === 'string') return;
    if (!sheet || read.length === 0) {
      setRefusal(`Not tapped yet: ${patches.next?.word ?? ''}.`);
      if (patches.next) patches.choose(patches.next.key);
      return;
    }
    void act(async () => {
      await keepReadings(book, photo, { thicknessMm, read }, clock.now());
      onLeave();
      return null;
    });
  }

  return (
    <>
      <p>Paper, card and bait belong on one picture, under one lamp or in open shade.</p>
      <PatchPicker photoId={photo.id} {...patches.picker} />
      <ThicknessStepper
        label="How thick the bait is there"
        thicknessMm={thicknessMm}
        onChange={setThicknessMm}
      />
      {read.map(({ part, lab, fault }) => (
        <div key={part}>
          <ColourSpot lab={lab} words={`${partWords[part]}, as read`} />
          {fault && (
            <p role="status">
              {faultWords[fault]} {teachesNothing}
            </p>
          )}
        </div>
      ))}
      <Refusal says={(typeof sheet === 'string' ? sheet : refusal) || trouble} />
      <ActKey size="main" onPress={save}>
        Keep this reading
      </ActKey>
    </>
  );
}

function partsOf(isPair: boolean): PhotoReading['part'][] {
  return isPair ? ['a', 'line', 'b'] : ['only'];
}
