import { test } from '@playwright/test';
import type { Figure } from '../hands/figure.ts';

/** Puts a row in the table at the end of `npm test`; called before anything that may fail is asked. */
export function figure(found: Figure): void {
  console.log(`${found.drill}: ${found.reached}`);
  test.info().annotations.push({ type: 'figure', description: JSON.stringify(found) });
}
