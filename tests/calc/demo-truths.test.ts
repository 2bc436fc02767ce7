import { readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { deltaE2000 } from '#calc/colour.ts';
import { columnsOf } from '#calc/columns.ts';
import { enoughRuns, heatFor, learntLoss } from '#calc/loss.ts';
import { buyReason } from '#calc/pours-left.ts';
import { type ColourShop, paperBacking, plainForecast, sideOfPart } from '#calc/shop-colours.ts';
import { guessOfSide, type Taught, taughtFor } from '#calc/shop-forecast.ts';
import { type StockLine, stockOf } from '#calc/stock-level.ts';
import { tableOf } from '#calc/table.ts';
import { unpackedUses } from '#calc/used.ts';
import { DemoShop } from '#model/demo-shop.ts';
import { guessWords } from '#screens/forecast-words.ts';
import {
  changedByVent,
  coldByMould,
  colourDifferences,
  dentingEarly,
  injectorDifferences,
  shortDrivers,
  standingOut,
} from '../../demo/claims.ts';
import { shotsOf, ventSession } from '../../demo/figures.ts';
import { demoText, madeShop } from '../../demo/made-shop.ts';
import { materials } from '../../demo/materials.ts';
import { baitMm, trueLab } from '../../demo/readings.ts';
import { withTruths } from '../../demo/readme.ts';
import { truths } from '../../demo/truths.ts';
import { expectWithin } from '../hands/within.ts';

/*
 * The outside truth of these tests is what was planted: demo/truths.ts says it, and nothing under
 * src knows of it.
 */
const shop = madeShop();
const shots = shotsOf(shop);
const day = (at: number) => Math.floor(at / 86_400_000);

test('of 52 cavities just the choked one stands out, and only while it was choked', () => {
  expect(shots.filter(({ isBefore }) => isBefore).length).toBeGreaterThan(400);
  expect(standingOut(shots)).toEqual(['Grub 50 6 short all', 'Grub 50 6 short before']);
});

test('the vent was opened in week 9 and helped its cavity, no other', () => {
  const opened = shop.sessions[ventSession(shop)]?.startedAt ?? 0;
  expect(1 + Math.floor((day(opened) - day(shop.sessions[0]?.startedAt ?? 0)) / 7)).toBe(9);
  expect(changedByVent(shots)).toEqual(['Grub 50 6 helped']);
});

test('the opened vent is in the log of changes as the person would put it there', () => {
  const grub = shop.moulds.find(({ name }) => name === 'Grub 50');
  expect(shop.changes).toMatchObject([
    { mouldId: grub?.id, kind: 'vent-opened', cavities: [6], wasPickedAsWorst: true },
  ]);
  expect(shop.changes[0]?.at).toBe(shop.sessions[ventSession(shop)]?.startedAt);
});

test('aluminium needs two cold shots, about 55 of 100 good against 93, and silicone none', () => {
  const { 'Toad 45': silicone, ...aluminium } = Object.fromEntries(coldByMould(shop));
  expect(['none-seen', 'unclear']).toContain(silicone?.kind);
  expect(Object.keys(aluminium)).toHaveLength(6);
  const [cold, warm] = [
    { good: 0, total: 0 },
    { good: 0, total: 0 },
  ];
  for (const [mould, said] of Object.entries(aluminium)) {
    expect(said, mould).toMatchObject({ kind: 'needs', shots: 2 });
    if (said.kind !== 'needs') continue;
    for (const [sum, own] of [[cold, said.cold] as const, [warm, said.warm] as const]) {
      sum.good += own.good;
      sum.total += own.total;
    }
  }
  expectWithin(cold.good / cold.total, 0.55, 0.05);
  expectWithin(warm.good / warm.total, 0.93, 0.02);
});

test('one colour dents when it was opened early; shut long enough it is like the others', () => {
  expect(dentingEarly(shots)).toEqual(['Dusk']);
  expect(colourDifferences(shots)).toEqual([]);
});

test('one injector gives more shorts and no more of anything else', () => {
  expect(injectorDifferences(shots)).toEqual(['short more']);
});

test('warm shorts go with the injector, and nothing is said of the heat of the pot', () => {
  const said = shortDrivers(shots);
  expect(said.kind === 'judged' ? said.factors.map(({ kind }) => kind) : said.kind).toEqual([
    'goes-with',
    'no-sign',
  ]);
});

describe('one colourant is stronger than its card says', () => {
  const photos = shop.pictures.map(({ photo }) => photo);
  const read: ColourShop = { materials: shop.materials, mixes: shop.mixes, photos };
  const unread: ColourShop = { ...read, photos: [] };
  const plastisolId = materials.plastisol.id;
  const [taught, untaught] = [taughtFor(read, plastisolId), taughtFor(unread, plastisolId)];
  const { key, times } = truths.colourant;
  const body = { thicknessMm: baitMm, backing: paperBacking };
  const newestOf = (name: string) => {
    const colour = shop.colourways.find((one) => one.name === name);
    const mix = shop.mixes.findLast(({ colourwayId }) => colourwayId === colour?.id);
    const [side] = mix?.sides ?? [];
    if (!mix || !side) throw new Error(`${name} has no mix.`);
    return { mix, side, body };
  };
  const wordsOf = (colours: ColourShop, of: Taught, name: string) =>
    guessWords(guessOfSide(colours, of, newestOf(name)), (id) => id);

  test('the photos find it to 15 in 100, and say of no other that it is off by more than 10', () => {
    const { [materials[key].id]: found, ...others } = Object.fromEntries(taught.strengths);
    expectWithin(found ?? 0, times, 0.15 * times);
    expect(Object.keys(others)).toHaveLength(8);
    for (const [id, strength] of Object.entries(others)) {
      expect(Math.abs(strength - 1), id).toBeLessThan(0.1);
    }
    expect([...untaught.strengths.values()]).toEqual([]);
  });

  test('what is forecast of a mix with it comes to what is truly there', () => {
    for (const [name, offBefore] of [
      ['Cider', 5],
      ['Moss', 2.5],
      ['Barley', 2.5],
    ] as const) {
      const { mix, side } = newestOf(name);
      const truth = trueLab(read, mix, side);
      const missOf = (colours: ColourShop, of: Taught) => {
        const guess = guessOfSide(colours, of, { mix, side, body });
        return guess.kind === 'guess' ? deltaE2000(guess.lab, truth) : Number.NaN;
      };
      expect(missOf(unread, untaught), name).toBeGreaterThan(offBefore);
      expect(missOf(read, taught), name).toBeLessThan(1);
    }
  });

  test('the sentence says from how many photos, and that it is near now', () => {
    expect(wordsOf(unread, untaught, 'Cider')).toBe(
      'Guess. Usually off by a clearly visible step.',
    );
    expect(wordsOf(read, taught, 'Cider')).toBe('Guess from 4 photos of yours. Usually near.');
  });

  test('beside each reading stands what was forecast of it before it was read', () => {
    for (const [at, photo] of photos.entries()) {
      const before = { ...read, photos: photos.slice(0, at) };
      const mix = shop.mixes.find(({ id }) => id === photo.mixId);
      expect(photo.readings).toHaveLength(mix?.sides.length ?? 0);
      for (const { part, forecast } of photo.readings) {
        const side = mix && sideOfPart(mix, part);
        if (!mix || !side || !forecast) throw new Error('A picture without its forecast.');
        const { strengths } = taughtFor(before, plastisolId);
        const then = plainForecast(before, mix, side, body, strengths);
        expect(deltaE2000(then ?? [0, 0, 0], forecast)).toBeLessThan(0.05);
      }
    }
  });
});

test('what the pots lost is found from what was left in them, mould by mould and with its doubt', () => {
  const { potMl, share } = truths.loss;
  const runs = shop.sessions.flatMap(({ id, entries }) => columnsOf(id, entries).runs ?? []);
  expect(runs.length).toBeGreaterThan(8);
  const learnt = learntLoss(runs);
  for (const mouldId of learnt.runsOf.keys()) {
    if ((learnt.runsOf.get(mouldId) ?? 0) < enoughRuns) continue;
    const pours = [{ mouldId, shouldMl: 400 }];
    const { heatMl, lowMl, highMl, isGuess } = heatFor(learnt, pours);
    const truly = potMl + 400 * (1 + share);
    expect(isGuess).toBe(false);
    expect(lowMl).toBeLessThan(truly);
    expect(highMl).toBeGreaterThan(truly);
    // Nearer to the truth than what is believed before the first pot, and never off by a twentieth.
    expectWithin(heatMl, truly, 0.05 * truly);
  }
});

test('the same seed gives the same bytes, and another seed another shop', () => {
  expect(demoText()).toBe(JSON.stringify(shop));
  expect(demoText(3)).not.toBe(demoText());
});

test('the file that is served and the README are what the script makes now', () => {
  const served = readFileSync(new URL('../../public/demo-shop.bin', import.meta.url));
  expect(gunzipSync(served).toString() === demoText(), 'run node demo/generate.mjs').toBe(true);
  expect(served.length).toBeLessThan(120_000);
  const readme = readFileSync(new URL('../../demo/README.md', import.meta.url), 'utf8');
  expect(withTruths(readme)).toBe(readme);
});

test('every record may exist, and no id is used for two things', () => {
  expect(DemoShop.parse(JSON.parse(demoText()))).toEqual(shop);
  const heads = [
    ...shop.moulds,
    ...shop.injectors,
    ...shop.colourways,
    ...shop.mixes,
    ...shop.changes,
    ...shop.materials,
  ];
  const entries = shop.sessions.flatMap((session) => session.entries);
  const ids = [...heads, ...shop.movements, ...shop.sessions, ...entries].map(({ id }) => id);
  const shotIds = shop.sessions.flatMap((session) =>
    tableOf(session.entries).shots.map((s) => s.id),
  );
  expect(new Set([...ids, ...shotIds]).size).toBe(ids.length + shotIds.length);
}, 30_000);

test('it is the shop that was promised: 7 moulds, 10 colourways, 40 sessions in four months', () => {
  expect([shop.moulds.length, shop.colourways.length, shop.injectors.length]).toEqual([7, 10, 2]);
  expect(shop.sessions).toHaveLength(40);
  expect(Math.abs(shots.length - 1_200)).toBeLessThan(50);
  const [first, last] = [shop.sessions[0], shop.sessions.at(-1)];
  expect(day(last?.startedAt ?? 0) - day(first?.startedAt ?? 0)).toBe(118);
  for (const { entries } of shop.sessions) {
    const table = tableOf(entries);
    expect(table.endedAt).toBe(table.lastAt);
    expect(table.shots.filter(({ loggedAt }) => loggedAt === null)).toEqual([]);
  }
});

test('the shelf is stocked: every material was bought, some were counted, and some are to buy', () => {
  const countOf = (one: string) => shop.materials.filter(({ kind }) => kind === one).length;
  expect([countOf('colourant'), countOf('flake')]).toEqual([9, 4]);
  for (const kind of ['plastisol', 'softener', 'stabiliser', 'salt', 'bag'] as const) {
    expect(countOf(kind), kind).toBe(1);
  }
  const uses = shop.sessions.flatMap(({ id, entries }) => unpackedUses(columnsOf(id, entries)));
  const reasons = shop.materials.map((material) => {
    const stock = stockOf(material, shop.movements, uses);
    expect(stock.missing, material.name).toBe(0);
    expect(stock.lines.some(isBought), material.name).toBe(true);
    return buyReason(material, stock);
  });
  expect(reasons.filter((reason) => reason === 'low').length).toBeGreaterThan(1);
  expect(reasons.filter((reason) => reason === null).length).toBeGreaterThan(9);
  const counts = shop.movements.filter(({ says }) => says.kind === 'counted');
  expect(counts.length).toBeGreaterThan(5);
  const [first, last] = [shop.materials[0], shop.sessions.at(-1)];
  for (const { at } of shop.movements) {
    expect(at).toBeGreaterThan(first?.createdAt ?? 0);
    expect(at).toBeLessThan(last?.startedAt ?? 0);
  }
});

function isBought({ cause }: StockLine): boolean {
  return 'movement' in cause && cause.movement.says.kind === 'bought';
}

test('an evening holds what a person presses, one thing after the other', () => {
  const entries = shop.sessions.flatMap((session) => session.entries);
  const kinds = new Set(entries.map(({ said }) => said.kind));
  for (const kind of [
    'ambient-read',
    'clock-stopped',
    'pot-heated',
    'pot-topped-up',
    'pot-read',
    'pot-emptied',
    'mould-read',
    'skipped',
    'cavity-closed',
    'set-time-chosen',
    'noted',
    'put-right',
    'taken-back',
  ] as const) {
    expect(kinds, kind).toContain(kind);
  }
  const stamps = entries.map(({ stamp }) => stamp);
  expect(stamps.toSorted()).toEqual(stamps);
  expect(new Set(stamps).size).toBe(stamps.length);
});
