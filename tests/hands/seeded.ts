/** A source of numbers in [0, 1) that gives the same run for the same seed (mulberry32). */
export type Chance = () => number;

/** The run of numbers that belongs to a seed. */
export function seeded(seed: number): Chance {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** How many of n trials succeed, each with chance p. */
export function successes(chance: Chance, n: number, p: number): number {
  let count = 0;
  for (let i = 0; i < n; i++) if (chance() < p) count += 1;
  return count;
}

/** A standard normal value (Box and Muller 1958). */
export function normal(chance: Chance): number {
  return Math.sqrt(-2 * Math.log(1 - chance())) * Math.cos(2 * Math.PI * chance());
}

/** A gamma value of unit scale (Marsaglia and Tsang 2000, with their boost below shape 1). */
export function gamma(chance: Chance, shape: number): number {
  if (shape < 1) return gamma(chance, shape + 1) * (1 - chance()) ** (1 / shape);
  const d = shape - 1 / 3;
  for (;;) {
    const z = normal(chance);
    const v = (1 + z / Math.sqrt(9 * d)) ** 3;
    if (v > 0 && Math.log(1 - chance()) < (z * z) / 2 + d - d * v + d * Math.log(v)) return d * v;
  }
}

/** The chance that rules one shot when cavities of a shot are alike by rho around a mean p. */
export function shotChance(chance: Chance, p: number, rho: number): number {
  if (rho === 0) return p;
  const size = 1 / rho - 1;
  const good = gamma(chance, p * size);
  return good / (good + gamma(chance, (1 - p) * size));
}

/** Counts of the outcome in `shots` shots of c cavities that are alike by rho around p. */
export function shotCounts(
  chance: Chance,
  shots: number,
  c: number,
  p: number,
  rho: number,
): { x: number[]; n: number[] } {
  const n = new Array<number>(shots).fill(c);
  return { x: n.map(() => successes(chance, c, shotChance(chance, p, rho))), n };
}
