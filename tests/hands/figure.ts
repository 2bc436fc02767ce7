import { TestRunner } from 'vitest';

/** What a drill of a promise reached, in words and numbers for the table at the end of `npm test`. */
export interface Figure {
  /** The promise that was put to the test, as .ci/drills.json names it. */
  drill: string;
  required: string;
  reached: string;
  isMet: boolean;
  /** This machine does not let it be measured: neither met nor missed. */
  isOpen?: boolean;
}

/** Puts a row in the table at the end of `npm test`; called before anything that may fail is asked. */
export function figure(found: Figure): void {
  const test = TestRunner.getCurrentTest();
  if (!test) throw new Error('A figure belongs to a running test.');
  const { meta } = test as { meta: { figures?: Figure[] } };
  meta.figures = [...(meta.figures ?? []), found];
}
