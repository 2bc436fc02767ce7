import { expect, test } from 'vitest';
import { cavityVerdicts } from '#calc/cavities.ts';
import { changeAnswer, mendedSince } from '#calc/mould-changes.ts';
import { cavityMatrix } from '#calc/mould-shots.ts';
import { aChange, shotsFrom } from '../hands/shots.ts';

const day = 86_400_000;
const start = Date.UTC(2026, 10, 1, 18);
const times = (count: number, ...gave: string[]) =>
  Array.from({ length: count }, (_, index) => gave[index % gave.length] ?? '');
/** Cavity 2 shorts in half of the shots; then never. Cavity 1 now and then, all along. */
const poor = shotsFrom(start, times(40, 'gsgg', 'gggg', 'gsgg', 'sggg'));
const fine = shotsFrom(start + 7 * day, times(40, 'gggg', 'gggg', 'sggg'));
const vent = aChange(start + 6 * day);

test('a vent that was opened helped its cavity, told from the counts before and after', () => {
  const { verdicts, outcome } = changeAnswer(vent, [vent], [...poor, ...fine]);
  expect(outcome).toBe('short');
  expect(verdicts).toMatchObject([
    {
      cavity: 2,
      verdict: { kind: 'helped', before: { bad: 20, total: 40 }, after: { bad: 0, total: 40 } },
    },
  ]);
});

test('one logged the other way round made it worse, and with four shots since nothing is said', () => {
  const swapped = [
    ...shotsFrom(start, times(40, 'gggg')),
    ...shotsFrom(start + 7 * day, times(40, 'gsgg', 'gggg')),
  ];
  expect(changeAnswer(vent, [vent], swapped).verdicts[0]?.verdict.kind).toBe('made-worse');
  expect(changeAnswer(vent, [vent], [...poor, ...fine.slice(0, 4)]).verdicts[0]?.verdict).toEqual({
    kind: 'too-few',
    shotsBefore: 40,
    shotsAfter: 4,
    needed: 5,
  });
});

test('cold shots are no part of it, before or after', () => {
  const cold = shotsFrom(start + 8 * day, times(30, 'gsgg')).map((shot) => ({
    ...shot,
    isCold: true,
  }));
  const [answer] = changeAnswer(vent, [vent], [...poor, ...fine, ...cold]).verdicts;
  expect(answer?.verdict).toMatchObject({ kind: 'helped', after: { bad: 0, total: 40 } });
});

test('what else was done to the whole mould in that time is named; single other cavities are left out', () => {
  const cleaned = aChange(start + 3 * day, { kind: 'mould-cleaned', cavities: [] });
  const other = aChange(start + 6 * day, { cavities: [4] });
  const long = aChange(start - 9 * day, { kind: 'mould-cleaned', cavities: [] });
  const shots = [...poor, ...fine];
  const answer = changeAnswer(vent, [vent, cleaned, other, long], shots);
  expect(answer.alsoDone).toEqual([cleaned]);
  const [one] = answer.verdicts;
  if (!one || one.verdict.kind === 'too-few') throw new Error('too few');
  // Cavities 1 and 3 alone are compared with: 40 shots of 2 on either side.
  expect(one.verdict.others?.before.total).toBe(80);
});

test('what was done to the same place twice is told apart: each time up to the next', () => {
  const again = aChange(start + 14 * day);
  const later = shotsFrom(start + 15 * day, times(20, 'gggg'));
  const [first] = changeAnswer(vent, [vent, again], [...poor, ...fine, ...later]).verdicts;
  const [second] = changeAnswer(again, [vent, again], [...poor, ...fine, ...later]).verdicts;
  expect(first?.verdict).toMatchObject({ after: { total: 40 } });
  expect(second?.verdict).toMatchObject({ before: { total: 40 }, after: { total: 20 } });
});

test('a change of the whole mould is asked of all its cavities, and several at once more strictly', () => {
  const whole = aChange(start + 6 * day, { kind: 'mould-cleaned', cavities: [], defect: null });
  const answer = changeAnswer(whole, [whole], [...poor, ...fine]);
  expect(answer.outcome).toBe('bad');
  expect(answer.verdicts).toMatchObject([{ cavity: null, verdict: { before: { total: 160 } } }]);
  const widthOf = (cavities: number[]) => {
    const change = aChange(start + 6 * day, { cavities });
    const own = changeAnswer(change, [change], [...poor, ...fine]).verdicts.find(
      ({ cavity }) => cavity === 2,
    );
    if (!own || own.verdict.kind === 'too-few') throw new Error('too few');
    return own.verdict.change[2] - own.verdict.change[1];
  };
  expect(widthOf([2, 3])).toBeGreaterThan(widthOf([2]));
});

test('a mended cavity is judged by its shots since, the others by all', () => {
  const shots = [...poor, ...fine];
  const flagged = (since: ReadonlyMap<number, number>) => {
    const said = cavityVerdicts(cavityMatrix(shots, 'bad', since));
    if (said.kind !== 'judged') throw new Error(said.kind);
    return said.cavities.flatMap(({ verdict }, at) => (verdict === 'stands-out' ? [at + 1] : []));
  };
  expect(flagged(new Map())).toContain(2);
  const since = mendedSince([vent, aChange(start - day), aChange(start, { kind: 'injector' })]);
  expect([...since]).toEqual([[2, vent.at]]);
  expect(flagged(since)).not.toContain(2);
  const [first] = cavityMatrix(shots, 'bad', since);
  expect(first).toEqual([0, null, 0, 0]);
});
