import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { mover, newcombe } from '#calc/before-after.ts';
import { cavityEvidence, cavityMidP, holm, poissonBinomial } from '#calc/cavities.ts';
import { warmupPosterior } from '#calc/cold-shots.ts';
import { llrAverageRun, llrCusum, pLimits } from '#calc/drift.ts';
import { firth, firthProfileInterval } from '#calc/drivers.ts';
import { assurance, betaBinomTail, planShots, rhoTotal } from '#calc/shots-needed.ts';
import { lgamma, qnorm } from '#calc/special.ts';
import { designEffect, icc, wilson, yieldInterval } from '#calc/yield.ts';
import { endometrial, flightFailed, flightTempF } from '../hands/regressions.ts';

interface Row {
  id: string;
  fn: string;
  args: unknown[];
  expect: unknown;
  tol: number | string;
  source: string;
}

type Regression = [X: number[][], x: number[], n: number[]];

const file = new URL('../fixtures/checks/statistics.json', import.meta.url);
const rows = JSON.parse(readFileSync(file, 'utf8')) as Row[];

/** The app's own function for every name the table uses. */
const app: Record<string, (...args: never[]) => unknown> = {
  lgamma,
  qnorm,
  wilson,
  icc,
  designEffect,
  yieldInterval,
  poissonBinomial,
  holm,
  cavityMidP,
  holmOfMidP: (matrix: (0 | 1 | null)[][]) => holm(cavityMidP(matrix)),
  cavityEvidence,
  warmupPosterior,
  newcombe,
  mover,
  rhoTot: rhoTotal,
  betaBinomTail,
  assurance,
  planShots,
  firth: (name: string) => firth(...regression(name)).beta,
  firthProfileCI: (name: string) => {
    const data = regression(name);
    return (data[0][0] ?? []).map((_, j) => firthProfileInterval(...data, j));
  },
  llrCusum,
  llrArl: llrAverageRun,
  pLimits,
};

/** What the app has no use for: its rows are not run, and nothing else is left out. */
const notInTheApp = [
  'bbLogLikMax',
  'bbMoments',
  'betainc',
  'bh',
  'cLimits',
  'clopperPearson',
  'clusterWilsonPlain',
  'cochranQ',
  'fisher2x2',
  'jeffreys',
  'leeLiuPP',
  'logisticML',
  'poissonChangeMode',
  'qbeta',
  'raoScott',
  'tabularCusum',
  'taroneZ',
  'uLimits',
];

test('every row of the table is run or is for a function named as not in the app', () => {
  const left = rows.filter(({ fn }) => !(fn in app)).map(({ fn }) => fn);
  expect([...new Set(left)].sort()).toEqual(notInTheApp);
  const run = new Set(rows.map(({ fn }) => fn).filter((fn) => fn in app));
  expect([...run].sort()).toEqual(Object.keys(app).sort());
  expect(rows.length).toBe(73);
});

test.each(rows.filter(({ fn }) => fn in app))('$id $fn: $source', (row) => {
  const run = app[row.fn];
  if (!run) throw new Error(`There is no ${row.fn}.`);
  const found = numbersIn(run(...(row.args as never[])));
  const expected = numbersIn(row.expect);
  expect(found.length).toBe(expected.length);
  for (const [at, value] of expected.entries()) {
    expect(Math.abs((found[at] ?? Number.NaN) - value)).toBeLessThanOrEqual(
      allowed(row.tol, value),
    );
  }
});

function allowed(tol: number | string, value: number): number {
  if (typeof tol === 'number') return tol;
  return Number(tol.replace('rel:', '')) * Math.abs(value);
}

function numbersIn(value: unknown): number[] {
  return Array.isArray(value) ? value.flatMap(numbersIn) : [Number(value)];
}

/** The data sets that rows name instead of spelling out. */
function regression(name: string): Regression {
  if (name === 'challenger-binary') {
    return [flightTempF.map((tempF) => [1, tempF]), flightFailed, flightFailed.map(() => 1)];
  }
  if (name === 'endometrial') {
    const { X, x, n } = endometrial();
    return [X, x, n];
  }
  if (name === '2x2:3/10 vs 0/10') {
    const X = [
      [1, 0],
      [1, 1],
    ];
    return [X, [3, 0], [10, 10]];
  }
  if (name === 'separated x=1..6 y=000111') {
    return [[1, 2, 3, 4, 5, 6].map((v) => [1, v]), [0, 0, 0, 1, 1, 1], [1, 1, 1, 1, 1, 1]];
  }
  throw new Error(`There is no data set ${name}.`);
}
