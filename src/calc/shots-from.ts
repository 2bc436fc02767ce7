import type { MouldLoad } from '#calc/injector.ts';
import { potMl } from '#calc/pot-volume.ts';
import { notNegative, positive } from '#calc/range.ts';

/** What stays in injector and pot, mL: the worked example of methods-colour-plan section 2.6. */
export const usualLosses = { injectorDeadMl: 10, potResidueMl: 15 } as const;

/** Whole shots of one mould that so much plastisol gives; 0: not one. RangeError for a mould of nothing. */
export function shotsFrom(haveMl: number, mould: MouldLoad, losses = usualLosses): number {
  const shotMl = positive('shotMl', mould.cavities * mould.partMl + mould.sprueMl);
  const lost = losses.injectorDeadMl + losses.potResidueMl;
  return Math.max(0, Math.floor(((notNegative('haveMl', haveMl) - lost) / shotMl) * (1 + 1e-12)));
}

/** The plastisol for so many shots of one mould, mL, with what stays behind. */
export function mlForShots(shots: number, mould: MouldLoad, losses = usualLosses): number {
  return potMl({ ...losses, shots: [{ ...mould, count: shots }] }).heatMl;
}
