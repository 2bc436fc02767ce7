/**
 * Bessel function of the first kind, J0 or J1, by its power series.
 *
 * Good to about 1e-10 for 0 <= x <= 15; beyond that the alternating terms cancel too much.
 */
export function besselJ(order: 0 | 1, x: number): number {
  const quarter = (x / 2) ** 2;
  let term = order === 0 ? 1 : x / 2;
  let sum = term;
  for (let k = 1; Math.abs(term) > 1e-18 || k < quarter; k++) {
    term *= -quarter / (k * (k + order));
    sum += term;
  }
  return sum;
}

/**
 * The n-th positive root of J0 (n = 1, 2, ...), good to about 1e-9.
 *
 * McMahon's expansion (Abramowitz and Stegun 9.5.12, from memory), and for the first few roots,
 * where it is coarse, three steps of Newton on top.
 */
export function besselJ0Root(n: number): number {
  const beta8 = 8 * Math.PI * (n - 0.25);
  let root = beta8 / 8 + 1 / beta8 - 124 / (3 * beta8 ** 3) + 120928 / (15 * beta8 ** 5);
  if (n < 5) {
    for (let step = 0; step < 3; step++) root += besselJ(0, root) / besselJ(1, root);
  }
  return root;
}
