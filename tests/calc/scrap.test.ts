import { expect, test } from 'vitest';
import { columnsOf } from '#calc/columns.ts';
import { type Scrap, scrapOf, scrapTogether } from '#calc/scrap.ts';
import { checkOf, goodByScale, scrapSaid } from '#calc/scrap-check.ts';
import { tableOf } from '#calc/table.ts';
import { aFrozenMould, Pen, sessionId } from '../hands/log.ts';
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
  expect(scrapOf(tableOf(pen.entries))).toEqual({
    massG: 0,
    bad: 0,
    isMeasured: true,
    weighedG: null,
  });
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

/** Ten shots of four, one bad bait of 8 mL in each: 84 g by the density above. */
function aWeighedEvening(massG: number | null): Pen {
  const pen = new Pen().open([aFrozenMould(1, { partMl: 8 })]);
  for (let shot = 1; shot <= 10; shot += 1) {
    pen.fill(1, shot);
    pen.log(shot, ['short', 'good', 'good', 'good']);
  }
  if (massG !== null) pen.write({ kind: 'scrap-weighed', massG });
  return pen;
}

const scrapIn = (pen: Pen): Scrap => scrapOf(tableOf(pen.entries));

test('what the scale showed stands beside what was marked, the newest weighing counts', () => {
  const pen = aWeighedEvening(134.4);
  expectNear(scrapIn(pen).massG, 84, 1e-9);
  expect(scrapIn(pen).weighedG).toBe(134.4);
  // 50.4 g more than marked are six baits of 8.4 g.
  expect(checkOf(scrapIn(pen))).toEqual({ kind: 'more-thrown', baits: 6 });
  const second = pen.write({ kind: 'scrap-weighed', massG: 90 });
  expect(checkOf(scrapIn(pen))).toEqual({ kind: 'fits' });
  pen.write({ kind: 'taken-back', target: second.id });
  expect(scrapIn(pen).weighedG).toBe(134.4);
});

test('a weighing that is put right or taken back says so', () => {
  const pen = aWeighedEvening(134);
  const [target] = pen.entries.slice(-1).map(({ id }) => id);
  if (!target) throw new Error('Nothing was weighed.');
  const says = { kind: 'scrap-weighed', massG: 84 } as const;
  pen.write({ kind: 'put-right', target, says, happenedAt: 1_795_000_000_000 });
  expect(checkOf(scrapIn(pen))).toEqual({ kind: 'fits' });
  pen.write({ kind: 'taken-back', target });
  expect(scrapIn(pen).weighedG).toBeNull();
  expect(checkOf(scrapIn(pen))).toBeNull();
});

test('the digest keeps a weighing, and none where nobody weighed', () => {
  const digests = [null, 84, 134.4, 20].map((massG) =>
    columnsOf(sessionId, aWeighedEvening(massG).entries),
  );
  expect(digests.map(({ scrap }) => scrap?.weighedG)).toEqual([undefined, 84, 134.4, 20]);
  expect(scrapSaid(digests)).toEqual({
    sessions: 3,
    fit: 1,
    moreThrown: 1,
    baits: 6,
    moreMarked: 1,
  });
  // 30 of 40 were marked good; six of these went into the scrap.
  expect(digests.map((digest) => goodByScale(digest))).toEqual([
    null,
    null,
    { good: 24, counted: 30 },
    null,
  ]);
});

test('a day is weighed only where each session with bad ones was', () => {
  const [open, weighed] = [scrapIn(aWeighedEvening(null)), scrapIn(aWeighedEvening(90))];
  const clean: Scrap = { massG: 0, bad: 0, isMeasured: true, weighedG: null };
  expect(scrapTogether([weighed, weighed, clean]).weighedG).toBe(180);
  expect(scrapTogether([weighed, open]).weighedG).toBeNull();
  expect(scrapTogether([clean]).weighedG).toBeNull();
});

test('the scale tells nothing of a session without a bad bait or a measured one', () => {
  const clean: Scrap = { massG: 0, bad: 0, isMeasured: true, weighedG: 40 };
  expect(checkOf(clean)).toBeNull();
  expect(checkOf({ massG: 84, bad: 10, isMeasured: false, weighedG: 200 })).toBeNull();
});
