import { type Counts, demandCounts } from '#calc/counts.ts';

/**
 * What clusters of counts add up to: all that their likeness and design effect need. Sums of
 * separate clusters may be added, so a long log is walked through once.
 */
export interface ClusterSums {
  clusters: number;
  /** Results recorded, those with the outcome. */
  of: number;
  x: number;
  /** Sum of x² / n, and of n², over the clusters. */
  squares: number;
  sizes: number;
}

/** No cluster yet. */
export function noClusters(): ClusterSums {
  return { clusters: 0, of: 0, x: 0, squares: 0, sizes: 0 };
}

/** Adds one cluster of x in n; one with nothing recorded says nothing. */
export function addCluster(sums: ClusterSums, x: number, n: number): void {
  if (n === 0) return;
  sums.clusters += 1;
  sums.of += n;
  sums.x += x;
  sums.squares += (x * x) / n;
  sums.sizes += n * n;
}

/** The sums of some clusters. Throws a RangeError for impossible counts. */
export function clusterSums(x: Counts, n: Counts): ClusterSums {
  demandCounts(x, n);
  const sums = noClusters();
  for (const [s, c] of n.entries()) addCluster(sums, x[s] ?? 0, c);
  return sums;
}

/** The sums of both, or of the first without the second, which must be part of it. */
export function sumsWith(a: ClusterSums, b: ClusterSums, sign: 1 | -1 = 1): ClusterSums {
  return {
    clusters: a.clusters + sign * b.clusters,
    of: a.of + sign * b.of,
    x: a.x + sign * b.x,
    squares: a.squares + sign * b.squares,
    sizes: a.sizes + sign * b.sizes,
  };
}

/**
 * Intraclass correlation by analysis of variance, inside each group of clusters, and its degrees of
 * freedom; null where the clusters cannot say.
 */
export function likenessSeen(
  groups: readonly ClusterSums[],
): { rho: number; freedom: number } | null {
  let between = 0;
  let within = 0;
  let spread = 0;
  let freedom = 0;
  let inner = 0;
  for (const g of groups) {
    if (g.of === 0) continue;
    between += g.squares - (g.x * g.x) / g.of;
    within += g.x - g.squares;
    spread += g.of - g.sizes / g.of;
    freedom += g.clusters - 1;
    inner += g.of - g.clusters;
  }
  // Rounding alone may leave a trace of both where every cluster is alike good or bad.
  if (freedom < 1 || inner <= 0 || between + within < 1e-9) return null;
  const b = Math.max(0, between) / freedom;
  const w = Math.max(0, within) / inner;
  const all = b + (spread / freedom - 1) * w;
  return all > 0 ? { rho: (b - w) / all, freedom } : null;
}

/** D >= 1 for clusters whose members are alike by rho: the mean of 1 + (n - 1) rho over all results. */
export function effectBy(rho: number, { of, sizes }: ClusterSums): number {
  return of === 0 ? 1 : Math.max(1, 1 + rho * (sizes / of - 1));
}
