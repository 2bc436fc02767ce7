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

test('a drill on the list that was not run is a miss', () => {
  const rows = rowsOf(['Power cut', 'Killed while logging'], [found]);
  expect(rows.map(({ drill, isMet }) => [drill, isMet])).toEqual([
    ['Power cut', false],
    ['Killed while logging', true],
  ]);
  expect(tableOf(rows)).toEqual([
    '      Drill                 Required  Reached',
    'MISS  Power cut                       was not run',
    'met   Killed while logging  0 lost    0 of 9',
  ]);
});
