import { modeLrgb, modeRgb, useMode } from 'culori/fn';
import { mapped, type Triple, tripleWithin } from '#calc/triple.ts';

/** Red, green and blue as a screen takes them, 0..255. */
export type Rgb = Triple;

/** Red, green and blue in proportion to light, 0..1 where a screen can show them. */
export type Linear = Triple;

const gammaOf = useMode(modeRgb);
const lightOf = useMode(modeLrgb);

/** How far a channel may leave 0..1 by rounding alone. */
const ROUNDING = 1e-9;

/** The numbers, 0 to 255, of a colour written as `#rrggbb`. */
export function rgb255FromHex(hex: string): Rgb {
  const byte = (at: number) => Number.parseInt(hex.slice(at, at + 2), 16);
  return [byte(1), byte(3), byte(5)];
}

/** Light of an sRGB colour (IEC 61966-2-1). RangeError for a channel outside 0..255. */
export function linearFromRgb255(rgb: Readonly<Rgb>): Linear {
  const [r, g, b] = mapped(tripleWithin('rgb', rgb, 0, 255), (channel) => channel / 255);
  const light = lightOf({ mode: 'rgb', r, g, b });
  return [light.r, light.g, light.b];
}

/**
 * The sRGB colour of some light (IEC 61966-2-1), clipped to what a screen can show, not rounded.
 * RangeError for what is no number.
 */
export function rgb255FromLinear(linear: Readonly<Linear>): Rgb {
  const [r, g, b] = clipped(tripleWithin('linear', linear, -Infinity, Infinity));
  const colour = gammaOf({ mode: 'lrgb', r, g, b });
  return mapped([colour.r, colour.g, colour.b], (channel) => 255 * channel);
}

/** Whether a screen can show this light without clipping it. RangeError for what is no number. */
export function isDisplayable(linear: Readonly<Linear>): boolean {
  return tripleWithin('linear', linear, -Infinity, Infinity).every(
    (channel) => channel >= -ROUNDING && channel <= 1 + ROUNDING,
  );
}

/** The light with every channel moved into 0..1. */
export function clipped(linear: Readonly<Linear>): Linear {
  return mapped(linear, (channel) => Math.min(Math.max(channel, 0), 1));
}
