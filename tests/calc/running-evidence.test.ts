import { expect, test } from 'vitest';
import { badgeLine, cavityEvidence, evidenceFrom, evidenceLogs } from '#calc/cavities.ts';
import type { CavityResults } from '#calc/cavity-results.ts';
import { litCavity, pastEvidence, watchedDefects } from '#calc/running-evidence.ts';
import type { Seat } from '#calc/table.ts';
import { results } from '../hands/evening.ts';
import { aFrozenMould } from '../hands/log.ts';
import { seeded } from '../hands/seeded.ts';
import { aChange, shotsFrom } from '../hands/shots.ts';

const start = Date.UTC(2026, 8, 1, 18);
const nothing = pastEvidence([], []);
const times = (count: number, ...gave: string[]) =>
  Array.from({ length: count }, (_, index) => gave[index % gave.length] ?? '');

/** A seat with the shots of this evening, five minutes apart. */
function seat(gave: readonly string[], closed: number[] = [], at = start + 86_400_000): Seat {
  const shots = gave.map((one, index) => ({
    filledAt: at + index * 300_000,
    loggedAt: at + index * 300_000 + 200_000,
    results: results(one),
  }));
  return {
    mould: aFrozenMould(1, { closed }),
    isSkipped: false,
    readings: [],
    shots,
  } as unknown as Seat;
}

/*
 * M1 of the method notes (A1, row V39): 12 shots of 8 cavities, cavity 7 bad; evidence 1029.6446
 * after the last one. Carried on after any shot it must come to the same.
 */
const M1: CavityResults = [
  [0, 0, 0, 0, 0, 0, 1, 0],
  [0, 0, 0, 0, 0, 0, 0, 0],
  [0, 1, 0, 0, 0, 0, 1, 0],
  [0, 0, 0, 0, 0, 0, 1, 0],
  [0, 0, 0, 1, 0, 0, 0, 0],
  [0, 0, 0, 0, 0, 0, 1, 0],
  [1, 0, 0, 0, 0, 0, 1, 1],
  [0, 0, 0, 0, 0, 0, 0, 0],
  [0, 0, 0, 0, 0, 0, 1, 0],
  [0, 0, 1, 0, 0, 0, 0, 0],
  [0, 0, 0, 0, 0, 0, 1, 0],
  [1, 1, 1, 1, 1, 1, 1, 1],
];

test('evidence carried over from evening to evening is that of all shots in one row', () => {
  expect(cavityEvidence(M1)[6]).toBeCloseTo(1029.6446, 3);
  for (let cut = 0; cut <= M1.length; cut += 1) {
    const before = evidenceLogs(M1.slice(0, cut));
    const after = evidenceFrom(evidenceLogs(M1.slice(cut), before));
    expect(after[6]).toBeCloseTo(1029.6446, 3);
  }
});

test('the line is lit by M1 for one defect and for three watched ones, and by the 7th cavity alone', () => {
  const letters = M1.map((shot) => shot.map((bad) => (bad === 1 ? 's' : 'g')).join(''));
  // Only while it was bad again: the last shot was bad all over.
  expect(litCavity(seat(letters), nothing)).toEqual({ cavity: 7, defect: 'short' });
  expect(badgeLine(8, watchedDefects.length)).toBe(480);
  expect(litCavity(seat(letters.slice(0, 10)), nothing)).toBeNull();
});

test('a cavity that is closed, or was good in the last shot, is left in peace', () => {
  const bad = times(16, 'gsggggss'.replace(/ss$/, 'gg'));
  expect(litCavity(seat(bad), nothing)).toEqual({ cavity: 2, defect: 'short' });
  expect(litCavity(seat([...bad, 'gggggggg']), nothing)).toBeNull();
  expect(litCavity(seat(bad, [2]), nothing)).toBeNull();
});

test('what earlier evenings showed counts tonight, until the cavity was mended', () => {
  const past = shotsFrom(start, times(16, 'gsgggggg'));
  expect(litCavity(seat(['gsgggggg']), pastEvidence(past, []))).toEqual({
    cavity: 2,
    defect: 'short',
  });
  const mended = aChange(start + 80_000_000);
  expect(litCavity(seat(['gsgggggg']), pastEvidence(past, [mended]))).toBeNull();
});

test('nobody looked, or all cavities alike: nothing is lit', () => {
  expect(litCavity(seat([]), nothing)).toBeNull();
  expect(litCavity(seat(times(30, 'nnnnnnnn')), nothing)).toBeNull();
  expect(litCavity(seat(times(30, 'ssssssss')), nothing)).toBeNull();
});

// Limit: 5 in 100 over all defects watched, looked at after every shot (Ville 1939), two standard errors of 300 runs.
test('in 120 shots of equal cavities, read after each, at most 5 of 100 evenings light a line', () => {
  const chance = seeded(4_711);
  let lit = 0;
  for (let run = 0; run < 300; run += 1) {
    const gave = times(120, '').map(() =>
      times(8, '')
        .map(() => {
          const draw = chance();
          return draw < 0.08 ? 's' : draw < 0.12 ? 'd' : draw < 0.15 ? 'b' : 'g';
        })
        .join(''),
    );
    const line = badgeLine(8, watchedDefects.length);
    const isLit = watchedDefects.some((defect) => {
      let logs = evidenceLogs([]);
      return gave.some((one) => {
        const row = results(one).map((result) => (result === defect ? 1 : 0) as 0 | 1);
        logs = evidenceLogs([row], logs);
        return evidenceFrom(logs).some((value) => value >= line);
      });
    });
    if (isLit) lit += 1;
  }
  expect(lit / 300).toBeLessThan(0.05 + 0.025);
});
