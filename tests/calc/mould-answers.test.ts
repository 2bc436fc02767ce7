import { describe, expect, test } from 'vitest';
import type { ColdLine } from '#calc/cold-line.ts';
import { coldLineOf, withLearntCold } from '#calc/cold-line.ts';
import { type Columns, coldFlag, columnsOf } from '#calc/columns.ts';
import { alarmLine, betterOdds, llrAverageRun, worseOdds } from '#calc/drift.ts';
import { learnWarmAbove } from '#calc/heat.ts';
import { driftRuns, mouldDrift } from '#calc/mould-drift.ts';
import { mouldPlan, planBasis } from '#calc/mould-plan.ts';
import { countIn, countsBySession, loggedShots, warmShots } from '#calc/mould-shots.ts';
import { shotDrivers } from '#calc/shot-drivers.ts';
import { addToGroups, type Grouping, groupYields, type ShotGroups } from '#calc/shot-groups.ts';
import { learntBelief, planShots } from '#calc/shots-needed.ts';
import { designEffect, together } from '#calc/yield.ts';
import type { Mould } from '#model/mould.ts';
import { madeShop } from '../../demo/made-shop.ts';
import { colourways, injectors } from '../../demo/shop.ts';
import { truths } from '../../demo/truths.ts';
import { shotsFrom } from '../hands/shots.ts';
import { expectWithin } from '../hands/within.ts';

/* The outside truth of the demo shop is what was planted in it: demo/truths.ts. */
const shop = madeShop();
const digests = shop.sessions.map(({ id, entries }) => columnsOf(id, entries));
const mouldCalled = (name: string) => {
  const mould = shop.moulds.find((each) => each.name === name);
  if (!mould) throw new Error(`There is no ${name}.`);
  return mould;
};
const start = Date.UTC(2026, 8, 1, 18);
const times = (count: number, ...gave: string[]) =>
  Array.from({ length: count }, (_, index) => gave[index % gave.length] ?? '');

describe('the learnt cold line', () => {
  test('of every aluminium mould is learnt near the planted 15 K, by two cold shots', () => {
    for (const { id, name, material } of shop.moulds) {
      const line = coldLineOf(digests, id);
      if (material !== 'aluminium') continue;
      expect(line, name).toMatchObject({ from: 'shots', said: { kind: 'needs', shots: 2 } });
      expectWithin(line.aboveK ?? 0, truths.cold.belowK, 3);
    }
  });

  test('is not left to the threshold of single shots, which swings with what is called clean', () => {
    const { id } = mouldCalled('Grub 50');
    const thresholdK = (leastGood: number) =>
      learnWarmAbove(
        loggedShots(digests, id).map(({ cells, aboveK }) => {
          const { seen, checked } = countIn(cells, 'good');
          return { aboveAmbientK: aboveK, clean: seen >= leastGood * checked };
        }),
      ).meanK;
    expect(thresholdK(1) - thresholdK(0.5)).toBeGreaterThan(20);
    expectWithin(coldLineOf(digests, id).aboveK ?? 0, truths.cold.belowK, 3);
  });

  test('of silicone is none: no shot of it is cold', () => {
    const line = coldLineOf(digests, mouldCalled('Toad 45').id);
    expect(line).toMatchObject({ aboveK: null, from: 'none-seen' });
  });

  test('is the usual one while there are under three warm-ups, and the flags stay as they were', () => {
    const few = digests.slice(0, 2);
    const [mould] = few[0]?.moulds ?? [];
    if (!mould) throw new Error('Nothing was poured.');
    expect(coldLineOf(few, mould.mouldId)).toMatchObject({ aboveK: 15, from: 'usual' });
    expect(withLearntCold(few).map(({ cold }) => cold)).toEqual(few.map(({ cold }) => cold));
  });

  test('flags a third shot that had fallen below it, whatever was frozen then', () => {
    const { id } = mouldCalled('Shad 7');
    const line = coldLineOf(digests, id).aboveK ?? 0;
    const none: Columns[] = digests.map((session) => ({
      ...session,
      cold: session.cold.map((flag) => Math.min(flag, 0)),
    }));
    const shots = loggedShots(withLearntCold(none), id);
    expect(shots.some(({ isCold }) => isCold)).toBe(true);
    for (const shot of shots) expect(shot.isCold).toBe(shot.aboveK < line);
    expect(digests.some(({ cold }) => cold.includes(coldFlag))).toBe(true);
  });
});

describe('yields side by side', () => {
  const yieldsBy = (by: Grouping, batch = digests.length) => {
    const groups: ShotGroups = new Map();
    for (let at = 0; at < digests.length; at += batch) {
      addToGroups(groups, digests.slice(at, at + batch), by);
    }
    return groupYields(groups, by, 0.9);
  };

  test('find the colour and the injector that were planted, and nothing among moulds and heats', () => {
    const differing = (by: Grouping) =>
      yieldsBy(by).flatMap(({ group, differs }) => (differs ? [`${group.key} ${differs}`] : []));
    const idOf = (list: readonly { id: string; name: string }[], name: string) =>
      list.find((each) => each.name === name)?.id;
    const { worse, better } = truths.injector;
    expect(differing('colour')).toEqual([
      `${idOf(shop.colourways, colourways[truths.early.colourway].name)} fewer`,
    ]);
    expect(differing('injector')).toEqual([
      `${idOf(shop.injectors, injectors[worse].name)} fewer`,
      `${idOf(shop.injectors, injectors[better].name)} more`,
    ]);
    expect([...differing('mould'), ...differing('heat')]).toEqual([]);
  });

  test('stand by the least to be expected, and a session is not held against the others', () => {
    for (const by of ['mould', 'colour', 'session', 'day'] as const) {
      const least = yieldsBy(by).flatMap(({ shares }) => (shares ? [shares[1]] : []));
      expect(least.toSorted((a, b) => a - b)).toEqual(least);
    }
    expect(yieldsBy('session').every(({ differs }) => differs === null)).toBe(true);
  });

  test('are the same read in one go or session by session, and lose no bait', () => {
    expect(yieldsBy('mould', 1)).toEqual(yieldsBy('mould'));
    const sum = (by: Grouping) =>
      yieldsBy(by).reduce((all, { checked, group }) => all + checked + group.cold.checked, 0);
    const all = together(countsBySession(loggedShots(digests), 'good')).n.reduce((a, b) => a + b);
    for (const by of ['mould', 'colour', 'injector', 'heat', 'session', 'day'] as const) {
      expect(sum(by)).toBe(all);
    }
  });
});

describe('how it runs lately', () => {
  test('the shot from which things went wrong is found', () => {
    const usual = times(100, 'gggggggg', 'gggsgggg', 'gggggggg', 'gggggggg', 'ggggdggg');
    const worse = times(25, 'gsggsggg', 'ggggsggg', 'gsggdgsg');
    const found = mouldDrift(shotsFrom(start, [...usual, ...worse]), 0, 'before');
    if (found.kind !== 'watched') throw new Error(found.kind);
    expect([found.baseShots, found.watched.length]).toEqual([85, 40]);
    expect(found.drift.kind).toBe('above');
    const since = found.drift.kind === 'above' ? found.baseShots + found.drift.sinceShot : 0;
    expectWithin(since, 100, 2);
  });

  describe('once a drift was seen', () => {
    const usual = times(100, 'gggggggg', 'gggsgggg', 'gggggggg', 'gggggggg', 'ggggdggg');
    const worse = ['gsggsggg', 'ggggsggg', 'gsggdgsg'];
    const watchOf = (shots: ReturnType<typeof shotsFrom>, doneAt: number, seenAt: number) => {
      const found = mouldDrift(shots, doneAt, 'before', seenAt);
      if (found.kind !== 'watched') throw new Error(found.kind);
      return found;
    };
    const shots = shotsFrom(start, [...usual, ...times(25, ...worse)]);
    const nowAt = (shots.at(-1)?.filledAt ?? 0) + 1;

    test('the sum begins anew, and so it does once something was done', () => {
      for (const [doneAt, seenAt] of [
        [0, nowAt],
        [nowAt, 0],
      ] as const) {
        const found = watchOf(shots, doneAt, seenAt);
        expect(found.passed).toBe(40);
        expect(found.drift).toEqual({ kind: 'as-usual', above: 0, below: 0 });
        // What is normal, and what is drawn, stays.
        expect(found.normal).toEqual(watchOf(shots, 0, 0).normal);
        expect(found.watched).toEqual(watchOf(shots, 0, 0).watched);
      }
    });

    test('shots that go on badly are found again, from where they do', () => {
      const longer = shotsFrom(start, [...usual, ...times(37, ...worse)]);
      const found = watchOf(longer, 0, nowAt);
      expect(found.drift.kind).toBe('above');
      if (found.drift.kind === 'above') {
        expect(longer[found.baseShots + found.drift.sinceShot]?.filledAt).toBeGreaterThan(nowAt);
        expect(found.drift.alarmAt).toBeGreaterThanOrEqual(found.drift.sinceShot);
        expect(found.drift.alarmAt).toBeLessThan(found.watched.length);
      }
    });

    test('shots that go on well stay as usual, though the old ones are still in the picture', () => {
      const better = shotsFrom(start, [...usual, ...times(25, ...worse), ...times(10, 'gggggggg')]);
      expect(watchOf(better, 0, 0).drift.kind).toBe('above');
      expect(watchOf(better, 0, nowAt).drift.kind).toBe('as-usual');
    });

    test('one bad shot among good ones is odd by itself and no drift', () => {
      const found = watchOf(
        shotsFrom(start, [...usual, 'ssssssgg', ...times(5, 'gggggggg')]),
        0,
        0,
      );
      expect(found.drift.kind).toBe('as-usual');
      expect(found.watched.filter(({ isRare }) => isRare)).toMatchObject([{ bad: 6, of: 8 }]);
    });
  });

  test('no mould of the demo shop is said to have drifted, and one has too few bad to tell', () => {
    const warm = withLearntCold(digests);
    const kinds = shop.moulds.map(({ id, name }) => {
      const done = shop.changes.flatMap(({ mouldId, at }) => (mouldId === id ? [at] : []));
      const found = mouldDrift(loggedShots(warm, id), Math.max(0, ...done), 'before');
      return `${name}: ${found.kind === 'watched' ? found.drift.kind : found.baseline.kind}`;
    });
    expect(kinds.filter((kind) => !kind.endsWith('as-usual'))).toEqual([
      'Bank craw 60: too-few-failures',
    ]);
  });

  test('its false alarms are those of two charts at once', () => {
    const normal = { p0: 0.1, rho: 0.1 };
    const one = (odds: number) => llrAverageRun(8, 0.1, 0.1, odds, 1.7, 0.1, alarmLine);
    const { falseAlarm, notice } = driftRuns(normal, 8);
    expectWithin(1 / falseAlarm, 1 / one(worseOdds) + 1 / one(betterOdds), 1e-9);
    // Method notes g: doubled odds at 8 cavities and 10 in 100 are noticed after 16 to 35 shots.
    expect(notice).toBeGreaterThan(16);
    expect(notice).toBeLessThan(35);
  });
});

describe('how many shots', () => {
  const planOf = (mould: Mould, of: typeof shots, by: ColdLine, good: number) => {
    const basis = planBasis(mould, of, by);
    return basis && mouldPlan(basis, good);
  };
  const grub = mouldCalled('Grub 50');
  const line = coldLineOf(digests, grub.id);
  const shots = loggedShots(withLearntCold(digests), grub.id);

  test('are those of the published plan with what this mould taught, cold ones first', () => {
    const found = planOf(grub, shots, line, 100);
    const warm = countsBySession(warmShots(shots), 'good');
    const cold = countsBySession(
      shots.filter(({ isCold }) => isCold),
      'good',
    );
    const { x, n } = together(warm);
    const [a, c] = [learntBelief(warm), learntBelief(cold)];
    const expected = planShots(100, 8, a.good, a.bad, designEffect(x, n)[0], 2, c.good, c.bad);
    expect(found).toMatchObject({ coldShots: 2, plan: { kind: 'plan', shots: expected } });
    expect(found?.volumeMl).toBeCloseTo(expected * (8 * 6.5 + 12), 9);
    if (found?.plan.kind === 'plan') expect(found.plan.meanShots).toBeLessThanOrEqual(expected);
  });

  test('without history are those of 8 good in 10, and closed cavities give none', () => {
    const usual = coldLineOf([], grub.id);
    const fresh = planOf(grub, [], usual, 50);
    expect(fresh).toMatchObject({
      checked: 0,
      coldShots: 0,
      plan: { shots: planShots(50, 8, 4, 1, 0.2) },
    });
    const half = planOf({ ...grub, closed: [1, 2, 3, 4] }, [], usual, 50);
    expect(half).toMatchObject({ plan: { shots: planShots(50, 4, 4, 1, 0.2) } });
    expect(planBasis({ ...grub, closed: [1, 2, 3, 4, 5, 6, 7, 8] }, [], usual)).toBeNull();
  });
});

describe('what a defect goes with', () => {
  const kinds = ({ said }: ReturnType<typeof shotDrivers>) =>
    said.kind === 'judged' ? said.factors.map(({ kind }) => kind) : said.kind;

  test('warm shorts of the shop go with the planted injector, dents with the time shut, no more', () => {
    const warm = warmShots(loggedShots(withLearntCold(digests)));
    const names = ['time-shut', 'heat', 'injector'] as const;
    const shorts = shotDrivers(warm, 'short', names);
    expect(kinds(shorts)).toEqual(['no-sign', 'no-sign', 'goes-with']);
    const green = shop.injectors.find(({ name }) => name === injectors[truths.injector.worse].name);
    expect(shorts.injectorId).toBe(green?.id);
    expect(kinds(shotDrivers(warm, 'dent', names))).toEqual(['goes-with', 'no-sign', 'no-sign']);
  });

  test('shorts of each aluminium mould go with a colder mould, of silicone with nothing', () => {
    for (const { id, material, name } of shop.moulds) {
      const found = shotDrivers(loggedShots(digests, id), 'short', ['mould-temperature', 'heat']);
      const expected = material === 'aluminium' ? 'goes-with' : 'no-sign';
      expect(kinds(found), name).toEqual([expected, 'no-sign']);
      const [first] = found.said.kind === 'judged' ? found.said.factors : [];
      if (material === 'aluminium' && first?.kind === 'goes-with') expect(first.hi).toBeLessThan(1);
    }
  });

  test('a single injector is not asked about', () => {
    const one = shotsFrom(start, times(40, 'gsgg', 'gggg'));
    expect(shotDrivers(one, 'short', ['injector', 'heat']).names).toEqual(['heat']);
  });
});
