import { finite } from '#calc/range.ts';

/** One shot of the past: how warm the mould was, and whether the bait came out clean. */
export interface WarmTrial {
  /** Mould over room temperature just before the shot. */
  aboveAmbientK: number;
  clean: boolean;
}

/** How far above the room a mould starts to cast clean, and how sure that is. */
export interface WarmAbove {
  meanK: number;
  sdK: number;
}

/** Width of the change from bad to clean. */
const SPREAD_K = 4;

/** What is believed before the first shot: N(15, 10), common practice for aluminium, no source. */
const PRIOR_K = { mean: 15, sd: 10 };

const GRID_K = Array.from({ length: 61 }, (_, k) => k);

/**
 * Learns from past shots how far above the room a mould must be to cast clean.
 *
 * Bayes on a grid of 0..60 K: a shot is clean with a chance that climbs as a logistic curve through
 * one half at the threshold. The order of the shots does not matter.
 *
 * A warm shot is taken to be clean for certain, so it fits moulds of one cavity. Where many cavities
 * each miss now and then, the answer swings by 20 K with what is called a clean shot; the cold line
 * of a mould is therefore learnt by the change-point of `cold-shots.ts`, by place or by temperature.
 */
export function learnWarmAbove(history: readonly WarmTrial[]): WarmAbove {
  const logs = GRID_K.map((thresholdK) => {
    let log = -0.5 * ((thresholdK - PRIOR_K.mean) / PRIOR_K.sd) ** 2;
    for (const { aboveAmbientK, clean } of history) {
      const over = (finite('aboveAmbientK', aboveAmbientK) - thresholdK) / SPREAD_K;
      log += logChance(clean ? over : -over);
    }
    return log;
  });
  const top = Math.max(...logs);
  const weights = logs.map((log) => Math.exp(log - top));
  const meanK = weighted(weights, (thresholdK) => thresholdK);
  return { meanK, sdK: Math.sqrt(weighted(weights, (thresholdK) => (thresholdK - meanK) ** 2)) };
}

function weighted(weights: readonly number[], of: (thresholdK: number) => number): number {
  let sum = 0;
  let total = 0;
  for (const [thresholdK, weight] of weights.entries()) {
    sum += weight * of(thresholdK);
    total += weight;
  }
  return sum / total;
}

/** Logarithm of 1 / (1 + exp(-x)) that overflows at neither end. */
function logChance(x: number): number {
  return x > 0 ? -Math.log1p(Math.exp(-x)) : x - Math.log1p(Math.exp(x));
}
