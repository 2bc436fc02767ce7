import { wholeFrom } from '#calc/counts.ts';
import type { MouldLoad } from '#calc/injector.ts';
import { finite, notNegative, positive, zeroToOne } from '#calc/range.ts';

/** Plastisol for an evening: what goes into moulds, what must be heated, how often the pot is filled. */
export interface PotVolume {
  pourMl: number;
  heatMl: number;
  fills: number;
}

/** What stays behind where it does no good. */
interface Losses {
  injectorDeadMl: number;
  potResidueMl: number;
  purgeMl?: number;
}

/** A whole number that arithmetic left a hair too high is still that number. */
const ROUNDING = 1e-9;

/**
 * Plastisol for so many shots of each mould, with all that stays in injector and pot; topping up
 * pays for the residue once. One fill when the pot's size is not given.
 * RangeError for no shots, negative volumes or a pot no larger than its residue.
 */
export function potMl(
  work: Losses & { shots: readonly (MouldLoad & { count: number })[]; potMaxMl?: number },
): PotVolume {
  let pourMl = 0;
  for (const mould of work.shots) {
    const parts = notNegative('cavities', mould.cavities) * notNegative('partMl', mould.partMl);
    const shotMl = parts + notNegative('sprueMl', mould.sprueMl);
    pourMl += wholeFrom(0, 'count', mould.count) * shotMl;
  }
  if (pourMl === 0) throw new RangeError('There is nothing to pour.');
  const heatMl = finite('heatMl', pourMl + lossesMl(work));
  return { pourMl, heatMl, fills: fillsOf(heatMl, work.potResidueMl, work.potMaxMl) };
}

/**
 * Plastisol for so many good baits of one mould at a yield (above 0, at most 1), in whole shots.
 * RangeError for counts that are not whole from 1 up or a yield outside.
 */
export function potMlForBaits(
  order: Losses & MouldLoad & { baits: number; yieldShare: number; potMaxMl?: number },
): PotVolume & { shots: number } {
  const cavities = wholeFrom(1, 'cavities', order.cavities);
  const poured =
    wholeFrom(1, 'baits', order.baits) /
    positive('yieldShare', zeroToOne('yieldShare', order.yieldShare));
  const shots = Math.ceil((poured / cavities) * (1 - ROUNDING));
  return { shots, ...potMl({ ...order, shots: [{ ...order, count: shots }] }) };
}

function lossesMl(losses: Losses): number {
  return (
    notNegative('injectorDeadMl', losses.injectorDeadMl) +
    notNegative('potResidueMl', losses.potResidueMl) +
    notNegative('purgeMl', losses.purgeMl ?? 0)
  );
}

function fillsOf(heatMl: number, residueMl: number, potMaxMl: number | undefined): number {
  if (potMaxMl === undefined) return 1;
  const roomMl = positive('potMaxMl', potMaxMl) - residueMl;
  if (roomMl <= 0) {
    throw new RangeError(
      `potMaxMl must be more than the residue of ${residueMl}, not ${potMaxMl}.`,
    );
  }
  return Math.max(1, Math.ceil(((heatMl - residueMl) / roomMl) * (1 - ROUNDING)));
}
