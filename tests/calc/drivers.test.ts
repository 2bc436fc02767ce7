import fc from 'fast-check';
import { expect, test } from 'vitest';
import { firth, firthChance, firthProfileInterval } from '#calc/drivers.ts';
import { endometrial, flightFailed, flightTempF } from '../hands/regressions.ts';

const ones = (count: number) => new Array<number>(count).fill(1);
const chanceAt = (beta: readonly number[], row: readonly number[]) =>
  1 / (1 + Math.exp(-row.reduce((sum, value, k) => sum + value * (beta[k] ?? 0), 0)));

test('the intercept alone is ln((x + 0.5) / (n - x + 0.5)), half a result added to each side', () => {
  fc.assert(
    fc.property(
      fc
        .integer({ min: 1, max: 500 })
        .chain((n) => fc.tuple(fc.integer({ min: 0, max: n }), fc.constant(n))),
      ([x, n]) => {
        const [beta = Number.NaN] = firth([[1]], [x], [n]).beta;
        expect(beta).toBeCloseTo(Math.log((x + 0.5) / (n - x + 0.5)), 8);
      },
    ),
  );
});

const flights = (of: (tempF: number) => number) => flightTempF.map((tempF) => [1, of(tempF)]);

test('a factor told on another scale has its slope rescaled and predicts the same', () => {
  const plain = firth(
    flights((f) => f),
    flightFailed,
    ones(23),
  );
  const celsius = firth(
    flights((f) => ((f - 32) * 5) / 9),
    flightFailed,
    ones(23),
  );
  expect((celsius.beta[1] ?? 0) / (plain.beta[1] ?? 1)).toBeCloseTo(1.8, 7);
  for (const f of flightTempF) {
    const before = chanceAt(plain.beta, [1, f]);
    expect(chanceAt(celsius.beta, [1, ((f - 32) * 5) / 9])).toBeCloseTo(before, 8);
  }
});

test('every row twice at half its weight changes nothing', () => {
  const X = flights((f) => f);
  const halves = ones(46).map((one) => one / 2);
  const twice = [...flightFailed, ...flightFailed].map((x) => x / 2);
  const plain = firth(X, flightFailed, ones(23));
  const doubled = firth([...X, ...X], twice, halves);
  for (const [k, b] of plain.beta.entries()) expect(doubled.beta[k]).toBeCloseTo(b, 8);
  expect(doubled.penalisedLogLik).toBeCloseTo(plain.penalisedLogLik, 9);
});

test('every coefficient lies inside its own interval', () => {
  const { X, x, n } = endometrial();
  const { beta } = firth(X, x, n);
  for (const k of [0, 1, 2, 3]) {
    const [lo, hi] = firthProfileInterval(X, x, n, k);
    expect(lo).toBeLessThan(beta[k] ?? Number.NaN);
    expect(hi).toBeGreaterThan(beta[k] ?? Number.NaN);
  }
});

test('chance by luck agrees with the interval: outside zero exactly when below 1 - conf', () => {
  const { X, x, n } = endometrial();
  for (const k of [1, 2, 3]) {
    const p = firthChance(X, x, n, k);
    const [lo, hi] = firthProfileInterval(X, x, n, k);
    expect(p < 0.05).toBe(lo > 0 || hi < 0);
    const [edgeLo, edgeHi] = firthProfileInterval(X, x, n, k, 1 - p);
    expect(Math.min(Math.abs(edgeLo), Math.abs(edgeHi))).toBeLessThan(1e-6);
  }
});

test('a factor that parts good from bad gives finite limits, all good and all bad as well', () => {
  const X = [1, 2, 3, 4, 5, 6].map((v) => [1, v]);
  for (const x of [
    [0, 0, 0, 1, 1, 1],
    [0, 0, 0, 0, 0, 0],
    [1, 1, 1, 1, 1, 1],
  ]) {
    const numbers = [...firth(X, x, ones(6)).beta, ...firthProfileInterval(X, x, ones(6), 1)];
    expect(numbers.every(Number.isFinite)).toBe(true);
  }
});

test.each([
  ['lists of unequal length', () => firth([[1], [1]], [1], [1])],
  ['counts of unequal length', () => firth([[1]], [1], [1, 2])],
  ['a negative count', () => firth([[1]], [-1], [1])],
  ['not a number in a column', () => firth([[1, Number.NaN]], [1], [1])],
  ['rows of unequal length', () => firth([[1], [1, 2]], [1, 1], [2, 2])],
  ['no rows', () => firth([], [], [])],
  [
    'two columns that say the same',
    () =>
      firth(
        [
          [1, 2],
          [1, 2],
          [1, 2],
        ],
        [1, 0, 1],
        [2, 2, 2],
      ),
  ],
  ['nothing recorded', () => firth([[1]], [0], [0])],
  ['a column that is not there', () => firthProfileInterval([[1]], [1], [2], 1)],
])('%s is refused with a RangeError', (_, call) => {
  expect(call).toThrow(RangeError);
});
