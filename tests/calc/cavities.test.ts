import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  badgeLine,
  badgeLitAt,
  type CavityVerdicts,
  cavityEvidence,
  cavityMidP,
  cavityTallies,
  cavityVerdicts,
  holm,
  poissonBinomial,
} from '#calc/cavities.ts';
import type { CavityResults } from '#calc/cavity-results.ts';

const share = fc.double({ min: 0, max: 1, noNaN: true });
const result = fc.constantFrom<0 | 1>(0, 1);
const results = fc
  .integer({ min: 1, max: 12 })
  .chain((cavities) =>
    fc.array(fc.array(result, { minLength: cavities, maxLength: cavities }), { maxLength: 25 }),
  );
const withGaps = fc.integer({ min: 1, max: 20 }).chain((cavities) =>
  fc.array(
    fc.array(fc.constantFrom<0 | 1 | null>(0, 1, null), {
      minLength: cavities,
      maxLength: cavities,
    }),
    { maxLength: 25 },
  ),
);

function judged(matrix: CavityResults) {
  const verdicts: CavityVerdicts = cavityVerdicts(matrix);
  if (verdicts.kind !== 'judged') throw new Error(`not judged but ${verdicts.kind}`);
  return verdicts;
}

function repeated<T>(times: number, row: readonly T[]): T[][] {
  return Array.from({ length: times }, () => [...row]);
}

test('equal chances give the binomial law', () => {
  // Binomial(5, 1/2) is 1 5 10 10 5 1 over 32: Pascal's triangle.
  const expected = [1, 5, 10, 10, 5, 1].map((ways) => ways / 32);
  for (const [k, value] of poissonBinomial([0.5, 0.5, 0.5, 0.5, 0.5]).entries()) {
    expect(value).toBeCloseTo(expected[k] ?? Number.NaN, 14);
  }
});

test('a Poisson-binomial has mean sum q and variance sum q(1-q)', () => {
  fc.assert(
    fc.property(fc.array(share, { maxLength: 40 }), (q) => {
      const shares = poissonBinomial(q);
      const moment = (power: number) => shares.reduce((sum, p, k) => sum + p * k ** power, 0);
      const mean = q.reduce((sum, p) => sum + p, 0);
      const variance = q.reduce((sum, p) => sum + p * (1 - p), 0);
      expect(moment(0)).toBeCloseTo(1, 12);
      expect(moment(1)).toBeCloseTo(mean, 10);
      expect(moment(2) - moment(1) ** 2).toBeCloseTo(variance, 8);
    }),
  );
});

test('Holm never lowers a chance, keeps their order and stays at most Bonferroni', () => {
  fc.assert(
    fc.property(fc.array(share, { maxLength: 25 }), (p) => {
      const corrected = holm(p);
      for (const [i, raw] of p.entries()) {
        const own = corrected[i] ?? Number.NaN;
        expect(own).toBeGreaterThanOrEqual(raw);
        expect(own).toBeLessThanOrEqual(Math.min(1, raw * p.length) + 1e-15);
        for (const [j, other] of p.entries()) {
          if (raw <= other) expect(own).toBeLessThanOrEqual(corrected[j] ?? Number.NaN);
        }
      }
    }),
  );
});

test('the order of the shots changes nothing, relabelled cavities carry their results with them', () => {
  fc.assert(
    fc.property(results, (matrix) => {
      const shuffled = [...matrix].reverse();
      const relabelled = matrix.map((shot) => [...shot].reverse());
      for (const sums of [cavityMidP, cavityEvidence]) {
        for (const [at, value] of sums(matrix).entries()) {
          const tolerance = 1e-10 * Math.max(1, value);
          expect(Math.abs((sums(shuffled)[at] ?? Number.NaN) - value)).toBeLessThan(tolerance);
          const mirrored = sums(relabelled).at(-1 - at) ?? Number.NaN;
          expect(Math.abs(mirrored - value)).toBeLessThan(tolerance);
        }
      }
    }),
  );
});

test('a shot in which all or none failed changes nothing', () => {
  fc.assert(
    fc.property(results, result, (matrix, same) => {
      fc.pre(matrix.length > 0);
      const more = [...matrix, (matrix[0] ?? []).map(() => same)];
      expect(cavityMidP(more)).toEqual(cavityMidP(matrix));
      expect(cavityEvidence(more)).toEqual(cavityEvidence(matrix));
    }),
  );
});

test('over complete shots the seen and the expected defects both add up to those of telling shots', () => {
  fc.assert(
    fc.property(results, (matrix) => {
      const failed = matrix
        .map((shot) => ({ m: shot.filter((r) => r === 1).length, c: shot.length }))
        .filter(({ m, c }) => m > 0 && m < c)
        .reduce((sum, { m }) => sum + m, 0);
      const tallies = cavityTallies(matrix);
      expect(tallies.reduce((sum, { seen }) => sum + seen, 0)).toBe(failed);
      expect(tallies.reduce((sum, { expected }) => sum + expected, 0)).toBeCloseTo(failed, 9);
    }),
  );
});

// Ville's bound rests on this: whichever m of the c cavities fail, on average nothing is gained.
test('over all ways in which m cavities can fail the evidence stays where it was on average', () => {
  fc.assert(
    fc.property(
      fc.array(fc.array(result, { minLength: 5, maxLength: 5 }), { minLength: 1, maxLength: 12 }),
      fc.integer({ min: 1, max: 4 }),
      (matrix, m) => {
        const ways = subsets(5, m);
        const before = cavityEvidence(matrix);
        const after = ways.map((failed) => cavityEvidence([...matrix, failed]));
        for (const [cavity, value] of before.entries()) {
          const mean = after.reduce((sum, e) => sum + (e[cavity] ?? 0), 0) / ways.length;
          expect(Math.abs(mean - value)).toBeLessThan(1e-12 * Math.max(1, value));
        }
      },
    ),
  );
});

function subsets(c: number, m: number): (0 | 1)[][] {
  const all = Array.from({ length: 2 ** c }, (_, bits) =>
    Array.from({ length: c }, (_, at): 0 | 1 => ((bits >> at) & 1 ? 1 : 0)),
  );
  return all.filter((row) => row.filter((r) => r === 1).length === m);
}

// Method, section 2 b: the corrected normal of a long log is within 3% of the exact chance.
test('above 3,000 telling shots the chance stays within 3% of the exact one', () => {
  const shots = 3001;
  const seen = 430;
  const matrix = Array.from({ length: shots }, (_, s) => {
    const at = s < seen ? 0 : 1 + (s % 7);
    return Array.from({ length: 8 }, (_, cavity): 0 | 1 => (cavity === at ? 1 : 0));
  });
  const shares = poissonBinomial(new Array<number>(shots).fill(1 / 8));
  const exact = shares.slice(seen + 1).reduce((sum, p) => sum + p, (shares[seen] ?? 0) / 2);
  const [far = 0] = cavityMidP(matrix);
  expect(exact).toBeLessThan(0.01);
  expect(Math.abs(far / exact - 1)).toBeLessThan(0.03);
});

test('gaps, one cavity, twenty cavities and empty logs give numbers', () => {
  fc.assert(
    fc.property(withGaps, (matrix) => {
      const numbers = [...cavityMidP(matrix), ...cavityEvidence(matrix)];
      expect(numbers.every((value) => Number.isFinite(value) && value >= 0)).toBe(true);
      expect(() => cavityVerdicts(matrix)).not.toThrow();
    }),
  );
  expect(cavityVerdicts([])).toEqual({ kind: 'nothing-telling', shots: 0 });
  expect(cavityVerdicts([[1], [0]])).toEqual({ kind: 'one-cavity' });
  expect(cavityVerdicts(repeated(9, [1, 1, 1]))).toEqual({ kind: 'nothing-telling', shots: 9 });
});

test('a cavity that fails alone in ten thousand shots gives evidence that is still a number', () => {
  const [evidence = 0] = cavityEvidence(repeated(10_000, [1, 0, 0, 0, 0, 0, 0, 0]));
  expect(Number.isFinite(evidence)).toBe(true);
  expect(evidence).toBeGreaterThan(1e300);
});

test('under five telling shots is too early, and so is a mould in which always bad could not pass', () => {
  const four = judged(repeated(4, [1, 0, 0, 0, 0, 0, 0, 0]));
  expect(four.cavities[0]?.verdict).toBe('too-early');
  const five = judged(repeated(5, [1, 0, 0, 0, 0, 0, 0, 0]));
  expect(five.cavities[0]).toMatchObject({ verdict: 'stands-out', telling: 5, seen: 5 });
  expect(five.cavities[0]?.expected).toBeCloseTo(5 / 8, 12);
  // Of two cavities one fails in each shot: 0.5 * 0.5^5 = 0.0156 <= 0.05/2, but 3 of 4 failing: 0.5 * 0.75^5 > 0.05/4.
  expect(judged(repeated(5, [1, 0])).cavities[0]?.verdict).toBe('stands-out');
  expect(judged(repeated(5, [1, 1, 1, 0])).cavities[0]?.verdict).toBe('too-early');
});

test('all alike is said only from forty telling shots on', () => {
  const turns = (shots: number) =>
    Array.from({ length: shots }, (_, s) =>
      [0, 1, 2, 3].map((cavity): 0 | 1 => (cavity === s % 4 ? 1 : 0)),
    );
  expect(judged(turns(36)).isAlike).toBe(false);
  expect(judged(turns(40)).isAlike).toBe(true);
  expect(judged([...turns(40), ...repeated(30, [1, 0, 0, 0] as const)]).isAlike).toBe(false);
});

test('the badge needs more evidence in a mould of more cavities and with more kinds watched', () => {
  expect(badgeLine(8)).toBeCloseTo(160, 9);
  expect(badgeLine(8, 6)).toBeCloseTo(960, 9);
  const always = repeated(12, [1, 0, 0, 0, 0, 0, 0, 0] as const);
  const [one] = badgeLitAt(always);
  const [six] = badgeLitAt(always, 6);
  expect(one).toBeLessThan(six ?? 0);
  expect(badgeLitAt(always)[1]).toBeNull();
});

test.each([
  ['shots of unequal length', [[0, 1], [0]]],
  ['a result of 2', [[0, 2]]],
  ['not a number', [[0, Number.NaN]]],
])('%s are refused with a RangeError', (_, matrix) => {
  const hostile = matrix as CavityResults;
  expect(() => cavityMidP(hostile)).toThrow(RangeError);
  expect(() => cavityEvidence(hostile)).toThrow(RangeError);
  expect(() => cavityVerdicts(hostile)).toThrow(RangeError);
});

test.each([-0.1, 1.1, Number.NaN])('a chance of %d is refused with a RangeError', (p) => {
  expect(() => poissonBinomial([0.5, p])).toThrow(RangeError);
  expect(() => holm([0.5, p])).toThrow(RangeError);
});
