import { notNegative, zeroToOne } from '#calc/range.ts';

/** A quarter's sales, for the estimate. */
export interface ExciseSales {
  soldToShopsCents: number;
  soldRetailCents: number;
  /** Part of the retail price that counts (0..1), as settled with a licensed practitioner. */
  retailShare: number;
  tackleBoxCents?: number;
}

/**
 * Estimate of the US federal excise tax on fishing articles, in whole cents.
 *
 * 10 % of the maker's price and 3 % for tackle boxes, 26 USC 4161(a); a retail price counts in part,
 * Rev. Rul. 80-273. An estimate only: the rules and a licensed practitioner decide.
 */
export function exciseCents(sales: ExciseSales): number {
  const shops = notNegative('soldToShopsCents', sales.soldToShopsCents);
  const retail = notNegative('soldRetailCents', sales.soldRetailCents);
  const boxes = notNegative('tackleBoxCents', sales.tackleBoxCents ?? 0);
  const taxed = shops + retail * zeroToOne('retailShare', sales.retailShare);
  return Math.round((10 * taxed + 3 * boxes) / 100);
}
