import { expect, test } from 'vitest';
import { scrapCheck } from '#calc/scrap-check.ts';
import { twoSessions } from '#calc/two-sessions.ts';
import { madeShop } from '../../demo/made-shop.ts';

const { sessions } = madeShop();

test('a session beside itself differs in nothing', () => {
  const [own] = sessions;
  if (!own) throw new Error('There is no session.');
  const { a, b, verdict } = twoSessions(own, own);
  expect(a).toEqual(b);
  expect(['unclear', 'no-real-difference']).toContain(verdict.kind);
});

test('two sessions swapped give the mirrored answer', () => {
  const [first, , , second] = sessions;
  if (!first || !second) throw new Error('There are too few sessions.');
  const [there, back] = [twoSessions(first, second), twoSessions(second, first)];
  expect(there.a).toEqual(back.b);
  if (there.verdict.kind === 'too-few' || back.verdict.kind === 'too-few') {
    throw new Error('too few');
  }
  expect(there.verdict.change[0]).toBeCloseTo(-back.verdict.change[0], 12);
});

/** By hand: 20 baits of 6 g are 120 g; a fifth of that either way is within what scales and moulds do. */
test.each([
  [120, { kind: 'fits' }],
  [143, { kind: 'fits' }],
  [180, { kind: 'more-thrown', baits: 10 }],
  [60, { kind: 'more-marked', baits: 10 }],
])('20 baits of 6 g marked and %d g weighed', (weighedG, expected) => {
  expect(scrapCheck({ massG: 120, isMeasured: true }, weighedG, 6)).toEqual(expected);
});

test('a guessed bait weight proves nothing', () => {
  expect(scrapCheck({ massG: 120, isMeasured: false }, 300, 6)).toBeNull();
});
