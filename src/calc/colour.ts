import { differenceCiede2000, modeLab65, modeLrgb, modeRgb, modeXyz65, useMode } from 'culori/fn';
import { finite, positive } from '#calc/range.ts';
import { type Linear, linearFromRgb255, type Rgb, rgb255FromLinear } from '#calc/srgb.ts';
import { cross, dot, mapped, type Triple, tripleWithin } from '#calc/triple.ts';

export {
  type PhotoFault,
  photoFault,
  tonedReflectance,
  toneExponent,
  whiteBalanced,
} from '#calc/photo-card.ts';
export {
  isDisplayable,
  type Linear,
  linearFromRgb255,
  type Rgb,
  rgb255FromLinear,
} from '#calc/srgb.ts';

/** CIE tristimulus values, Y of white 1. */
export type Xyz = Triple;

/** CIELAB: lightness, green to red, blue to yellow. */
export type Lab = Triple;

/** White of sRGB: D65 at x 0.3127, y 0.3290 (IEC 61966-2-1). */
export const D65: Readonly<Xyz> = [0.3127 / 0.329, 1, (1 - 0.3127 - 0.329) / 0.329];

/** White of printed charts: D50, 2 degree observer (ASTM E308, from memory). */
export const D50: Readonly<Xyz> = [0.96422, 1, 0.82521];

useMode(modeRgb);
const lightOf = useMode(modeLrgb);
const xyzOf = useMode(modeXyz65);
const labOf = useMode(modeLab65);
const difference = differenceCiede2000();

/** Further out than any surface or light here can lie; beyond it the formulas overflow. */
const FAR_LIGHT = 1e4;
const FAR_LAB = 1000;

const primaries = (
  [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ] as const
).map(([r, g, b]): Xyz => {
  const { x, y, z } = xyzOf({ mode: 'lrgb', r, g, b });
  return [x, y, z];
}) as [Xyz, Xyz, Xyz];

const toXyz = rowsOf(primaries);

const toLinear = rowsOf(
  (
    [
      [1, 0, 0],
      [0, 1, 0],
      [0, 0, 1],
    ] as const
  ).map(([x, y, z]): Linear => {
    const { r, g, b } = lightOf({ mode: 'xyz65', x, y, z });
    return [r, g, b];
  }) as [Linear, Linear, Linear],
);

/** How cones see XYZ: the Bradford matrix (Lindbloom; ICC.1 annex E, from memory). */
const BRADFORD: readonly [Triple, Triple, Triple] = [
  [0.8951, 0.2664, -0.1614],
  [-0.7502, 1.7135, 0.0367],
  [0.0389, -0.0685, 1.0296],
];

/** XYZ of linear sRGB. RangeError for light far out of reach or no number. */
export function xyzFromLinear(linear: Readonly<Linear>): Xyz {
  return times(toXyz, tripleWithin('linear', linear, -FAR_LIGHT, FAR_LIGHT));
}

/** Linear sRGB of XYZ, outside 0..1 where no screen can show it. RangeError as above. */
export function linearFromXyz(xyz: Readonly<Xyz>): Linear {
  return times(toLinear, tripleWithin('xyz', xyz, -FAR_LIGHT, FAR_LIGHT));
}

/** Relative luminance of linear sRGB, 0..1 (IEC 61966-2-1). */
export function luminance(linear: Readonly<Linear>): number {
  return xyzFromLinear(linear)[1];
}

/** CIELAB of XYZ seen beside a white, D65 unless given (CIE 15). RangeError as above. */
export function labFromXyz(xyz: Readonly<Xyz>, white: Readonly<Xyz> = D65): Lab {
  const [xn, yn, zn] = checkedWhite('white', white);
  const [x, y, z] = tripleWithin('xyz', xyz, -FAR_LIGHT, FAR_LIGHT);
  const seen = { x: (x / xn) * D65[0], y: (y / yn) * D65[1], z: (z / zn) * D65[2] };
  const { l, a, b } = labOf({ mode: 'xyz65', ...seen });
  return [l, a, b];
}

/** XYZ of CIELAB seen beside a white, D65 unless given (CIE 15). RangeError for a wild colour. */
export function xyzFromLab(lab: Readonly<Lab>, white: Readonly<Xyz> = D65): Xyz {
  checkedWhite('white', white);
  const [l, a, b] = checkedLab('lab', lab);
  const { x, y, z } = xyzOf({ mode: 'lab65', l, a, b });
  return mapped([x, y, z], (value, at) => (value / D65[at]) * white[at]);
}

/** CIELAB (D65) of linear sRGB. RangeError for light far out of reach. */
export function labFromLinear(linear: Readonly<Linear>): Lab {
  return labFromXyz(xyzFromLinear(linear));
}

/** CIELAB (D65) of an sRGB colour. RangeError for a channel outside 0..255. */
export function labFromRgb255(rgb: Readonly<Rgb>): Lab {
  return labFromLinear(linearFromRgb255(rgb));
}

/** The sRGB colour of CIELAB (D65), clipped to what a screen can show, not rounded. */
export function rgb255FromLab(lab: Readonly<Lab>): Rgb {
  return rgb255FromLinear(times(toLinear, xyzFromLab(lab)));
}

/** The sRGB colour of CIELAB (D50) as charts and printed cards give it, clipped, not rounded. */
export function rgb255FromLabD50(lab: Readonly<Lab>): Rgb {
  return rgb255FromLinear(times(toLinear, adaptedXyz(xyzFromLab(lab, D50), D50, D65)));
}

/** XYZ as it looks after the white has gone from one to the other (Bradford, linear). */
export function adaptedXyz(xyz: Readonly<Xyz>, from: Readonly<Xyz>, to: Readonly<Xyz>): Xyz {
  const before = times(BRADFORD, checkedWhite('from', from));
  const after = times(BRADFORD, checkedWhite('to', to));
  const cones = times(BRADFORD, tripleWithin('xyz', xyz, -FAR_LIGHT, FAR_LIGHT));
  return solved(
    BRADFORD,
    mapped(cones, (cone, at) => finite('white', cone * (after[at] / before[at]))),
  );
}

/**
 * Difference of two colours by CIEDE2000, kL = kC = kH = 1 (Sharma, Wu and Dalal 2005).
 * RangeError for a wild colour.
 */
export function deltaE2000(one: Readonly<Lab>, other: Readonly<Lab>): number {
  const [l, a, b] = checkedLab('one', one);
  const [l2, a2, b2] = checkedLab('other', other);
  return difference({ mode: 'lab65', l, a, b }, { mode: 'lab65', l: l2, a: a2, b: b2 });
}

/** A CIELAB colour itself, or a RangeError naming it when no surface can have it. */
export function checkedLab(name: string, lab: Readonly<Lab>): Readonly<Lab> {
  return tripleWithin(name, lab, -FAR_LAB, FAR_LAB);
}

function checkedWhite(name: string, white: Readonly<Xyz>): Readonly<Xyz> {
  for (const part of tripleWithin(name, white, 0, FAR_LIGHT)) positive(name, part);
  return white;
}

function times(rows: readonly [Triple, Triple, Triple], value: Readonly<Triple>): Triple {
  return [dot(rows[0], value), dot(rows[1], value), dot(rows[2], value)];
}

/** The value whose product with the rows is `wanted` (Cramer's rule). */
function solved(rows: readonly [Triple, Triple, Triple], wanted: Readonly<Triple>): Triple {
  const columns: [Triple, Triple, Triple] = [
    cross(rows[1], rows[2]),
    cross(rows[2], rows[0]),
    cross(rows[0], rows[1]),
  ];
  const size = dot(rows[0], columns[0]);
  return mapped(times(rowsOf(columns), wanted), (part) => part / size);
}

function rowsOf([a, b, c]: readonly [Triple, Triple, Triple]): [Triple, Triple, Triple] {
  return [
    [a[0], b[0], c[0]],
    [a[1], b[1], c[1]],
    [a[2], b[2], c[2]],
  ];
}
