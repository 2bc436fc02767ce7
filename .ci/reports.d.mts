import type { Figure } from '../tests/hands/figure.ts';

export function testsOf(
  report: object,
): { name: string; hasFailed: boolean; why: string; figures: Figure[] }[];
export function rowsOf(
  listed: Readonly<Record<string, number>>,
  figures: readonly Figure[],
): Figure[];
export function tableOf(rows: readonly Figure[]): string[];
