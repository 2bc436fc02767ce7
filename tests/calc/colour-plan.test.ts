import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import * as colour from '#calc/colour.ts';
import * as forecast from '#calc/colour-forecast.ts';
import * as cost from '#calc/cost.ts';
import * as dose from '#calc/dose.ts';
import * as load from '#calc/load.ts';
import * as stock from '#calc/stock.ts';
import { expectWithin } from '../hands/within.ts';

interface Row {
  id: string;
  fn: string;
  args: unknown[];
  expect: unknown;
  tol: number;
  source: string;
}

const file = new URL('../fixtures/checks/colour-plan.json', import.meta.url);
const rows = JSON.parse(readFileSync(file, 'utf8')) as Row[];

const app: Record<string, unknown> = {
  ...colour,
  ...forecast,
  ...cost,
  ...dose,
  ...load,
  ...stock,
};

/** The evening planner, which is not built yet: its rows are not run, and nothing else is left out. */
const notInTheApp = [
  'bestLineUps',
  'changeoverSec',
  'cheapestOrder',
  'eveningPlan',
  'mouldsPerPerson',
  'orderBound',
  'orderCost',
  'pourTimeline',
  'tendingBoundSec',
  'tendingCycleSec',
  'waitingModel',
];

/** The names that are called from outside, by module (methods-colour-plan section 6). */
const agreed: [string, Record<string, unknown>, string][] = [
  [
    'colour',
    colour,
    `linearFromRgb255 rgb255FromLinear isDisplayable xyzFromLinear linearFromXyz labFromXyz xyzFromLab
    labFromLinear labFromRgb255 rgb255FromLab rgb255FromLabD50 adaptedXyz deltaE2000 whiteBalanced
    toneExponent tonedReflectance photoFault D65 D50`,
  ],
  [
    'colour-forecast',
    forecast,
    `bandsFromLinear linearFromBands ksRatio reflectanceFromKs layer stackedReflectance layerOver
    absorbFor layerFromCard colourantFromSwatch mixOptics opticsLinear opticsLab forecastLab
    blendedOptics meetingLineLab hiddenShare strengthFromPhoto correctedLab forecastDoubt flakeCover
    seenDepthMm withFlake purgeFlushes`,
  ],
  ['dose', dose, 'geometricRound roundedDoses largestRemainder smallestBaseMl spoonText'],
  [
    'load',
    load,
    'firstFitDecreasing loadsBound fewestLoads chosenInjector fillWindowSec potMl potMlForBaits',
  ],
  ['cost', cost, 'baitCost shownCents'],
  ['stock', stock, 'averageLedger fifoLedger periodAverage reorderDay'],
];

test.each(agreed)('%s has the agreed names', (_, module, names) => {
  expect(Object.keys(module)).toEqual(expect.arrayContaining(names.split(/\s+/)));
});

test('every row of the table is run or is for a function named as not in the app', () => {
  const left = rows.filter(({ fn }) => !(fn in app)).map(({ fn }) => fn);
  expect([...new Set(left)].sort()).toEqual(notInTheApp);
  expect(rows.length).toBe(169);
  expect(rows.filter(({ fn }) => fn in app).length).toBe(140);
});

test.each(rows.filter(({ fn }) => fn in app))('$id $fn: $source', (row) => {
  const run = app[row.fn] as (...args: unknown[]) => unknown;
  expectLike(run(...row.args), row.expect, row.tol, row.id);
});

test.each(rows.filter(({ fn }) => fn === 'deltaE2000'))('$id the other way round', (row) => {
  const [one, other] = row.args as [colour.Lab, colour.Lab];
  expectWithin(colour.deltaE2000(other, one), row.expect as number, row.tol);
});

/** Every number named lies within the tolerance, everything else named is the same. */
function expectLike(found: unknown, wanted: unknown, tol: number, where: string): void {
  if (typeof wanted === 'number') {
    expect(typeof found, where).toBe('number');
    expectWithin(found as number, wanted, tol);
  } else if (Array.isArray(wanted)) {
    expect(found, where).toHaveLength(wanted.length);
    for (const [at, each] of wanted.entries()) {
      expectLike((found as unknown[])[at], each, tol, `${where}[${at}]`);
    }
  } else if (wanted !== null && typeof wanted === 'object') {
    for (const [key, each] of Object.entries(wanted)) {
      expectLike((found as Record<string, unknown>)[key], each, tol, `${where}.${key}`);
    }
  } else expect(found, where).toBe(wanted);
}
