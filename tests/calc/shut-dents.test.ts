import { expect, test } from 'vitest';
import type { LoggedShot } from '#calc/mould-shots.ts';
import { shutDents } from '#calc/shut-dents.ts';
import { yieldIntervalAcross } from '#calc/yield.ts';
import { usual } from '../../demo/truths.ts';
import { seeded } from '../hands/seeded.ts';
import { shotsFrom } from '../hands/shots.ts';

const start = Date.UTC(2026, 8, 1, 18);
const asked = ['mould-temperature', 'time-shut', 'heat', 'injector'] as const;

/** Shots that dent by their time, each time by hand. */
function opened(each: readonly (readonly [openSec: number, gave: string])[]): LoggedShot[] {
  const shots = shotsFrom(
    start,
    each.map(([, gave]) => gave),
  );
  return shots.map((shot, index) => ({ ...shot, openSec: each[index]?.[0] ?? 0 }));
}

const times = <T>(count: number, of: (index: number) => T) =>
  Array.from({ length: count }, (_, index) => of(index));

/** Shots of eight: every fifth is opened early and dents so often. */
function drawn(shots: number, earlyShare: number, lateShare: number, seed: number): LoggedShot[] {
  const chance = seeded(seed);
  return opened(
    times(shots, (index) => {
      const isEarly = index % 5 === 0;
      const share = isEarly ? earlyShare : lateShare;
      const gave = times(8, () => (chance() < share ? 'd' : 'g')).join('');
      return [(isEarly ? 100 : 175) + Math.floor(chance() * 20), gave] as const;
    }),
  );
}

test('each band has the shots and dents of its time, and every shot is in one', () => {
  const found = shutDents(
    opened([
      ...times(4, () => [95, 'dggg'] as const),
      ...times(6, () => [130, 'gggg'] as const),
      ...times(10, () => [184, 'gggg'] as const),
      [0, 'dddd'],
      [150, 'nnnn'],
    ]),
    asked,
    0.9,
  );
  if (found.kind !== 'bands') throw new Error(found.kind);
  expect(
    found.bands.map(({ fromSec, toSec, shots, dents, checked }) => [
      fromSec,
      toSec,
      shots,
      dents,
      checked,
    ]),
  ).toEqual([
    [null, 120, 4, 4, 16],
    [120, 150, 6, 0, 24],
    [150, 180, 0, 0, 0],
    [180, null, 10, 0, 40],
  ]);
  expect(found.shots).toBe(20);
  const [, second] = found.bands;
  const counts = { x: [0, 0, 0, 0], n: [4, 4, 4, 4] };
  expect(second?.shares).toEqual(yieldIntervalAcross([counts, { x: [0, 0], n: [4, 4] }], 0.9));
});

test.each([
  ['too few shots of a known time', times(7, () => [100, 'dggg'] as const), 'too-few-shots'],
  ['no dent at any time', times(40, (i) => [100 + 3 * i, 'gsgg'] as const), 'no-dents'],
  ['one time for all', times(40, () => [180, 'dggg'] as const), 'one-time'],
] as const)('%s is refused', (_, shots, kind) => {
  expect(shutDents(opened(shots), asked, 0.9).kind).toBe(kind);
  expect(shutDents([], asked, 0.9).kind).toBe('too-few-shots');
});

test('dents that were planted on early openings go with opening sooner', () => {
  const found = shutDents(drawn(200, 0.3, usual.dentShare, 7), asked, 0.9);
  if (found.kind !== 'bands') throw new Error(found.kind);
  expect(found.verdict?.kind).toBe('goes-with');
  // Odds a half minute longer: fewer dents.
  if (found.verdict?.kind === 'goes-with') expect(found.verdict.hi).toBeLessThan(1);
});

test('where dents do not go with the time, at most 9 of 100 histories say they do', () => {
  // A test at 5 % over one factor that can be judged: 5 expected, the bound lies two standard errors (2 x 2.2)
  // above that.
  const claims = times(100, (seed) => shutDents(drawn(80, 0.08, 0.08, 100 + seed), asked, 0.9));
  const made = claims.filter(
    (found) => found.kind === 'bands' && found.verdict?.kind === 'goes-with',
  );
  expect(made.length).toBeLessThanOrEqual(9);
});
