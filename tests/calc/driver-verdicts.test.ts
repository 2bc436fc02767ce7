import { expect, test } from 'vitest';
import type { DriverLog, Factor } from '#calc/driver-refusals.ts';
import { drivers } from '#calc/driver-verdicts.ts';
import { normal, seeded, shotChance, successes } from '../hands/seeded.ts';

interface Course {
  sessions: number;
  shotsEach: number;
  slope?: number;
  sessionScatter?: number;
}

/** Sessions of eight-cavity shots; a temperature varies within them, an injector between them. */
function log(
  seed: number,
  { sessions, shotsEach, slope = 0, sessionScatter = 0 }: Course,
): DriverLog {
  const chance = seeded(seed);
  const count = sessions * shotsEach;
  const session = Array.from({ length: count }, (_, s) => Math.floor(s / shotsEach));
  const mouldC = session.map(() => 55 + 30 * chance());
  const scatter = Array.from({ length: sessions }, () => sessionScatter * normal(chance));
  const x = session.map((of, s) => {
    const odds = 0.15 * Math.exp(slope * ((mouldC[s] ?? 0) - 70) + (scatter[of] ?? 0));
    return successes(chance, 8, shotChance(chance, odds / (1 + odds), 0.1));
  });
  const factors: Factor[] = [
    { values: mouldC, isPerSession: false, step: 10 },
    { values: session.map((of) => of % 2), isPerSession: true, step: 1 },
  ];
  return { x, n: session.map(() => 8), session, factors };
}

function judgedFactors(of: DriverLog) {
  const found = drivers(of);
  if (found.kind !== 'judged') throw new Error(`not judged but ${found.kind}`);
  return found;
}

test('a colder mould that doubles the odds per 10 degrees is found, the injector is not', () => {
  const found = judgedFactors(log(5, { sessions: 12, shotsEach: 15, slope: -Math.LN2 / 10 }));
  const [temperature, injector] = found.factors;
  expect(temperature?.kind).toBe('goes-with');
  if (temperature?.kind !== 'goes-with') return;
  // The odds ratio is told per step: halved per 10 degrees warmer.
  expect(temperature.lo).toBeLessThan(0.5);
  expect(temperature.hi).toBeGreaterThan(0.5);
  expect(temperature.hi).toBeLessThan(1);
  expect(injector?.kind).toBe('no-sign');
  expect(found).toMatchObject({ shots: 180, leftOut: 0, sessions: 12, isOneAtATime: false });
});

test('under thirty shots, and with nothing or everything bad, nothing is judged', () => {
  const few = log(6, { sessions: 2, shotsEach: 14 });
  expect(drivers(few)).toEqual({ kind: 'too-few-shots', shots: 28, needed: 30 });
  const many = log(6, { sessions: 10, shotsEach: 10 });
  expect(drivers({ ...many, x: many.x.map(() => 0) })).toEqual({ kind: 'nothing-to-explain' });
  expect(drivers({ ...many, x: many.n })).toEqual({ kind: 'nothing-to-explain' });
  expect(drivers({ x: [], n: [], session: [], factors: [] })).toMatchObject({ shots: 0 });
});

test('a factor per session needs eight sessions with three on either side', () => {
  const seven = judgedFactors(log(7, { sessions: 7, shotsEach: 20 }));
  expect(seven.factors[1]).toEqual({ kind: 'too-few-sessions', sessions: 7, needed: 8 });
  const ten = log(7, { sessions: 10, shotsEach: 20 });
  const rare = {
    ...ten,
    factors: [
      { values: ten.session.map((of) => (Number(of) < 2 ? 1 : 0)), isPerSession: true, step: 1 },
    ],
  };
  expect(judgedFactors(rare).factors[0]?.kind).toBe('too-few-sessions');
});

test('a factor that hardly varies is refused, and too few failures are', () => {
  const many = log(8, { sessions: 10, shotsEach: 20 });
  const always = { values: many.n.map(() => 3), isPerSession: false, step: 1 };
  const hardly = { values: many.n.map((_, s) => (s < 4 ? 1 : 0)), isPerSession: false, step: 1 };
  const found = judgedFactors({ ...many, factors: [always, hardly, ...many.factors] });
  expect(found.factors[0]).toEqual({ kind: 'too-few-values' });
  expect(found.factors[1]).toEqual({ kind: 'too-few-values' });
  const fine = judgedFactors({ ...many, x: many.x.map((_, s) => (s % 40 === 0 ? 1 : 0)) });
  expect(fine.factors[0]).toMatchObject({ kind: 'too-few-failures', needed: 10 });
});

test('factors that moved together are both refused and name each other', () => {
  const many = log(9, { sessions: 10, shotsEach: 20 });
  const [temperature] = many.factors;
  const pot = {
    values: (temperature?.values ?? []).map((c) => (c ?? 0) * 2),
    isPerSession: false,
    step: 10,
  };
  const found = judgedFactors({ ...many, factors: [...many.factors, pot] });
  expect(found.factors[0]).toEqual({ kind: 'tangled', with: [2] });
  expect(found.factors[2]).toEqual({ kind: 'tangled', with: [0] });
  expect(['goes-with', 'no-sign']).toContain(found.factors[1]?.kind);
});

test('three factors of which each two are free but the third is their sum are taken one at a time', () => {
  const many = log(10, { sessions: 10, shotsEach: 30 });
  const chance = seeded(3);
  const a = many.n.map(() => normal(chance));
  const b = many.n.map(() => normal(chance));
  const c = a.map((value, s) => value + (b[s] ?? 0));
  const factors = [a, b, c].map((values) => ({ values, isPerSession: false, step: 1 }));
  expect(judgedFactors({ ...many, factors }).isOneAtATime).toBe(true);
});

test('with failures for one factor only, two are taken one at a time', () => {
  const many = log(11, { sessions: 10, shotsEach: 20 });
  const x = many.x.map((_, s) => (s % 12 === 0 ? 1 : 0));
  const [temperature] = many.factors;
  const chance = seeded(12);
  const speed = { values: many.n.map(() => chance()), isPerSession: false, step: 1 };
  const found = judgedFactors({ ...many, x, factors: temperature ? [temperature, speed] : [] });
  expect(found.isOneAtATime).toBe(true);
  expect(found.factors.map(({ kind }) => kind)).toEqual(['no-sign', 'no-sign']);
});

test('shots in which a factor was not noted are left out and counted', () => {
  const many = log(13, { sessions: 10, shotsEach: 20 });
  const [temperature] = many.factors;
  const values = (temperature?.values ?? []).map((c, s) => (s % 10 === 0 ? null : c));
  const found = judgedFactors({ ...many, factors: [{ values, isPerSession: false, step: 10 }] });
  expect(found).toMatchObject({ shots: 180, leftOut: 20 });
});

test.each([
  ['a list of sessions too short', (of: DriverLog) => ({ ...of, session: [] })],
  [
    'a factor too short',
    (of: DriverLog) => ({ ...of, factors: [{ values: [1], isPerSession: false, step: 1 }] }),
  ],
  [
    'a step of 0',
    (of: DriverLog) => ({ ...of, factors: of.factors.map((f) => ({ ...f, step: 0 })) }),
  ],
  [
    'a value that is none',
    (of: DriverLog) => ({
      ...of,
      factors: of.factors.map((f) => ({ ...f, values: f.values.map(() => Number.NaN) })),
    }),
  ],
  ['more failures than cavities', (of: DriverLog) => ({ ...of, x: of.n.map((n) => n + 1) })],
])('%s is refused with a RangeError', (_, spoilt) => {
  expect(() => drivers(spoilt(log(1, { sessions: 4, shotsEach: 10 })))).toThrow(RangeError);
});

// Limit: 5% and two standard errors; with sessions that differ, no correction called 24 to 43%.
test('an injector that does nothing is rarely called a driver though sessions differ', {
  timeout: 30_000,
}, () => {
  let called = 0;
  let judgedRuns = 0;
  for (let run = 0; run < 250; run++) {
    const found = drivers(log(1000 + run, { sessions: 10, shotsEach: 12, sessionScatter: 0.5 }));
    if (found.kind !== 'judged') continue;
    judgedRuns += 1;
    if (found.factors[1]?.kind === 'goes-with') called += 1;
  }
  expect(judgedRuns).toBeGreaterThan(200);
  expect(called / judgedRuns).toBeLessThan(0.05 + 0.028);
});
