import { linearFromRgb255, type Rgb } from '#calc/srgb.ts';
import { colourantFromSwatch } from '#calc/swatch.ts';
import { mapped } from '#calc/triple.ts';
import type { Material } from '#model/material.ts';

/** The bait of one colourant alone, as it lay on the black and white card. */
export interface CardBait {
  /** Drops of a liquid or eighths of a teaspoon of a powder, per cup. */
  dosePerCup: number;
  /** How much of its light is left where it lies on black, 0..1: what hides most keeps most. */
  keepsOnBlack: number;
}

const cardMm = 10;

/** Its optics as the app works them out from the card: over white it looked as its swatch. */
export function cardOpticsOf(
  swatch: string,
  { dosePerCup, keepsOnBlack }: CardBait,
): NonNullable<Material['optics']> {
  const overWhite = linearFromRgb255(rgbOf(swatch));
  const overBlack = mapped(overWhite, (light) => light * keepsOnBlack);
  const seen = { overWhite, overBlack, dosePerCup, thicknessMm: cardMm };
  const { absorbPerMm, scatterPerMm } = colourantFromSwatch(seen);
  return {
    absorbPerMm: absorbPerMm.map(short),
    scatterPerMm: short(scatterPerMm),
    dosePerCup,
    isOnCard: true,
  };
}

function rgbOf(swatch: string): Rgb {
  const [r = 0, g = 0, b = 0] = [1, 3, 5].map((at) =>
    Number.parseInt(swatch.slice(at, at + 2), 16),
  );
  return [r, g, b];
}

/** Four digits are more than a card shows, and the file stays small. */
function short(value: number): number {
  return Number(value.toPrecision(4));
}
