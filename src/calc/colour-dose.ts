import { positive } from '#calc/range.ts';

/** Flake as it is sold: width, film thickness, cut, and how dense its film is. */
export interface Flake {
  /** Between two flats of a hexagon, or the side of a square. */
  acrossMm: number;
  thicknessUm: number;
  cut: 'hex' | 'square';
  densityGPerCm3?: number;
}

/** Area of a regular hexagon one wide between its flats. */
const HEX_AREA = Math.sqrt(3) / 2;

/** Pieces in a gram of flake; polyester film of 1.38 g/cm3 (from memory) unless told otherwise. */
export function piecesPerG(flake: Flake): number {
  const areaMm2 = positive('acrossMm', flake.acrossMm) ** 2 * (flake.cut === 'hex' ? HEX_AREA : 1);
  const volumeMm3 = (areaMm2 * positive('thicknessUm', flake.thicknessUm)) / 1000;
  return 1000 / (volumeMm3 * positive('densityGPerCm3', flake.densityGPerCm3 ?? 1.38));
}
