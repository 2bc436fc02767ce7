import { luminance } from '#calc/colour.ts';
import { wholeFrom } from '#calc/counts.ts';
import { median } from '#calc/median.ts';
import { linearFromRgb255, type Rgb } from '#calc/srgb.ts';

/** The points of a picture, four bytes each: red, green, blue, opacity. */
export interface Raster {
  widthPx: number;
  heightPx: number;
  rgba: Uint8ClampedArray;
}

/** A small square of a picture: its middle colour and how much it varies. */
export interface Patch {
  rgb255: Rgb;
  /** Standard deviation of its light as a share of the mean; 0 for black. */
  spread: number;
}

/** Side of a patch, points (working rule). */
export const patchPx = 20;

/**
 * The patch around a point, moved inwards where it would leave the picture: median by channel, so
 * that a speck of dust or flake counts for nothing. RangeError for a picture without points.
 */
export function patchAt(raster: Raster, at: { x: number; y: number }, sidePx = patchPx): Patch {
  const { widthPx, heightPx, rgba } = raster;
  const width = Math.min(wholeFrom(1, 'sidePx', sidePx), wholeFrom(1, 'widthPx', widthPx));
  const height = Math.min(sidePx, wholeFrom(1, 'heightPx', heightPx));
  const left = inwards(at.x - width / 2, widthPx - width);
  const top = inwards(at.y - height / 2, heightPx - height);
  const channels: [number[], number[], number[]] = [[], [], []];
  const light: number[] = [];
  for (let y = top; y < top + height; y++) {
    for (let x = left; x < left + width; x++) {
      const first = 4 * (y * widthPx + x);
      const rgb: Rgb = [rgba[first] ?? 0, rgba[first + 1] ?? 0, rgba[first + 2] ?? 0];
      for (const channel of [0, 1, 2] as const) channels[channel].push(rgb[channel]);
      light.push(luminance(linearFromRgb255(rgb)));
    }
  }
  const [r, g, b] = channels;
  return { rgb255: [median(r), median(g), median(b)], spread: spreadOf(light) };
}

function inwards(from: number, most: number): number {
  return Math.min(Math.max(Math.round(from), 0), most);
}

function spreadOf(values: readonly number[]): number {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  if (mean <= 0) return 0;
  const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return Math.sqrt(squares / values.length) / mean;
}
