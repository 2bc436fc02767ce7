import { useState } from 'preact/hooks';
import { type Patch, patchAt, type Raster } from '#calc/patch.ts';
import type { Place } from '#screens/photos/PatchPicker.tsx';

/** Something to tap on a picture. */
export interface Tapped {
  key: string;
  word: string;
}

/** Where the hand has tapped so far, and what lies there. */
export function usePatches(patches: readonly Tapped[], raster: Raster) {
  const [places, setPlaces] = useState<Readonly<Record<string, Place>>>({});
  const [picked, setPicked] = useState(patches[0]?.key ?? '');
  // A patch that is not asked for any more gives its turn to the first.
  const chosen = patches.some(({ key }) => key === picked) ? picked : (patches[0]?.key ?? '');
  const next = patches.find(({ key }) => !places[key]) ?? null;
  return {
    picker: {
      raster,
      patches,
      places,
      chosen,
      onChoose: setPicked,
      onPlace: (key: string, place: Place) => setPlaces((now) => ({ ...now, [key]: place })),
    },
    /** The first one that was not tapped; null: all were. */
    next,
    choose: setPicked,
    patchOf: (key: string): Patch | null => {
      const place = places[key];
      return place ? patchAt(raster, place) : null;
    },
  };
}
