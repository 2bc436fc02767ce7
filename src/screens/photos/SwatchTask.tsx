import { useState } from 'preact/hooks';
import { labFromRgb255 } from '#calc/colour.ts';
import type { Raster } from '#calc/patch.ts';
import { useShop } from '#live/shop.ts';
import type { Colourway } from '#model/gear.ts';
import type { Photo } from '#model/photo.ts';
import { ColourSpot } from '#screens/ColourSpot.tsx';
import { PatchPicker } from '#screens/photos/PatchPicker.tsx';
import { PixelsOf } from '#screens/photos/PixelsOf.tsx';
import { usePatches } from '#screens/photos/use-patches.ts';
import { Refusal } from '#screens/Refusal.tsx';
import { useOneAct } from '#screens/use-one-act.ts';
import { changeHead } from '#store/heads.ts';
import { ActKey } from '#ui/ActKey.tsx';

interface Props {
  photo: Photo;
  pixels: Raster | null | undefined;
  colourway: Colourway;
  onLeave: () => void;
}

/** Taps on the bait give the swatch of each side its look, as the photo shows it. */
export function SwatchTask({ photo, pixels, colourway, onLeave }: Props) {
  return (
    <PixelsOf title="The look of the swatch" pixels={pixels} onLeave={onLeave}>
      {(raster) => <Picking raster={raster} {...{ photo, colourway, onLeave }} />}
    </PixelsOf>
  );
}

function Picking({
  raster,
  photo,
  colourway,
  onLeave,
}: Omit<Props, 'pixels'> & { raster: Raster }) {
  const { book, clock } = useShop();
  const { act, trouble } = useOneAct();
  const [refusal, setRefusal] = useState('');
  const sides = colourway.sides.map(({ name }, side) => ({ key: `${side}`, word: name }));
  const patches = usePatches(sides, raster);
  const found = sides.map(({ key }) => patches.patchOf(key));

  function save() {
    if (found.every((patch) => patch === null)) return setRefusal('Tap on the bait first.');
    void act(async () => {
      const next = colourway.sides.map((side, at) => {
        const patch = found[at];
        return patch ? { ...side, swatch: hexOf(patch.rgb255) } : side;
      });
      await changeHead(book, 'colourways', colourway.id, { sides: next }, clock.now());
      onLeave();
      return null;
    });
  }

  return (
    <>
      <PatchPicker photoId={photo.id} {...patches.picker} />
      {sides.map(({ key, word }, at) => {
        const patch = found[at];
        return patch && <ColourSpot key={key} lab={labFromRgb255(patch.rgb255)} words={word} />;
      })}
      <Refusal says={refusal || trouble} />
      <ActKey size="main" onPress={save}>
        Give the swatch this look
      </ActKey>
    </>
  );
}

function hexOf(rgb: readonly number[]): string {
  return `#${rgb.map((channel) => Math.round(channel).toString(16).padStart(2, '0')).join('')}`;
}
