import { describe, expect, test } from 'vitest';
import { relativeStrength, verdictOf } from '#calc/balance.ts';
import type { Entry } from '#model/entry.ts';
import type { ColourwayId } from '#model/gear.ts';
import { freshId } from '#store/book.ts';
import { seven } from '../hands/evening.ts';
import { expectWithin } from '../hands/within.ts';

describe('the relative strength of two sides', () => {
  // Bradley and Terry 1952 (from memory): for two, the odds are wins to losses; an even pour is half
  // a win each, and the even pour that is believed before adds a half to both.
  test.each([
    [[], 1],
    [['even'], 1],
    [['a-won'], 1.5 / 0.5],
    [['b-won'], 0.5 / 1.5],
    [['a-won', 'b-won'], 1],
    [['a-won', 'a-won', 'even', 'b-won'], 3 / 2],
    [['a-won', 'a-won', 'a-won'], 3.5 / 0.5],
  ] as const)('%j', (verdicts, strength) => {
    expectWithin(relativeStrength(verdicts), strength, 1e-12);
  });
});

describe('the word of a session', () => {
  const colourwayId = freshId<ColourwayId>(seven);
  const say = (said: Entry['said'], at: number) =>
    ({
      id: freshId(seven),
      sessionId: colourwayId,
      at,
      writtenAt: at,
      stamp: `${at.toString(16).padStart(12, '0')}-0000-00000000`,
      device: '00000000',
      said,
    }) as unknown as Entry;
  const judge = (verdict: 'even' | 'a-won' | 'b-won', at: number) =>
    say({ kind: 'laminate-judged', colourwayId, verdict }, at);

  test('is the last that stands', () => {
    const first = judge('a-won', seven);
    const second = judge('even', seven + 1);
    expect(verdictOf([], colourwayId)).toBeNull();
    expect(verdictOf([first], colourwayId)?.verdict).toBe('a-won');
    expect(verdictOf([second, first], colourwayId)?.verdict).toBe('even');
    const taken = say({ kind: 'taken-back', target: second.id }, seven + 2);
    expect(verdictOf([first, second, taken], colourwayId)?.verdict).toBe('a-won');
    expect(verdictOf([first], freshId<ColourwayId>(seven + 9))).toBeNull();
  });
});
