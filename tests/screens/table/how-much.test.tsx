import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { page } from 'vitest/browser';
import { heatFor, learntLoss, roundsFrom, timesPours } from '#calc/loss.ts';
import { headsOf } from '#store/heads.ts';
import { addToSession, entriesOf } from '#store/sessions.ts';
import { drawn } from '../../hands/drawn.ts';
import { pourEvening, seven } from '../../hands/evening.ts';
import { Finger } from '../../hands/finger.ts';
import { placeFaults } from '../../hands/glass.ts';
import { aTable, type TestTable } from '../../hands/table.tsx';

let table: TestTable;
const finger = new Finger(9);
let atMs = 700_000;

const key = (name: RegExp | string) => page.getByRole('button', { name }).first();

async function press(name: RegExp | string): Promise<void> {
  await expect.element(key(name)).toBeVisible();
  atMs += 1_000;
  finger.down(key(name).element(), atMs);
  finger.lift(atMs + 60);
}

async function volumeOf(kind: 'pot-mixed' | 'pot-topped-up'): Promise<number> {
  const isThere = async () => (await table.entries()).some(({ said }) => said.kind === kind);
  await expect.poll(isThere).toBe(true);
  const said = (await table.entries()).map((entry) => entry.said).find((one) => one.kind === kind);
  if (said?.kind === 'pot-topped-up') return said.volumeMl;
  return said?.kind === 'pot-mixed' ? (said.pots[0]?.volumeMl ?? 0) : 0;
}

beforeEach(async () => {
  vi.spyOn(Element.prototype, 'setPointerCapture').mockImplementation(() => {});
  await page.viewport(360, 740);
  // 8 cavities of 9 mL and 12 of sprue: 84 mL a round.
  table = await aTable([['Grub 50', 2, 4]]);
  table.pass(1_000);
});

afterEach(() => vi.restoreAllMocks());

test('a new mix is chosen by rounds as well as by the cup, in grams, and says that its loss is a guess', async () => {
  await press(/^Pot:/);
  await press(/^New mix/);
  await press(/about \d rounds?$/);
  await expect.element(key('Your last mix: 2 cups.')).toBeVisible();
  await press('Your last mix: 2 cups.');
  // 473 mL less 25 are five rounds of 84; 445 mL are 467 g.
  await expect.element(key('5 rounds 467 g, a guess')).toBeVisible();
  await press('One round less');
  await expect.element(key('4 rounds 379 g, a guess')).toBeVisible();
  for (const [width, height] of [
    [360, 740],
    [412, 915],
    [740, 360],
    [1024, 768],
  ] as const) {
    await page.viewport(width, height);
    await drawn();
    expect(placeFaults(document.body), `${width}x${height}`).toEqual([]);
  }
  await page.viewport(360, 740);
  await press(/^New colour/);
  await press(/^Mixed/);
  expect(await volumeOf('pot-mixed')).toBeCloseTo(4 * 84 + 25, 6);
});

/** Three past evenings of five shots, of which so much was lost each, and what they teach. */
async function threePots(lostMl: readonly number[]) {
  const { book } = table.shop;
  const [mould] = await headsOf(book, 'moulds');
  if (!mould) throw new Error('There is no mould.');
  const runs = [];
  for (const [evening, lossMl] of lostMl.entries()) {
    const at = seven - (evening + 2) * 86_400_000;
    const fills = Array.from({ length: 5 }, () => ({ mould, gave: 'gggggggg' }));
    const id = await pourEvening(book, { fills, at });
    const potId = (await entriesOf(book, id)).flatMap(({ said }) =>
      said.kind === 'pot-mixed' ? said.pots.map((pot) => pot.potId) : [],
    )[0];
    if (!potId) throw new Error('There is no pot.');
    const leftMl = 473.176473 - 5 * 42 - lossMl;
    await addToSession(book, id, { kind: 'pot-emptied', potId, leftMl }, at + 3_600_000);
    runs.push({ inMl: 473.176473, leftMl, pours: [{ mouldId: mould.id, shouldMl: 210 }] });
  }
  return { learnt: learntLoss(runs), round: [{ mouldId: mould.id, shouldMl: 84 }] };
}

test('what own pots lost is in it, with its range', async () => {
  const { learnt, round } = await threePots([40, 52, 46]);
  const rounds = (roundsFrom(learnt, 473.176473, round) ?? 0) - 1;
  const heat = heatFor(learnt, timesPours(round, rounds));
  expect(heat.isGuess).toBe(false);
  const grams = (ml: number) => Math.round(ml * 1.05);
  await press(/^Pot:/);
  await press(/^New mix/);
  await press(/about \d rounds?$/);
  await press('Your last mix: 2 cups.');
  await press('One round less');
  const words = `${grams(heat.heatMl)} g, ${grams(heat.lowMl)}–${grams(heat.highMl)} g`;
  await expect.element(key(`${rounds} rounds ${words}`)).toBeVisible();
});

test('a top-up is chosen by the rounds that the pot is then good for', async () => {
  await press(/^Pot:/);
  await press(/^Topped up/);
  await press(/goes in$/);
  await press(/^Our start value/);
  // 473 + 59 mL less 25 are six rounds of 84; a seventh needs 613 mL in all.
  await expect.element(key(/^6 rounds/)).toBeVisible();
  await press('One round more');
  await expect.element(key('7 rounds 147 g, a guess')).toBeVisible();
  await press(/^Top up/);
  expect(await volumeOf('pot-topped-up')).toBeCloseTo(7 * 84 + 25 - 473.176473, 6);
});

test('the rounds left on the pot key leave out what own pots were seen to lose', async () => {
  const potKey = () => page.getByRole('button', { name: /^Pot:/ });
  // Two cups of 473 mL less the 25 of a first guess: five rounds of 84.
  await expect.element(potKey()).toHaveTextContent(/5 left$/);
  await press(/^Pot:/);
  await expect.element(key(/about 5 rounds, a guess/)).toBeVisible();
  for (const [width, height] of [
    [320, 568],
    [360, 740],
    [412, 915],
    [740, 360],
    [1024, 768],
  ] as const) {
    await page.viewport(width, height);
    await drawn();
    expect(placeFaults(document.body), `${width}x${height}`).toEqual([]);
  }
  await page.viewport(360, 740);
  await press(/about 5 rounds, a guess/);
  await expect.element(key(/Rounds: 84 mL each, 25 stay in: our guess\.$/)).toBeVisible();
  // Pots that lost a third of what went in: a round less in every pot of two cups.
  const { learnt, round } = await threePots([150, 156, 147]);
  const rounds = roundsFrom(learnt, 473.176473, round);
  expect(rounds).toBeLessThan(5);
  await expect.element(potKey()).toHaveTextContent(new RegExp(`${rounds} left$`));
  await expect.element(key(/Rounds: \d+ mL each, \d+ stay in\.$/)).toBeVisible();
  await press(/stay in\.$/);
  await expect.element(key(/about \d rounds?(?!, a guess)/)).toBeVisible();
});
