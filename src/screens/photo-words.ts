import type { CardFault } from '#calc/card-reading.ts';
import { deltaE2000, type Lab } from '#calc/colour.ts';
import { stepsOfMaterial } from '#calc/dose-steps.ts';
import type { Material } from '#model/material.ts';
import type { PhotoReading } from '#model/photo.ts';

/** What is wrong with a photo and how to take the next one. */
export const faultWords: Record<CardFault, string> = {
  'too bright': 'Too bright: a patch has run into white or a glare. Take it darker, without flash.',
  'too dark': 'Too dark: the grey card hardly shows. Take it in more light.',
  'coloured light': 'Coloured light: the paper does not look white. Use one lamp or open shade.',
  'uneven light': 'Uneven light: the paper is brighter on one side. Turn away from the lamp.',
  patchy: 'Patchy: the spot is not of one colour. Tap a spot without flake.',
  'altered tones':
    'Altered tones: the phone changed light and dark too much. Switch its filters off.',
  'no black': 'The black strip is not black here. Tap the strip itself, or use a matt black card.',
};

/** Why a faulty reading is still kept. */
export const teachesNothing = 'The photo stays, but nothing is learnt from it.';

/** The spot of a bait in words. */
export const partWords: Record<PhotoReading['part'], string> = {
  only: 'Bait',
  a: 'Side A',
  line: 'Where they meet',
  b: 'Side B',
};

/** Noise of one colour of a photo on each axis of CIELAB (methods-colour-plan 1.2). */
const noiseLab = 1.5;
/** How far apart two photos of one and the same bait usually lie: three axes, two photos. */
const alike = noiseLab * Math.sqrt(2 * 3);

/** How two baits compare, as far as photos can tell. */
export function comparedWords(one: Readonly<Lab>, other: Readonly<Lab>): string {
  const apart = deltaE2000(one, other);
  if (apart < alike) return 'as alike as photos can tell';
  return apart < 2 * alike ? 'a little different' : 'clearly different';
}

/** What doses of a material are counted in, `drops`. */
export function stepWords(material: Pick<Material, 'unit'>): string {
  return stepsOfMaterial(material) === 'drop' ? 'drops' : 'eighths of a teaspoon';
}
