import { expect, test } from 'vitest';
import { scrapOf, scrapTogether } from '#calc/scrap.ts';
import { tableOf } from '#calc/table.ts';
import { aFrozenMould, Pen } from '../hands/log.ts';
import { expectNear } from '../hands/within.ts';

/** Soft fused plastisol weighs 1.05 g/mL: the density that the heat model takes from data sheets. */
test('three bad baits of 8 mL weigh 25.2 g', () => {
  const pen = new Pen().open([aFrozenMould(1, { partMl: 8 })]);
  pen.fill(1, 1);
  pen.log(1, ['short', 'dent', 'good', 'good']);
  pen.fill(1, 2);
  pen.log(2, ['good', 'good', 'closed', 'short']);
  const scrap = scrapOf(tableOf(pen.entries));
  expectNear(scrap.massG, 25.2, 1e-9);
  expect(scrap).toMatchObject({ bad: 3, isMeasured: true });
});

test('what was not checked, closed off or not logged is no scrap', () => {
  const pen = new Pen().open([aFrozenMould(1, { partMl: 8 })]);
  pen.fill(1, 1);
  pen.log(1, ['not-checked', 'not-checked', 'closed', 'good']);
  pen.fill(1, 2);
  expect(scrapOf(tableOf(pen.entries))).toEqual({ massG: 0, bad: 0, isMeasured: true });
});

test('a bait that was never measured is owned up to, also in a sum', () => {
  const known = new Pen().open([aFrozenMould(1, { partMl: 8 })]);
  const unknown = new Pen().open([aFrozenMould(1)]);
  for (const pen of [known, unknown]) {
    pen.fill(1, 1);
    pen.log(1, ['short', 'good', 'good', 'good']);
  }
  const [a, b] = [known, unknown].map((pen) => scrapOf(tableOf(pen.entries)));
  expect(b?.isMeasured).toBe(false);
  const both = scrapTogether([a, b].filter((scrap) => scrap !== undefined));
  expect(both).toMatchObject({ bad: 2, isMeasured: false });
});
