import { expect, test } from 'vitest';
import { badgeLitAt, cavityVerdicts } from '#calc/cavities.ts';
import { mouldResults } from '../hands/moulds.ts';
import { seeded } from '../hands/seeded.ts';

// Limits: 5% and two standard errors of 400 moulds; the method saw 0 to 5.3%.
test.each([
  [4, 10, 0.1],
  [8, 20, 0.2],
  [8, 40, 0.05],
  [20, 20, 0.2],
])(
  'in moulds of %d like cavities %d shots flag one in at most 5 of 100',
  (cavities, shots, bad) => {
    const chance = seeded(cavities * 1000 + shots);
    let flagged = 0;
    for (let run = 0; run < 400; run++) {
      const verdicts = cavityVerdicts(mouldResults(chance, { shots, cavities, bad, rho: 0.2 }));
      if (verdicts.kind !== 'judged') continue;
      if (verdicts.cavities.some(({ verdict }) => verdict === 'stands-out')) flagged += 1;
    }
    expect(flagged / 400).toBeLessThan(0.05 + 0.022);
  },
);

// Limits: 5% and two standard errors; an ordinary test read after each shot flagged 26 to 46%.
test.each([
  [4, 0.1],
  [8, 0.2],
])(
  'of %d like cavities a badge read after each of 200 shots lights in at most 5 of 100',
  (cavities, bad) => {
    const chance = seeded(cavities * 77);
    let lit = 0;
    for (let run = 0; run < 400; run++) {
      const matrix = mouldResults(chance, { shots: 200, cavities, bad, rho: 0.1 });
      if (badgeLitAt(matrix).some((shot) => shot !== null)) lit += 1;
    }
    expect(lit / 400).toBeLessThan(0.05 + 0.022);
  },
);

// Limits: the method's power at 40 shots, 0.98 and 0.88, less 4 points.
test.each([
  [0.05, 0.94],
  [0.2, 0.84],
])('from %d defects a cavity 30 points worse is found in 40 shots in at least %d', (bad, least) => {
  const chance = seeded(4040);
  let found = 0;
  for (let run = 0; run < 300; run++) {
    const matrix = mouldResults(chance, {
      shots: 40,
      cavities: 8,
      bad,
      rho: 0,
      firstBad: bad + 0.3,
    });
    const verdicts = cavityVerdicts(matrix);
    if (verdicts.kind === 'judged' && verdicts.cavities[0]?.verdict === 'stands-out') found += 1;
  }
  expect(found / 300).toBeGreaterThan(least);
});
