import { type Lab, labFromLinear, luminance } from '#calc/colour.ts';
import { clearOptics, type Optics } from '#calc/optics.ts';
import type { Patch } from '#calc/patch.ts';
import { type PhotoFault, photoFault, tonedReflectance, toneExponent } from '#calc/photo-card.ts';
import { clipped, type Linear, linearFromRgb255, type Rgb } from '#calc/srgb.ts';
import { colourantFromSwatch, type Hides } from '#calc/swatch.ts';
import { mapped } from '#calc/triple.ts';

/** What lies around a bait: white paper on both sides of it and a grey card. */
export interface SheetPatches {
  white: Patch;
  farWhite: Patch;
  grey: Patch;
}

/** What the light and the phone did to a picture, undone by its sheet. */
export interface ReadSheet {
  /** Reflectance of a patch as under white light. */
  reflectanceOf: (patch: Patch) => Linear;
  /** The first thing that is wrong with the sheet and a patch on it; null: it may be learnt from. */
  faultOf: (patch: Patch) => PhotoFault | null;
}

/** Reflectance of office paper and of a photographer's grey card (working values, from memory). */
export const paperWhite = 0.85;
export const cardGrey = 0.18;

/** A matt black strip reflects about this much (working value); more than `mostBlack` is no black. */
const mattBlack = 0.04;
const mostBlack = 0.3;

/**
 * The sheet of a photo, or null when the grey is not darker than the paper: the patches were taken
 * for each other.
 */
export function readSheet({ white, farWhite, grey }: SheetPatches): ReadSheet | null {
  const near = linearFromRgb255(white.rgb255);
  const far = linearFromRgb255(farWhite.rgb255);
  const paper = mapped(near, (light, at) => (light + far[at]) / 2);
  const ratio = luminance(linearFromRgb255(grey.rgb255)) / luminance(paper);
  if (!(ratio > 0 && ratio < 1) || Math.min(...paper) <= 0) return null;
  const exponent = toneExponent(ratio, cardGrey / paperWhite);
  const apart = Math.abs(luminance(near) - luminance(far)) / luminance(paper);
  const cardSpread = Math.max(white.spread, farWhite.spread, apart);
  const brightest: Rgb = mapped(white.rgb255, (channel, at) =>
    Math.max(channel, farWhite.rgb255[at]),
  );
  const reflectanceOf = (patch: Patch) =>
    tonedReflectance(linearFromRgb255(patch.rgb255), paper, paperWhite, exponent);
  return {
    reflectanceOf,
    faultOf(patch) {
      const seen = { patchRgb255: patch.rgb255, patchSpread: patch.spread, cardSpread, exponent };
      const fault =
        photoFault({ ...seen, cardRgb255: brightest }) ??
        photoFault({ ...seen, cardRgb255: grey.rgb255 });
      // More light than falls on it: a glare, not a colour.
      return fault ?? (Math.max(...reflectanceOf(patch)) > 1 ? 'too bright' : null);
    },
  };
}

/** Colour of a patch as under white light, CIELAB (D65), and what is wrong with it. */
export function readPatch(sheet: ReadSheet, patch: Patch): { lab: Lab; fault: PhotoFault | null } {
  return { lab: labFromLinear(clipped(sheet.reflectanceOf(patch))), fault: sheet.faultOf(patch) };
}

/** A bait of one colourant on the card. */
export interface CardBait {
  overWhite: Patch;
  /** The half on black and the black strip itself; null: only a word for how much it hides. */
  onBlack: { overBlack: Patch; strip: Patch } | null;
  hides: Hides;
  dosePerCup: number;
  thicknessMm: number;
  /** The plastisol without colour; null: taken as clear. */
  base: Optics | null;
}

/** Why a card gives no optics: a fault of the photo, or a black strip that is not black. */
export type CardFault = PhotoFault | 'no black';

/**
 * Optics of the colourant per dose per cup, or the fault that forbids them. RangeError for a dose or
 * thickness that is not above 0.
 */
export function cardOptics(sheet: ReadSheet, bait: CardBait): Optics | CardFault {
  const { overWhite, onBlack, hides, base, dosePerCup, thicknessMm } = bait;
  const own = { dosePerCup, thicknessMm, base: base ?? clearOptics, white: paperWhite };
  const fault = sheet.faultOf(overWhite);
  if (fault) return fault;
  const seen = { ...own, overWhite: sheet.reflectanceOf(overWhite) };
  if (!onBlack) return colourantFromSwatch({ ...seen, hides });
  const darkFault = sheet.faultOf(onBlack.overBlack);
  // Over black a clear bait is nearly black: its few shades spread widely and mean nothing.
  if (darkFault && darkFault !== 'patchy') return darkFault;
  const strip = luminance(sheet.reflectanceOf(onBlack.strip));
  if (strip > mostBlack) return 'no black';
  const overBlack = sheet.reflectanceOf(onBlack.overBlack);
  return colourantFromSwatch({ ...seen, overBlack, black: strip > 0 ? strip : mattBlack });
}
