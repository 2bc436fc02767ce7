import { useState } from 'preact/hooks';
import { type CardFault, cardOptics, type ReadSheet, readPatch } from '#calc/card-reading.ts';
import type { Optics } from '#calc/optics.ts';
import type { Raster } from '#calc/patch.ts';
import type { Hides } from '#calc/swatch.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import type { Material } from '#model/material.ts';
import type { Photo } from '#model/photo.ts';
import { ColourSpot } from '#screens/ColourSpot.tsx';
import { numberFrom } from '#screens/number-text.ts';
import { faultWords, stepWords, teachesNothing } from '#screens/photo-words.ts';
import { HidesKeys } from '#screens/photos/HidesKeys.tsx';
import { PatchPicker } from '#screens/photos/PatchPicker.tsx';
import { PixelsOf } from '#screens/photos/PixelsOf.tsx';
import { sheetTaps, tappedSheet } from '#screens/photos/sheet-patches.ts';
import { type Tapped, usePatches } from '#screens/photos/use-patches.ts';
import { Refusal } from '#screens/Refusal.tsx';
import { ThicknessStepper, usualThicknessMm } from '#screens/ThicknessStepper.tsx';
import { useOneAct } from '#screens/use-one-act.ts';
import { bareBaseOf, keepCard } from '#store/card.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Field } from '#ui/Field.tsx';

interface Props {
  photo: Photo;
  pixels: Raster | null | undefined;
  material: Material;
  onLeave: () => void;
}

const overWhite: Tapped = { key: 'overWhite', word: 'Bait over white' };
const onBlack: readonly Tapped[] = [
  { key: 'strip', word: 'Black strip' },
  { key: 'overBlack', word: 'Bait over black' },
];

/** Taps on the card and on both halves of the bait give what one dose of a material does to light. */
export function CardTask({ photo, pixels, material, onLeave }: Props) {
  return (
    <PixelsOf title="Read the card" pixels={pixels} onLeave={onLeave}>
      {(raster) => <Reading raster={raster} {...{ photo, material }} />}
    </PixelsOf>
  );
}

function Reading({
  raster,
  photo,
  material,
}: Omit<Props, 'pixels' | 'onLeave'> & { raster: Raster }) {
  const { book, clock } = useShop();
  const { act, trouble } = useOneAct();
  const isBare = material.kind === 'plastisol';
  const base = useLive(() => bareBaseOf(book), ['materials'], 'base');
  const [hides, setHides] = useState<Hides | null>(null);
  const [dose, setDose] = useState(String(material.optics?.dosePerCup ?? ''));
  const [doseError, setDoseError] = useState<string>();
  const [refusal, setRefusal] = useState('');
  const [thicknessMm, setThicknessMm] = useState(photo.thicknessMm ?? usualThicknessMm);
  const patches = usePatches([...sheetTaps, overWhite, ...(hides ? [] : onBlack)], raster);
  const sheet = tappedSheet(patches.patchOf);
  const white = patches.patchOf('overWhite');
  const seen = sheet && typeof sheet !== 'string' && white ? readPatch(sheet, white) : null;

  function opticsOf(read: ReadSheet, dosePerCup: number): Optics | CardFault {
    const strip = patches.patchOf('strip');
    const overBlack = patches.patchOf('overBlack');
    if (!white) return 'patchy';
    return cardOptics(read, {
      overWhite: white,
      onBlack: !hides && strip && overBlack ? { strip, overBlack } : null,
      hides: hides ?? 'cloudy',
      dosePerCup,
      thicknessMm,
      base: isBare ? null : (base ?? null),
    });
  }

  function save() {
    const dosePerCup = isBare ? 1 : numberFrom(dose);
    const isDose = dosePerCup !== null && dosePerCup > 0 && dosePerCup <= 100_000;
    setDoseError(isDose ? undefined : 'A number above 0, as it was dosed in one cup.');
    if (typeof sheet === 'string' || !isDose) return;
    if (!sheet || patches.next || !seen) {
      setRefusal(`Not tapped yet: ${patches.next?.word ?? ''}.`);
      if (patches.next) patches.choose(patches.next.key);
      return;
    }
    const optics = opticsOf(sheet, dosePerCup);
    if (typeof optics === 'string') return setRefusal(`${faultWords[optics]} ${teachesNothing}`);
    void act(async () => {
      const reading = { part: 'only', ...seen, forecast: null } as const;
      const { scatterPerMm } = optics;
      const absorbPerMm = [...optics.absorbPerMm];
      const swatch = { absorbPerMm, scatterPerMm, dosePerCup, isOnCard: hides === null };
      await keepCard(book, photo, { material, optics: swatch, thicknessMm, reading }, clock.now());
      return { at: 'card', materialId: material.id };
    });
  }

  return (
    <>
      <p>Press the bait flat: air under it changes its colour.</p>
      <HidesKeys hides={hides} onChange={setHides} />
      <PatchPicker photoId={photo.id} {...patches.picker} />
      {!isBare && (
        <Field label={`Dose of the bait, ${stepWords(material)} in one cup`} error={doseError}>
          {(attributes) => (
            <input
              {...attributes}
              inputMode="decimal"
              autocomplete="off"
              value={dose}
              onInput={({ currentTarget }) => {
                setDose(currentTarget.value);
                setDoseError(undefined);
              }}
            />
          )}
        </Field>
      )}
      <ThicknessStepper
        label="How thick the bait is"
        thicknessMm={thicknessMm}
        onChange={setThicknessMm}
      />
      {seen && <ColourSpot lab={seen.lab} words="Over white, as read" />}
      {seen?.fault && (
        <p role="status">
          {faultWords[seen.fault]} {teachesNothing}
        </p>
      )}
      <Refusal says={(typeof sheet === 'string' ? sheet : refusal) || trouble} />
      <ActKey size="main" onPress={save}>
        Keep this card
      </ActKey>
    </>
  );
}
