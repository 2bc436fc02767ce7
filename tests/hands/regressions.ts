import { readFileSync } from 'node:fs';

/** The numbers of a csv file under tests/fixtures/checks, by column, the heading left out. */
export function csvRows(name: string): string[][] {
  const text = readFileSync(new URL(`../fixtures/checks/${name}`, import.meta.url), 'utf8');
  const lines = text.trim().split('\n').slice(1);
  return lines.map((line) => line.split(',').map((cell) => cell.replaceAll('"', '').trim()));
}

/** Joint temperature of 23 flights, °F (Dalal, Fowlkes and Hoadley 1989). */
export const flightTempF = [
  53, 57, 58, 63, 66, 67, 67, 67, 68, 69, 70, 70, 70, 70, 72, 73, 75, 75, 76, 76, 78, 79, 81,
];

/** Whether any ring was in distress on that flight. */
export const flightFailed = [1, 1, 1, 1, 0, 0, 0, 0, 0, 0, 1, 0, 1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 0];

/** Endometrial cancer grades of 79 women (Heinze and Schemper 2002): intercept, NV, PI, EH; grade. */
export function endometrial(): { X: number[][]; x: number[]; n: number[] } {
  const cells = csvRows('endometrial.csv').map((row) => row.map(Number));
  return {
    X: cells.map((row) => [1, ...row.slice(0, 3)]),
    x: cells.map((row) => row[3] ?? Number.NaN),
    n: cells.map(() => 1),
  };
}
