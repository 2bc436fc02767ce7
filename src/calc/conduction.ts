import { besselJ, besselJ0Root } from '#calc/bessel.ts';
import { notNegative, positive, temperatureC } from '#calc/range.ts';

/** A wide plate, a long cylinder, a sphere. */
export type Shape = 'flat' | 'round' | 'ball';

/** First root of a shape's cooling equation and the coefficient of its one term. */
export interface FirstRoot {
  zeta: number;
  c1: number;
}

/** What decides how long a section has to stay in the mould. */
export interface SetCourse {
  shape: 'flat' | 'round';
  /** Full thickness of a flat section, full diameter of a round one. */
  thicknessMm: number;
  pourC: number;
  /** Temperature of the mould's inner wall, taken as steady. */
  wallC: number;
  /** Temperature at which the part may come out. */
  openC: number;
  diffusivityMm2PerSec?: number;
  /** Where `openC` is asked for: in the middle (default) or on the average of the section. */
  at?: 'centre' | 'mean';
}

/** A section and how long it stays in the mould. */
export interface SetSection {
  shape: 'flat' | 'round';
  /** Full thickness of a flat section, full diameter of a round one. */
  thicknessMm: number;
  setSec: number;
  diffusivityMm2PerSec?: number;
}

/** A body as the contact formula sees it: temperature, W/mK, kg/m3, J/kgK. */
export interface TouchingBody {
  tempC: number;
  k: number;
  rho: number;
  cp: number;
}

/** Soft plastisol, mm2/s: 0.15 W/mK over 1050 kg/m3 and 1800 J/kgK (derived). */
const PLASTISOL_DIFFUSIVITY = 0.08;

/** Where the first root ends up when the surface is held at the outer temperature. */
const LARGEST_ROOT: Readonly<Record<Shape, number>> = {
  flat: Math.PI / 2,
  round: besselJ0Root(1),
  ball: Math.PI,
};

/**
 * First root and coefficient of transient conduction with a film of Biot number `biot`.
 *
 * `biot` is taken on the half thickness or the radius and may be Infinity (surface held at the
 * outer temperature). Incropera et al., *Fundamentals of Heat and Mass Transfer* 6e, ch. 5.
 */
export function firstRoot(shape: Shape, biot: number): FirstRoot {
  if (biot !== Infinity) notNegative('biot', biot);
  // Both sides are divided by 1 + biot, so that Infinity is a number like any other.
  const inside = 1 / (1 + biot);
  const film = 1 / (1 + 1 / biot);
  let low = 0;
  let high = LARGEST_ROOT[shape];
  if (high === undefined) throw new RangeError(`shape is not known: ${shape}.`);
  for (let half = 0; half < 60; half++) {
    const zeta = (low + high) / 2;
    if (inside * slope(shape, zeta) < film * height(shape, zeta)) low = zeta;
    else high = zeta;
  }
  const zeta = biot === 0 ? 0 : (low + high) / 2;
  return { zeta, c1: coefficient(shape, zeta) };
}

/**
 * What is left at the centre of the first temperature difference (theta / theta0), by one term.
 *
 * Holds for Fourier numbers above 0.2, on the half thickness or the radius.
 */
export function centreRatio(shape: Shape, biot: number, fourier: number): number {
  const { zeta, c1 } = firstRoot(shape, biot);
  return c1 * Math.exp(-(zeta ** 2) * notNegative('fourier', fourier));
}

/**
 * Seconds until the section has cooled to `openC` in a mould with its wall held at `wallC`.
 *
 * `'never'` when the wall is as hot as `openC` or hotter; 0 when nothing is left to cool. One-term
 * solution with the surface at wall temperature, the moulding trade's cooling-time formula.
 */
export function setTimeSec(course: SetCourse): number | 'never' {
  const pourC = temperatureC('pourC', course.pourC);
  const wallC = temperatureC('wallC', course.wallC);
  const openC = temperatureC('openC', course.openC);
  const halfMm = positive('thicknessMm', course.thicknessMm) / 2;
  const diffusivity = diffusivityOf(course);
  if (openC <= wallC) return 'never';
  if (pourC <= openC) return 0;
  const { zeta, c1 } = firstRoot(course.shape, Infinity);
  const first = course.at === 'mean' ? meanCoefficient(course.shape, zeta) : c1;
  const log = Math.log((first * (pourC - wallC)) / (openC - wallC));
  return Math.max(0, (log * halfMm ** 2) / (zeta ** 2 * diffusivity));
}

/**
 * Share of its heat (0..1) that a section has given to the mould after `setSec`.
 *
 * The surface is held at mould temperature. The whole series is summed, as the first term alone
 * would report heat given at once; for the first moments the short-time form takes over
 * (Crank, *The Mathematics of Diffusion*, from memory).
 */
export function uptakeShare(section: SetSection): number {
  const halfMm = positive('thicknessMm', section.thicknessMm) / 2;
  const setSec = notNegative('setSec', section.setSec);
  const fourier = (diffusivityOf(section) * setSec) / halfMm ** 2;
  if (fourier < 1e-4) {
    const depth = Math.sqrt(fourier / Math.PI);
    return section.shape === 'flat' ? 2 * depth : 4 * depth - fourier - (fourier * depth) / 3;
  }
  let kept = 0;
  let term = 1;
  for (let n = 1; term > 1e-12; n++) {
    const zeta = section.shape === 'flat' ? (n - 0.5) * Math.PI : besselJ0Root(n);
    term = meanCoefficient(section.shape, zeta) * Math.exp(-(zeta ** 2) * fourier);
    kept += term;
  }
  return 1 - kept;
}

/**
 * Temperature of the skin where two bodies suddenly touch.
 *
 * Each counts by its effusivity, the root of k rho cp (Incropera et al. 6e, eq. 5.63, from memory).
 */
export function contactC(hot: TouchingBody, cold: TouchingBody): number {
  const hotPull = effusivity('hot', hot);
  const coldPull = effusivity('cold', cold);
  const hotC = temperatureC('hot.tempC', hot.tempC);
  const coldC = temperatureC('cold.tempC', cold.tempC);
  return (hotPull * hotC + coldPull * coldC) / (hotPull + coldPull);
}

function effusivity(name: string, body: TouchingBody): number {
  return Math.sqrt(
    positive(`${name}.k`, body.k) *
      positive(`${name}.rho`, body.rho) *
      positive(`${name}.cp`, body.cp),
  );
}

function diffusivityOf(section: { diffusivityMm2PerSec?: number }): number {
  return positive('diffusivityMm2PerSec', section.diffusivityMm2PerSec ?? PLASTISOL_DIFFUSIVITY);
}

/** Temperature of the first eigenfunction at the surface. */
function height(shape: Shape, zeta: number): number {
  if (shape === 'flat') return Math.cos(zeta);
  return shape === 'round' ? besselJ(0, zeta) : Math.sin(zeta);
}

/** Its fall across the surface, to be balanced by Biot times its height. */
function slope(shape: Shape, zeta: number): number {
  if (shape === 'flat') return zeta * Math.sin(zeta);
  return shape === 'round' ? zeta * besselJ(1, zeta) : sineLessArc(zeta);
}

function sineLessArc(zeta: number): number {
  return Math.sin(zeta) - zeta * Math.cos(zeta);
}

function coefficient(shape: Shape, zeta: number): number {
  // A body that does not cool keeps its start, and 0/0 is no way to say so.
  if (zeta < 1e-3) return 1;
  if (shape === 'flat') return (4 * Math.sin(zeta)) / (2 * zeta + Math.sin(2 * zeta));
  if (shape === 'ball') return (4 * sineLessArc(zeta)) / (2 * zeta - Math.sin(2 * zeta));
  const j0 = besselJ(0, zeta);
  const j1 = besselJ(1, zeta);
  return (2 * j1) / (zeta * (j0 ** 2 + j1 ** 2));
}

/** First coefficient for the average of the section, the surface held at wall temperature. */
function meanCoefficient(shape: 'flat' | 'round', zeta: number): number {
  return (shape === 'flat' ? 2 : 4) / zeta ** 2;
}
