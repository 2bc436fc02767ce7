import { finite, zeroToOne } from '#calc/range.ts';
import { clipped, type Linear } from '#calc/srgb.ts';
import { tripleWithin } from '#calc/triple.ts';

/** A value for each of 16 bands of light, 400 to 700 nm in steps of 20. */
export type Bands = readonly number[];

/** How many bands there are. */
export const bandCount = 16;

/**
 * What each band of reflectance gives to linear red, green and blue: the CIE 1931 2 degree
 * observer under D65 at 5 nm, through the sRGB matrix, every row scaled to 1 (derived).
 */
const RED: Bands = [
  0.002931, 0.020057, 0.037883, 0.001594, -0.064806, -0.128967, -0.172901, -0.098871, 0.07761,
  0.28292, 0.403683, 0.350088, 0.189213, 0.072377, 0.020854, 0.006335,
];
const GREEN: Bands = [
  -0.002553, -0.018254, -0.039295, -0.018561, 0.043691, 0.131793, 0.247354, 0.292909, 0.240174,
  0.132942, 0.03085, -0.014814, -0.016028, -0.007304, -0.002217, -0.000687,
];
const BLUE: Bands = [
  0.018035, 0.134825, 0.345874, 0.371028, 0.189831, 0.050838, -0.008079, -0.029777, -0.030712,
  -0.022116, -0.01194, -0.005228, -0.001834, -0.000556, -0.000146, -0.000043,
];

/**
 * Smooth reflectances of the colours opposite red, green and blue: the solutions of least slope of
 * Burns 2020 on these rows (derived).
 */
const CYAN: Bands = [
  0.9649, 0.96619, 0.97471, 0.98703, 0.9935, 0.99602, 0.9967, 0.99572, 0.9895, 0.92585, 0.12581,
  0.02655, 0.01509, 0.01261, 0.01202, 0.01188,
];
const MAGENTA: Bands = [
  0.9918, 0.99159, 0.98958, 0.97708, 0.84983, 0.10529, 0.02305, 0.01619, 0.03005, 0.16871, 0.85457,
  0.9586, 0.97436, 0.97803, 0.97893, 0.97913,
];
const YELLOW: Bands = [
  0.01786, 0.01827, 0.02216, 0.04454, 0.2081, 0.82872, 0.96128, 0.98212, 0.98687, 0.98728, 0.98591,
  0.98422, 0.98317, 0.98276, 0.98264, 0.98261,
];

/** By the channel that has least of all: what the other two share. */
const SHARED: readonly [Bands, Bands, Bands] = [CYAN, MAGENTA, YELLOW];

/** How far a channel may leave 0..1 by the rounding of the tables. */
const ROUNDING = 1e-5;

/**
 * A plausible reflectance by band for a colour, always within 0..1 (form of Smits 1999).
 * RangeError for a channel outside 0..1.
 */
export function bandsFromLinear(linear: Readonly<Linear>): number[] {
  const light = clipped(tripleWithin('linear', linear, -ROUNDING, 1 + ROUNDING));
  const [least, middle, most] = channelsByLight(light);
  const shared = SHARED[least];
  const alone = SHARED[most];
  const grey = light[least];
  const pair = light[middle] - grey;
  const single = light[most] - light[middle];
  return shared.map((share, band) => {
    const own = 1 - (alone[band] ?? Number.NaN);
    return Math.min(grey + pair * share + single * own, 1);
  });
}

/** Linear sRGB of a reflectance by band under D65. RangeError unless 16 values within 0..1. */
export function linearFromBands(bands: Bands): Linear {
  for (const value of checkedBands('bands', bands)) zeroToOne('bands', value);
  return channelMeans(bands);
}

/** Any quantity by band as red, green and blue see it: three weighted means. */
export function channelMeans(bands: Bands): Linear {
  return [weighed(RED, bands), weighed(GREEN, bands), weighed(BLUE, bands)];
}

/** The bands themselves, or a RangeError naming them unless they are 16 numbers. */
export function checkedBands(name: string, bands: Bands): Bands {
  if (bands.length !== bandCount) {
    throw new RangeError(`${name} must have ${bandCount} values, not ${bands.length}.`);
  }
  for (const value of bands) finite(name, value);
  return bands;
}

function weighed(row: Bands, bands: Bands): number {
  let sum = 0;
  for (let band = 0; band < bandCount; band++) {
    sum += (row[band] ?? Number.NaN) * (bands[band] ?? Number.NaN);
  }
  return sum;
}

type Channel = 0 | 1 | 2;

/** The channels from the darkest to the brightest. */
function channelsByLight(light: Readonly<Linear>): [Channel, Channel, Channel] {
  const order: [Channel, Channel, Channel] = [0, 1, 2];
  order.sort((a, b) => light[a] - light[b]);
  return order;
}
