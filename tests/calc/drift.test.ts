import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  alarmLine,
  driftBaseline,
  driftSince,
  isRareShot,
  llrAverageRun,
  llrCusum,
  pLimits,
} from '#calc/drift.ts';
import { seeded, shotChance, shotCounts, successes } from '../hands/seeded.ts';

const counts = fc
  .array(
    fc
      .integer({ min: 0, max: 20 })
      .chain((n) => fc.tuple(fc.integer({ min: 0, max: n }), fc.constant(n))),
    { maxLength: 40 },
  )
  .map((pairs) => ({ x: pairs.map(([x]) => x), n: pairs.map(([, n]) => n) }));
const inner = fc.double({ min: 0.01, max: 0.6, noNaN: true });

test('shots without a failure never raise the chart that watches for worse', () => {
  fc.assert(
    fc.property(counts, inner, ({ x, n }, p0) => {
      const chart = llrCusum([...x, 0, 0], [...n, 8, 8], p0, 2, 1.7);
      expect(chart.at(-2)).toBeLessThanOrEqual(chart.at(-3) ?? 0);
      expect(chart.at(-1)).toBeLessThanOrEqual(chart.at(-2) ?? 0);
      expect(chart.every((level) => level >= 0 && Number.isFinite(level))).toBe(true);
    }),
  );
});

test('further shots never change what the chart said before', () => {
  fc.assert(
    fc.property(counts, inner, fc.integer({ min: 0, max: 40 }), ({ x, n }, p0, cut) => {
      const whole = llrCusum(x, n, p0, 2, 1.7);
      expect(llrCusum(x.slice(0, cut), n.slice(0, cut), p0, 2, 1.7)).toEqual(whole.slice(0, cut));
    }),
  );
});

test('every shot may carry the normal share and the effect of its own mould', () => {
  const x = [2, 1, 3];
  const n = [8, 8, 8];
  expect(llrCusum(x, n, [0.1, 0.1, 0.1], 2, [1.7, 1.7, 1.7])).toEqual(llrCusum(x, n, 0.1, 2, 1.7));
  const [first, , last] = llrCusum(x, n, [0.1, 0.1, 0.3], 2, [1, 1, 1]);
  expect(first).toBe(llrCusum(x, n, 0.1, 2, 1)[0]);
  expect(last).toBeLessThan(llrCusum(x, n, 0.1, 2, 1)[2] ?? 0);
});

// Method, section 2 g: at h = 4 a false alarm per 420 to 2,700 shots, doubled odds noticed in 16 to 35.
test.each([
  [4, 0.03, 0],
  [8, 0.1, 0.1],
  [8, 0.2, 0.2],
])(
  'at the alarm line %d cavities at %d give a false alarm in hundreds of shots only',
  (m, p0, rho) => {
    const D = 1 + (m - 1) * rho;
    const run = llrAverageRun(m, p0, p0, 2, D, rho, alarmLine);
    expect(run).toBeGreaterThan(420);
    expect(run).toBeLessThan(2700);
  },
);

test.each([0, 0.1, 0.2])(
  'with likeness %d doubled odds are noticed within 16 to 35 shots',
  (rho) => {
    const doubled = 0.2 / 1.1;
    const run = llrAverageRun(8, doubled, 0.1, 2, 1 + 7 * rho, rho, alarmLine);
    expect(run).toBeGreaterThan(15);
    expect(run).toBeLessThan(36);
  },
);

test('the average run of the chain is that of charts that were let run', () => {
  const chance = seeded(69);
  const runs = 1500;
  let shots = 0;
  for (let run = 0; run < runs; run++) {
    for (let level = 0; level < 3; shots++) {
      const x = successes(chance, 8, shotChance(chance, 0.2, 0.1));
      const [gain = 0] = llrCusum([8, x], [8, 8], 0.1, 2, 1.7).slice(1);
      const [start = 0] = llrCusum([8], [8], 0.1, 2, 1.7);
      level = Math.max(0, level + gain - start);
    }
  }
  // Three standard errors: the method's own 5,000 runs had 0.15.
  expect(Math.abs(shots / runs - llrAverageRun(8, 0.2, 0.1, 2, 1.7, 0.1, 3))).toBeLessThan(0.8);
});

test('a share that all but never fails runs long, but not for ever', () => {
  const run = llrAverageRun(8, 1e-9, 0.1, 2, 1.7, 0, 4);
  expect(Number.isFinite(run)).toBe(true);
  expect(run).toBeGreaterThan(1e9);
});

test('limits of samples that are all good, all bad or none are inside 0 to 1', () => {
  expect(pLimits([0, 0], 8)).toEqual([0, 0, 0]);
  expect(pLimits([8, 8], 8)).toEqual([1, 1, 1]);
  expect(pLimits([], 8)).toEqual([0, 0, 0]);
  const [centre, upper, lower] = pLimits([1, 7, 3], 8);
  expect([lower <= centre, centre <= upper, lower >= 0, upper <= 1]).toEqual([
    true,
    true,
    true,
    true,
  ]);
});

// Montgomery's orange juice: of the thirty samples only the 15th and the 23rd lie outside.
test('exactly the samples 15 and 23 of the orange juice cans lie outside their limits', () => {
  const cans = [
    12, 15, 8, 10, 4, 7, 16, 9, 14, 10, 5, 6, 17, 12, 22, 8, 10, 5, 13, 11, 20, 18, 24, 15, 9, 12,
    7, 13, 9, 6,
  ];
  const [, upper, lower] = pLimits(cans, 50);
  const out = cans.flatMap((x, at) => (x / 50 > upper || x / 50 < lower ? [at + 1] : []));
  expect(out).toEqual([15, 23]);
});

test('a single shot is rare only where its count would be, likeness included', () => {
  // Binomial(8, 0.1): P(X >= 5) = 0.00043, P(X >= 4) = 0.00502.
  expect(isRareShot(5, 8, { p0: 0.1, rho: 0 })).toBe(true);
  expect(isRareShot(4, 8, { p0: 0.1, rho: 0 })).toBe(false);
  expect(isRareShot(5, 8, { p0: 0.1, rho: 0.2 })).toBe(false);
  expect(isRareShot(0, 0, { p0: 0.1, rho: 0.2 })).toBe(false);
});

test('normal is told from thirty shots and ten failures on', () => {
  const n = (shots: number) => new Array<number>(shots).fill(8);
  const x = (shots: number, failed: number) =>
    n(shots).map((_, s) => (s >= shots - failed ? 1 : 0));
  expect(driftBaseline(x(29, 12), n(29))).toMatchObject({ kind: 'too-few-shots', needed: 30 });
  expect(driftBaseline(x(30, 9), n(30))).toMatchObject({ kind: 'too-few-failures', needed: 10 });
  const ready = driftBaseline(x(30, 10), n(30));
  expect(ready).toMatchObject({ kind: 'ready', shots: 30, failures: 10 });
  if (ready.kind === 'ready') expect(ready.normal.p0).toBeCloseTo(10.5 / 241, 12);
  expect(driftBaseline([], [])).toMatchObject({
    kind: 'too-few-shots',
    shots: 0,
    goodBeforeFirst: 0,
  });
});

test('a first failure after a long good run tells how many were good before it', () => {
  const n = new Array<number>(31).fill(8);
  const x = n.map((_, s) => (s === 26 ? 1 : 0));
  expect(driftBaseline(x, n)).toMatchObject({ failures: 1, goodBeforeFirst: 208 });
});

const normalRun = { p0: 0.1, rho: 0.1 };

test('a run at the normal share is as usual, so is none at all', () => {
  expect(driftSince([], [], normalRun)).toEqual({ kind: 'as-usual', above: 0, below: 0 });
  const x = [1, 0, 1, 1, 1, 0, 1, 1, 1, 1];
  expect(
    driftSince(
      x,
      x.map(() => 8),
      normalRun,
    ).kind,
  ).toBe('as-usual');
});

test('a run that triples from the eleventh shot is above since then', () => {
  const x = [...[1, 0, 1, 1, 1, 0, 1, 1, 0, 0], ...new Array<number>(15).fill(3)];
  const drift = driftSince(
    x,
    x.map(() => 8),
    normalRun,
  );
  expect(drift).toMatchObject({ kind: 'above', sinceShot: 10, failures: 45, total: 120 });
  if (drift.kind === 'above') expect(drift.alarmAt).toBeGreaterThan(12);
});

test('a run without any failure is below in the end', () => {
  const x = new Array<number>(60).fill(0);
  expect(
    driftSince(
      x,
      x.map(() => 8),
      normalRun,
    ),
  ).toMatchObject({ kind: 'below', sinceShot: 0, failures: 0 });
});

test.each([
  ['lists of unequal length', () => llrCusum([1], [], 0.1, 2, 1)],
  ['a normal share of 0', () => llrCusum([1], [8], 0, 2, 1)],
  ['D of 0', () => llrCusum([1], [8], 0.1, 2, 0)],
  ['a D too few', () => llrCusum([1, 1], [8, 8], 0.1, 2, [1])],
  ['odds of 0', () => llrCusum([1], [8], 0.1, 0, 1)],
  ['no cavity', () => llrAverageRun(0, 0.1, 0.1, 2, 1, 0, 3)],
  ['a line at 0', () => llrAverageRun(8, 0.1, 0.1, 2, 1, 0, 0)],
  ['a real share of 0', () => llrAverageRun(8, 0, 0.1, 2, 1, 0, 3)],
  ['samples of none', () => pLimits([0], 0)],
  ['more than the sample', () => pLimits([9], 8)],
  ['not a number', () => driftSince([Number.NaN], [8], normalRun)],
])('%s is refused with a RangeError', (_, call) => {
  expect(call).toThrow(RangeError);
});

// Limit: one false alarm in 420 shots at the worst, either chart: under 1 - exp(-100 * 2 / 420) = 38%
// of hundred-shot logs; of logs with tripled failures nearly all are noticed (7 to 16 shots).
test('of a hundred normal shots few raise an alarm, of tripled failures nearly all do', () => {
  const chance = seeded(314);
  let alarms = 0;
  let noticed = 0;
  for (let run = 0; run < 300; run++) {
    const usual = shotCounts(chance, 100, 8, 0.1, 0.1);
    if (driftSince(usual.x, usual.n, normalRun).kind !== 'as-usual') alarms += 1;
    const worse = shotCounts(chance, 60, 8, 0.3, 0.1);
    if (driftSince(worse.x, worse.n, normalRun).kind === 'above') noticed += 1;
  }
  expect(alarms / 300).toBeLessThan(0.38);
  expect(noticed / 300).toBeGreaterThan(0.97);
});
