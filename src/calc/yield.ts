import { betweenZeroAndOne, type Counts, demandCount, demandCounts, total } from '#calc/counts.ts';
import { type ClusterSums, clusterSums, effectBy, likenessSeen } from '#calc/likeness.ts';
import { qnorm } from '#calc/special.ts';

/** Per shot: how many cavities had the outcome, out of how many recorded. */
export interface ShotCounts {
  x: Counts;
  n: Counts;
}

/** What is believed of the likeness within a cluster before it is seen, and for how many clusters that counts. */
export interface LikenessPrior {
  rho0?: number;
  weight?: number;
}

/** Before any evidence: how alike the cavities of one shot are. */
export const shotPrior = { rho0: 0.2, weight: 8 } as const;

/** Before any evidence: how alike the cavities of one session are. */
export const sessionPrior = { rho0: 0.05, weight: 4 } as const;

/** Below this many shots, or above this width, an interval is shown as too early to use. */
export const earlyBelowShots = 3;
export const earlyAboveWidth = 0.4;

/** The z with the middle `conf` of a normal distribution between -z and z. */
export function twoSidedZ(conf: number): number {
  return qnorm((1 + betweenZeroAndOne('conf', conf)) / 2);
}

/**
 * Score interval for a share of x in n: Wilson 1927, Newcombe 1998 (Stat Med 17:857) method 3.
 * n may be an effective number and need not be whole. n = 0 says nothing: [0, 1].
 * Throws a RangeError unless 0 <= x <= n and 0 < conf < 1.
 */
export function wilson(x: number, n: number, conf = 0.95): [number, number] {
  demandCount(x, n);
  const z = twoSidedZ(conf);
  if (n === 0) return [0, 1];
  const p = x / n;
  const share = (z * z) / n;
  const centre = (p + share / 2) / (1 + share);
  const half = (z / (1 + share)) * Math.sqrt((p * (1 - p)) / n + share / (4 * n));
  return [x === 0 ? 0 : Math.max(0, centre - half), x === n ? 1 : Math.min(1, centre + half)];
}

/**
 * How alike the cavities of one shot are: the intraclass correlation by analysis of variance
 * (Donner; worked example Liang 1992). 0 where the shots cannot say: fewer than two shots, all
 * alike good or bad, or one cavity a shot. Throws a RangeError for impossible counts.
 */
export function icc(x: Counts, n: Counts): number {
  return likenessSeen([clusterSums(x, n)])?.rho ?? 0;
}

/**
 * [rho, D]: the likeness drawn towards rho0, which counts as much as `weight` shots, and the
 * factor D >= 1 by which it makes n results worth only n / D.
 * Throws a RangeError for impossible counts.
 */
export function designEffect(x: Counts, n: Counts, prior: LikenessPrior = {}): [number, number] {
  const rho = pooledLikeness([{ x, n }], prior);
  return [rho, effectOf(rho, n)];
}

/**
 * The likeness within clusters, drawn towards rho0, taken inside each group only, so that a real
 * change between the groups does not count as likeness.
 */
export function pooledLikeness(groups: readonly ShotCounts[], prior: LikenessPrior = {}): number {
  return likenessOf(
    groups.map(({ x, n }) => clusterSums(x, n)),
    prior,
  );
}

function likenessOf(groups: readonly ClusterSums[], prior: LikenessPrior): number {
  const { rho0 = shotPrior.rho0, weight = shotPrior.weight } = prior;
  const seen = likenessSeen(groups);
  if (!seen) return rho0;
  return (weight * rho0 + seen.freedom * Math.max(0, seen.rho)) / (weight + seen.freedom);
}

/** D >= 1 for clusters of the sizes n whose members are alike by rho. */
export function effectOf(rho: number, n: Counts): number {
  const cavities = total(n);
  if (cavities === 0) return 1;
  let sum = 0;
  for (const c of n) sum += c * (1 + (c - 1) * rho);
  return Math.max(1, sum / cavities);
}

/**
 * [p, lo, hi]: the share and the interval to expect again, with whole shots as clusters.
 * Nothing recorded gives [0, 0, 1]. Throws a RangeError for impossible counts.
 */
export function yieldInterval(x: Counts, n: Counts, conf = 0.95): [number, number, number] {
  const [, effect] = designEffect(x, n);
  return intervalWith(effect, x, n, conf);
}

/**
 * [p, lo, hi] over several sessions, with the effect of `effectAcross`.
 * Throws a RangeError for impossible counts.
 */
export function yieldIntervalAcross(
  sessions: readonly ShotCounts[],
  conf = 0.95,
): [number, number, number] {
  const { x, n } = together(sessions);
  return intervalWith(effectAcross(sessions), x, n, conf);
}

/**
 * D >= 1 over several sessions: the shots of a session and the sessions of a log both differ among
 * themselves, and the larger effect counts. One session alone: the effect of its shots.
 * Throws a RangeError for impossible counts.
 */
export function effectAcross(sessions: readonly ShotCounts[]): number {
  for (const { x, n } of sessions) demandCounts(x, n);
  const { x, n } = together(sessions);
  const [, shots] = designEffect(x, n);
  const whole = sessionTotals(sessions);
  if (whole.n.length < 2) return shots;
  return Math.max(shots, designEffect(whole.x, whole.n, sessionPrior)[1]);
}

/** The shots and the sessions of a log, each as clusters. */
export interface LogSums {
  shots: ClusterSums;
  sessions: ClusterSums;
}

/** The same as `effectAcross`, from sums. */
export function effectOfSums({ shots, sessions }: LogSums): number {
  const own = effectBy(likenessOf([shots], {}), shots);
  if (sessions.clusters < 2) return own;
  return Math.max(own, effectBy(likenessOf([sessions], sessionPrior), sessions));
}

/** The same as `yieldIntervalAcross`, from sums; null where `isTooEarlyAcross`. */
export function expectedBySums(sums: LogSums, conf: number): [number, number, number] | null {
  const { clusters, x, of } = sums.shots;
  if (clusters < earlyBelowShots) return null;
  const effect = effectOfSums(sums);
  const [lo, hi] = wilson(x / effect, of / effect, conf);
  return hi - lo > earlyAboveWidth ? null : [x / of, lo, hi];
}

/** The shots of all sessions in one list. */
export function together(sessions: readonly ShotCounts[]): { x: number[]; n: number[] } {
  return { x: sessions.flatMap(({ x }) => x), n: sessions.flatMap(({ n }) => n) };
}

/** One count per session that recorded anything, so that sessions can stand as clusters. */
export function sessionTotals(sessions: readonly ShotCounts[]): { x: number[]; n: number[] } {
  const used = sessions.filter((session) => total(session.n) > 0);
  return {
    x: used.map((session) => total(session.x)),
    n: used.map((session) => total(session.n)),
  };
}

/** True while these shots are too few, or say too little, for a range to be shown as a result. */
export function isTooEarly(x: Counts, n: Counts, conf = 0.95): boolean {
  return isEarly(yieldInterval(x, n, conf), n);
}

/** The same over several sessions, from their own wider interval. */
export function isTooEarlyAcross(sessions: readonly ShotCounts[], conf = 0.95): boolean {
  return isEarly(yieldIntervalAcross(sessions, conf), together(sessions).n);
}

function isEarly([, lo, hi]: [number, number, number], n: Counts): boolean {
  const shots = n.filter((c) => c > 0).length;
  return shots < earlyBelowShots || hi - lo > earlyAboveWidth;
}

function intervalWith(
  effect: number,
  x: Counts,
  n: Counts,
  conf: number,
): [number, number, number] {
  const good = total(x);
  const cavities = total(n);
  const share = cavities === 0 ? 0 : good / cavities;
  return [share, ...wilson(good / effect, cavities / effect, conf)];
}
