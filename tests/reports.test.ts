import { expect, test } from 'vitest';
import { rowsOf, tableOf, testsOf } from '../.ci/reports.mjs';
import { figure } from './hands/figure.ts';

const found = { drill: 'Killed while logging', required: '0 lost', reached: '0 of 9', isMet: true };

test('a figure goes with its test into the report', ({ task }) => {
  figure(found);
  expect((task.meta as { figures?: unknown[] }).figures).toEqual([found]);
  // What is tried here is no drill.
  Reflect.deleteProperty(task.meta, 'figures');
});

test('what failed is told by name and first line, from both kinds of reports', () => {
  const unit = {
    testResults: [
      {
        name: 'a.test.ts',
        status: 'failed',
        message: '',
        assertionResults: [
          {
            fullName: 'it adds',
            status: 'passed',
            failureMessages: [],
            meta: { figures: [found] },
          },
          {
            fullName: 'it takes',
            status: 'failed',
            failureMessages: ['\n\u001b[31mno\u001b[0m\nat'],
          },
        ],
      },
      { name: 'b.test.ts', status: 'failed', message: 'no such file', assertionResults: [] },
    ],
  };
  const told = testsOf(unit).filter(({ hasFailed }) => hasFailed);
  expect(told.map(({ name, why }) => `${name}: ${why}`)).toEqual([
    'it takes: no',
    'b.test.ts: no such file',
  ]);
  expect(testsOf(unit)[0]?.figures).toEqual([found]);

  const annotations = [{ type: 'figure', description: JSON.stringify(found) }];
  const spec = (title: string, status: string, message?: string) => ({
    title,
    tests: [{ status, annotations, results: [{ annotations, error: message && { message } }] }],
  });
  const built = {
    suites: [
      {
        specs: [spec('it opens', 'expected')],
        suites: [{ specs: [spec('it shuts', 'flaky', 'late\nat')] }],
      },
    ],
    errors: [{ message: 'no server' }],
  };
  expect(testsOf(built).map(({ name, hasFailed, why }) => [name, hasFailed, why])).toEqual([
    ['it opens', false, 'no message'],
    ['it shuts', true, 'late'],
    ['the run', true, 'no server'],
  ]);
  expect(testsOf(built)[0]?.figures).toEqual([found]);
});

test('a drill on the list that was not run, or not by all of its tests, is a miss', () => {
  const rows = rowsOf({ 'Power cut': 1, 'Killed while logging': 2 }, [found]);
  expect(tableOf(rows)).toEqual([
    '      Drill                 Required  Reached',
    'MISS  Power cut                       only 0 of 1 tests came to their end: nothing',
    'MISS  Killed while logging  0 lost    only 1 of 2 tests came to their end: 0 of 9',
  ]);
  const both = rowsOf({ 'Killed while logging': 2 }, [found, { ...found, reached: '0 of 7' }]);
  expect(both).toEqual([{ ...found, reached: '0 of 9; 0 of 7' }]);
  expect(rowsOf({}, [found])[0]?.drill).toBe('Killed while logging (not listed)');
});

test('a row that this machine does not let be measured is open, and equal words are told once', () => {
  const part = { ...found, reached: 'as it should' };
  const [row] = rowsOf({ [found.drill]: 3 }, [
    part,
    part,
    { ...part, isOpen: true, reached: 'not here' },
  ]);
  expect(row).toMatchObject({ isOpen: true, isMet: true, reached: '2 x as it should; not here' });
  expect(tableOf(row ? [row] : [])[1]).toMatch(/^open /);
});
