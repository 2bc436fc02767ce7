import { betweenZeroAndOne } from '#calc/counts.ts';
import { finite, notNegative, positive, zeroToOne } from '#calc/range.ts';
import { type Linear, linearFromRgb255, type Rgb } from '#calc/srgb.ts';
import { mapped, tripleWithin } from '#calc/triple.ts';

/** Why a photo teaches nothing. */
export type PhotoFault =
  | 'too bright'
  | 'too dark'
  | 'coloured light'
  | 'uneven light'
  | 'patchy'
  | 'altered tones';

/** What was read off one photo: card and bait, each the median of a patch. */
export interface PhotoReading {
  cardRgb255: Readonly<Rgb>;
  patchRgb255: Readonly<Rgb>;
  /** Spread of the card over the picture, as a share of its mean. */
  cardSpread: number;
  /** Spread within the patch, as a share of its mean. */
  patchSpread: number;
  /** From `toneExponent`, when the sheet showed two known greys. */
  exponent?: number;
}

const BRIGHTEST = 252;
const DARKEST_CARD = 60;
const WIDEST_GAIN = 2.5;
const WIDEST_CARD_SPREAD = 0.1;
const WIDEST_PATCH_SPREAD = 0.15;

/**
 * A patch as it would look under white light, from a card whose reflectance is known.
 * RangeError for light outside 0..1 or a card that is black in a channel.
 */
export function whiteBalanced(
  patch: Readonly<Linear>,
  card: Readonly<Linear>,
  cardReflectance: number,
): Linear {
  zeroToOne('cardReflectance', cardReflectance);
  checkedCard('card', card);
  return mapped(tripleWithin('patch', patch, 0, 1), (light, at) =>
    finite('patch', light * (cardReflectance / card[at])),
  );
}

/**
 * How a phone bent the tones: what the seen ratio of two greys must be raised to for the true one.
 * RangeError unless both ratios lie between 0 and 1.
 */
export function toneExponent(greyOverWhite: number, trueRatio: number): number {
  const truth = Math.log(betweenZeroAndOne('trueRatio', trueRatio));
  return truth / Math.log(betweenZeroAndOne('greyOverWhite', greyOverWhite));
}

/**
 * Reflectance of a patch beside a white of known reflectance, its tones bent back.
 * RangeError for light outside 0..1, a white that is black in a channel or no exponent above 0.
 */
export function tonedReflectance(
  patch: Readonly<Linear>,
  white: Readonly<Linear>,
  whiteReflectance: number,
  exponent: number,
): Linear {
  zeroToOne('whiteReflectance', whiteReflectance);
  positive('exponent', exponent);
  checkedCard('white', white);
  return mapped(tripleWithin('patch', patch, 0, 1), (light, at) =>
    finite('patch', whiteReflectance * (light / white[at]) ** exponent),
  );
}

/**
 * The first fault of a photo, or null when it may be learnt from. The limits are working rules of
 * this app, no source. RangeError for channels outside 0..255 or a negative spread.
 */
export function photoFault(reading: PhotoReading): PhotoFault | null {
  const card = tripleWithin('cardRgb255', reading.cardRgb255, 0, 255);
  const patch = tripleWithin('patchRgb255', reading.patchRgb255, 0, 255);
  const cardSpread = notNegative('cardSpread', reading.cardSpread);
  const patchSpread = notNegative('patchSpread', reading.patchSpread);
  const exponent = positive('exponent', reading.exponent ?? 1);
  if ([...card, ...patch].some((channel) => channel >= BRIGHTEST)) return 'too bright';
  if (card.some((channel) => channel < DARKEST_CARD)) return 'too dark';
  const light = linearFromRgb255(card);
  if (Math.max(...light) > WIDEST_GAIN * Math.min(...light)) return 'coloured light';
  if (cardSpread > WIDEST_CARD_SPREAD) return 'uneven light';
  if (patchSpread > WIDEST_PATCH_SPREAD) return 'patchy';
  return exponent < 0.7 || exponent > 1.4 ? 'altered tones' : null;
}

function checkedCard(name: string, card: Readonly<Linear>): void {
  for (const channel of tripleWithin(name, card, 0, 1)) positive(name, channel);
}
