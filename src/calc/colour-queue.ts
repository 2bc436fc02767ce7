import { labFromRgb255 } from '#calc/colour.ts';
import { rgb255FromHex } from '#calc/srgb.ts';
import type { Colourway, ColourwayId } from '#model/gear.ts';

/** What of the evening's colours has not been mixed yet, in the order of the plan. */
export function stillToPour(
  planned: readonly ColourwayId[],
  pots: readonly { colourwayId: ColourwayId | null }[],
): ColourwayId[] {
  const mixed = new Set(pots.map(({ colourwayId }) => colourwayId));
  return planned.filter((id) => !mixed.has(id));
}

/**
 * Colours from the lightest to the darkest, so that what stays in a pot or an injector does not show
 * in the next one (common practice, no source). Of a laminate the darker side counts: it is what
 * stains. Lightness is L* of CIE 1976.
 */
export function lightToDark<T extends Pick<Colourway, 'sides'>>(colourways: readonly T[]): T[] {
  return colourways
    .map((colourway) => ({ colourway, light: lightnessOf(colourway) }))
    .sort((a, b) => b.light - a.light)
    .map(({ colourway }) => colourway);
}

function lightnessOf({ sides }: Pick<Colourway, 'sides'>): number {
  return Math.min(...sides.map(({ swatch }) => labFromRgb255(rgb255FromHex(swatch))[0]));
}
