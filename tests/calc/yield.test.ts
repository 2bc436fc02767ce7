import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  designEffect,
  icc,
  isTooEarly,
  isTooEarlyAcross,
  pooledLikeness,
  wilson,
  yieldInterval,
  yieldIntervalAcross,
} from '#calc/yield.ts';
import { csvRows } from '../hands/regressions.ts';
import { normal, seeded, shotChance, shotCounts, successes } from '../hands/seeded.ts';

const shot = fc
  .integer({ min: 0, max: 20 })
  .chain((n) => fc.tuple(fc.integer({ min: 0, max: n }), fc.constant(n)));
const shots = fc
  .array(shot, { maxLength: 30 })
  .map((pairs) => ({ x: pairs.map(([x]) => x), n: pairs.map(([, n]) => n) }));

const sum = (values: readonly number[]) => values.reduce((a, b) => a + b, 0);

test('the interval of the bad is the mirrored interval of the good, inside 0 to 1', () => {
  fc.assert(
    fc.property(shot, ([x, n]) => {
      const [lo, hi] = wilson(x, n);
      const [badLo, badHi] = wilson(n - x, n);
      expect(badLo).toBeCloseTo(1 - hi, 12);
      expect(badHi).toBeCloseTo(1 - lo, 12);
      expect(lo).toBeGreaterThanOrEqual(0);
      expect(hi).toBeLessThanOrEqual(1);
      expect(lo).toBeLessThan(hi);
    }),
  );
});

test('none good gives a lower limit of exactly 0, all good an upper limit of exactly 1', () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 5000 }), (n) => {
      expect(wilson(0, n)[0]).toBe(0);
      expect(wilson(n, n)[1]).toBe(1);
    }),
  );
});

// Newcombe 1998a: the score limits are the p at which the observed share lies z standard errors off.
test('each limit is the share at which the count would lie just z standard errors away', () => {
  for (const conf of [0.9, 0.95, 0.98]) {
    const z = { 0.9: 1.6448536269514722, 0.95: 1.959963984540054, 0.98: 2.3263478740408408 }[conf];
    for (const limit of wilson(42, 48, conf)) {
      const error = Math.sqrt((limit * (1 - limit)) / 48);
      expect(Math.abs(42 / 48 - limit) / error).toBeCloseTo(z ?? 0, 10);
    }
  }
});

test('with whole shots as clusters the interval is never narrower than the plain one', () => {
  fc.assert(
    fc.property(shots, ({ x, n }) => {
      const [p, lo, hi] = yieldInterval(x, n);
      const [plainLo, plainHi] = wilson(sum(x), sum(n));
      expect(hi - lo).toBeGreaterThanOrEqual(plainHi - plainLo - 1e-12);
      for (const value of [p, lo, hi]) expect(Number.isFinite(value)).toBe(true);
    }),
  );
});

test('with one cavity a shot the interval is the plain one', () => {
  fc.assert(
    fc.property(fc.array(fc.integer({ min: 0, max: 1 }), { minLength: 1 }), (x) => {
      const n = x.map(() => 1);
      const [, lo, hi] = yieldInterval(x, n);
      const [plainLo, plainHi] = wilson(sum(x), n.length);
      expect(lo).toBeCloseTo(plainLo, 12);
      expect(hi).toBeCloseTo(plainHi, 12);
    }),
  );
});

// Weil 1970, rat litters: clusters of unequal size; the value for the control group recomputed in R.
test('litters of the control group are alike by 0.0291 and the treated far more', () => {
  const litters = (group: string) => {
    const own = csvRows('weil-rats.csv').filter((row) => row[0] === group);
    return { n: own.map((row) => Number(row[1])), x: own.map((row) => Number(row[2])) };
  };
  const control = litters('CTRL');
  const treated = litters('TREAT');
  expect([sum(control.x), sum(control.n), sum(treated.x), sum(treated.n)]).toEqual([
    142, 158, 112, 145,
  ]);
  expect(icc(control.x, control.n)).toBeCloseTo(0.0290913854, 9);
  expect(icc(treated.x, treated.n)).toBeGreaterThan(0.2);
});

test('shots in which nothing was recorded change nothing', () => {
  expect(yieldInterval([8, 0, 7, 0, 8], [8, 0, 8, 0, 8])).toEqual(
    yieldInterval([8, 7, 8], [8, 8, 8]),
  );
  expect(
    yieldIntervalAcross([
      { x: [8, 7], n: [8, 8] },
      { x: [0], n: [0] },
    ]),
  ).toEqual(yieldInterval([8, 7], [8, 8]));
});

test('a real change between two periods does not count as likeness within shots', () => {
  const before = { x: [4, 4, 4, 4, 4], n: [8, 8, 8, 8, 8] };
  const after = { x: [8, 8, 8, 8, 8], n: [8, 8, 8, 8, 8] };
  const [together] = designEffect([...before.x, ...after.x], [...before.n, ...after.n]);
  expect(pooledLikeness([before, after])).toBeLessThan(0.2);
  expect(together).toBeGreaterThan(0.2);
});

test('one session alone is judged by its shots, several also by how the sessions differ', () => {
  const good = { x: [8, 8, 8, 8], n: [8, 8, 8, 8] };
  const poor = { x: [4, 5, 4, 4], n: [8, 8, 8, 8] };
  expect(yieldIntervalAcross([good])).toEqual(yieldInterval(good.x, good.n));
  const [, lo, hi] = yieldIntervalAcross([good, poor, good, poor]);
  const flat = [good, poor, good, poor];
  const [, shotLo, shotHi] = yieldInterval(
    flat.flatMap((s) => s.x),
    flat.flatMap((s) => s.n),
  );
  expect(hi - lo).toBeGreaterThan(shotHi - shotLo);
});

test('under 3 shots, or wider than 40 points, is too early', () => {
  expect(isTooEarly([], [])).toBe(true);
  expect(isTooEarly([20, 20], [20, 20])).toBe(true);
  expect(isTooEarly([20, 20, 20], [20, 20, 20])).toBe(false);
  expect(isTooEarly([2, 2, 2], [4, 4, 4])).toBe(true);
  expect(isTooEarlyAcross([{ x: [20, 20], n: [20, 20] }])).toBe(true);
});

test.each([
  ['nothing at all', [], []],
  ['no cavity recorded', [0, 0], [0, 0]],
  ['one shot', [7], [8]],
  ['all good', [20, 20, 20], [20, 20, 20]],
  ['all bad', [0, 0, 0], [8, 8, 8]],
  ['one cavity', [1, 0, 1], [1, 1, 1]],
  ['shots that fail whole', [8, 0, 8, 0], [8, 8, 8, 8]],
  ['one shot of several cavities among single ones', [4, 1], [8, 1]],
])('%s gives finite numbers in order', (_, x, n) => {
  const [p, lo, hi] = yieldInterval(x, n);
  expect([icc(x, n), ...designEffect(x, n)].every(Number.isFinite)).toBe(true);
  expect(lo).toBeLessThanOrEqual(p);
  expect(p).toBeLessThanOrEqual(hi);
  expect(designEffect(x, n)[1]).toBeGreaterThanOrEqual(1);
});

test('groups of a lone shot and of like single cavities leave the likeness as believed', () => {
  const lone = { x: [2], n: [4] };
  const single = { x: [1, 1], n: [1, 1] };
  expect(pooledLikeness([lone, single])).toBe(0.2);
});

test.each([
  ['lists of unequal length', () => yieldInterval([1, 2], [3])],
  ['a negative count', () => yieldInterval([-1], [3])],
  ['more than there are', () => wilson(9, 8)],
  ['not a number', () => icc([Number.NaN], [3])],
  ['endless', () => wilson(1, Number.POSITIVE_INFINITY)],
  ['a confidence of 1', () => wilson(1, 2, 1)],
  ['a bad shot inside a session', () => yieldIntervalAcross([{ x: [3], n: [2] }])],
])('%s is refused with a RangeError', (_, call) => {
  expect(call).toThrow(RangeError);
});

/** How often the 95% interval of 8-cavity shots holds the truth, over shots and yields. */
function coverage(rho: number, shotsInLog: number): number {
  const chance = seeded(71 + shotsInLog + 1000 * rho);
  let held = 0;
  let runs = 0;
  for (const p of [0.7, 0.8, 0.9, 0.95]) {
    for (let run = 0; run < 500; run++) {
      const { x, n } = shotCounts(chance, shotsInLog, 8, p, rho);
      const [, lo, hi] = yieldInterval(x, n);
      if (lo <= p && p <= hi) held += 1;
      runs += 1;
    }
  }
  return held / runs;
}

// Limits: the table of the method's section 1, less 1.5 points for 2,000 runs.
test.each([
  [0, 5, 0.965],
  [0, 15, 0.965],
  [0.2, 3, 0.935],
  [0.2, 15, 0.929],
  [0.2, 30, 0.92],
  [0.4, 15, 0.904],
])(
  'at likeness %d the interval of %d shots holds the truth in at least %d of the logs',
  (rho, k, least) => {
    expect(coverage(rho, k)).toBeGreaterThan(least);
  },
);

// Method, rule 2: sessions that differ by 0.6 on the log-odds scale; the larger effect held 93 to 96 %.
test('the interval over sessions that differ holds the truth where that of the shots alone does not', () => {
  const chance = seeded(2024);
  let held = 0;
  let heldByShots = 0;
  const runs = 600;
  const truth = 0.8;
  // 0.8 is the mean of these chances, by numerical integration over the normal scatter.
  for (let run = 0; run < runs; run++) {
    const sessions = Array.from({ length: 8 }, () => {
      const odds = 4.43135 * Math.exp(0.6 * normal(chance));
      const n = new Array<number>(12).fill(8);
      return {
        n,
        x: n.map(() => successes(chance, 8, shotChance(chance, odds / (1 + odds), 0.1))),
      };
    });
    const [, lo, hi] = yieldIntervalAcross(sessions);
    const [, shotLo, shotHi] = yieldInterval(
      sessions.flatMap((s) => s.x),
      sessions.flatMap((s) => s.n),
    );
    if (lo <= truth && truth <= hi) held += 1;
    if (shotLo <= truth && truth <= shotHi) heldByShots += 1;
  }
  expect(held / runs).toBeGreaterThan(0.91);
  expect(heldByShots / runs).toBeLessThan(0.88);
});
