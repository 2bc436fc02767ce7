import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { page } from 'vitest/browser';
import { standingOf } from '#calc/log.ts';
import { all } from '#calc/said.ts';
import { usesOf } from '#calc/used.ts';
import type { SaidOf } from '#model/entry.ts';
import type { Material } from '#model/material.ts';
import { ColourScreen } from '#screens/colours/ColourScreen.tsx';
import { ColoursScreen } from '#screens/colours/ColoursScreen.tsx';
import { NamelessScreen } from '#screens/colours/NamelessScreen.tsx';
import { SessionScreen } from '#screens/pour/SessionScreen.tsx';
import { TableScreen } from '#screens/table/TableScreen.tsx';
import { verdictsOn } from '#store/balance.ts';
import { headsOf } from '#store/heads.ts';
import { keepMix, versionsOf } from '#store/mixes.ts';
import { namelessMixes } from '#store/nameless.ts';
import { endSession, entriesOf } from '#store/sessions.ts';
import { startPouring } from '#store/start.ts';
import { aColourway, aMould, seven } from '../../hands/evening.ts';
import { Finger } from '../../hands/finger.ts';
import { aDose, aMaterial, aSide, cupMl } from '../../hands/mixes.ts';
import { show } from '../../hands/show.tsx';
import { aTable, mainKey, mainSays, potWords, type TestTable } from '../../hands/table.tsx';

let table: TestTable;
let black: Material;
let flake: Material;
const finger = new Finger(9);
let atMs = 900_000;

const key = (name: RegExp | string) => page.getByRole('button', { name }).first();

async function press(name: RegExp | string): Promise<void> {
  await expect.element(key(name)).toBeVisible();
  atMs += 1_000;
  finger.down(key(name).element(), atMs);
  finger.lift(atMs + 60);
}

/** The pots as the log of the evening tells them now, in the order of mixing; the first is the start's. */
async function pots() {
  const entries = await entriesOf(table.shop.book, table.sessionId);
  return all(standingOf(entries), 'pot-mixed').flatMap(({ said }) =>
    said.pots.map((pot) => ({ ...pot, said: said as SaidOf<'pot-mixed'> })),
  );
}
const dosesOf = (pot: { mix?: unknown } | undefined) =>
  (pot?.mix as { doses: { name: string; amount: number }[] } | undefined)?.doses.map(
    ({ name, amount }) => [name, amount],
  );
const nameless = () => namelessMixes(table.shop.book);

/** Makes up a pot: `counts` presses of each material. */
async function makeUp(place: string, counts: Record<string, number>): Promise<void> {
  const before = (await pots()).length;
  if (!key(/^New mix/).query()) await press(/^Pot:/);
  await press(/^New mix/);
  await press(place);
  await press(/^New colour/);
  for (const [name, count] of Object.entries(counts)) {
    for (let number = 0; number < count; number++) await press(new RegExp(`^${name} `));
  }
  const told = potWords();
  await press(/^Mixed/);
  await expect.poll(async () => (await pots()).length).toBe(before + 1);
  // The table hears of it a moment after the disk.
  await expect.poll(potWords).not.toBe(told);
}

beforeEach(async () => {
  vi.spyOn(Element.prototype, 'setPointerCapture').mockImplementation(() => {});
  await page.viewport(360, 740);
  table = await aTable([['Grub 50', 2, 4]]);
  black = await aMaterial(table.shop.book, 'Black');
  flake = await aMaterial(table.shop.book, 'Green flake', {
    kind: 'flake',
    unit: 'g',
    swatch: '#2f7d3b',
  });
  table.pass(1_000);
});

afterEach(() => vi.restoreAllMocks());

describe('a laminate made up at the table', () => {
  test('begins with the side that waits: one that stands alone for its other, and each of two for itself', async () => {
    const isPressed = (place: string) =>
      expect.element(key(place)).toHaveAttribute('aria-pressed', 'true');
    await press(/^Pot:/);
    await press(/^New mix/);
    await isPressed('Only pot');
    await press(/^Pot:/);
    await makeUp('Side A', { Black: 3 });
    await press(/^Pot: Pot 2/);
    await press(/^New mix/);
    await isPressed('Side B');
    await press(/^Pot: Pot 2/);
    await makeUp('Side B', { 'Green flake': 2 });
    for (const side of ['A', 'B']) {
      await press(new RegExp(`^Pot: ${side}`));
      await press(/^New mix/);
      await isPressed(`Side ${side}`);
      await press(new RegExp(`^Pot: ${side}`));
    }
  });

  test('is one mix of two sides: poured, named, judged, seen with both sides and poured again', async () => {
    const { book } = table.shop;
    await makeUp('Side A', { Black: 3 });
    await makeUp('Side B', { 'Green flake': 2 });
    await expect.poll(async () => (await headsOf(book, 'mixes')).length).toBe(2);
    const [mix, ...others] = await nameless();
    expect(others).toEqual([]);
    expect(mix?.sides.map(({ role, doses }) => [role, doses.map((one) => one.amount)])).toEqual([
      ['a', [3]],
      ['b', [0.25]],
    ]);
    await press(/^Pot: A/);
    await mainSays(/^Filled/);
    finger.down(mainKey(), atMs + 2_000);
    finger.lift(atMs + 2_060);
    atMs += 3_000;
    await mainSays(/^Setting/);
    await endSession(book, table.sessionId, seven + 3_600_000);

    // At the desk: one mix waits for its name.
    show(table.shop, <ColoursScreen />);
    await expect
      .element(page.getByRole('link', { name: /^Made up/ }))
      .toHaveTextContent('two sides, 2 materials');
    expect(page.getByRole('link', { name: /^Made up/ }).elements()).toHaveLength(1);
    if (!mix) throw new Error('There is no mix.');
    show(table.shop, <NamelessScreen mixId={mix.id} />);
    await page.getByRole('textbox', { name: 'Name', exact: true }).fill('Ink and reed');
    await page.getByRole('textbox', { name: 'Side A, left' }).fill('Ink');
    await page.getByRole('textbox', { name: 'Side B, right' }).fill('Reed');
    await page.getByRole('button', { name: 'Keep it as a colour' }).click();
    await expect.poll(() => window.location.hash).toMatch(/^#\/colour\//);
    const named = (await headsOf(book, 'colourways')).find(({ name }) => name === 'Ink and reed');
    if (!named) throw new Error('There is no such colour.');
    expect(named.sides).toEqual([
      { name: 'Ink', swatch: '#16120e' },
      { name: 'Reed', swatch: '#2f7d3b' },
    ]);
    expect(await nameless()).toEqual([]);

    // The pots of the evening are its sides, with the doses that went in.
    await expect
      .poll(async () => (await pots()).slice(1).map(({ said }) => said.colourwayId))
      .toEqual([named.id, named.id]);
    const poured = (await pots()).slice(1);
    expect(poured.map((pot) => [pot.name, pot.mix?.mixId, pot.mix?.role, dosesOf(pot)])).toEqual([
      ['Ink', mix.id, 'a', [['Black', 3]]],
      ['Reed', mix.id, 'b', [['Green flake', 0.25]]],
    ]);

    // The verdict can be given, and it is known as one on this colour.
    show(table.shop, <SessionScreen sessionId={table.sessionId} />);
    await page
      .getByRole('group', { name: 'How Ink and reed came out' })
      .getByRole('button', { name: /^Side A won/ })
      .click();
    await expect.poll(() => verdictsOn(book, named.id)).toEqual(['a-won']);

    // Its page shows both sides exactly, and scales them.
    show(table.shop, <ColourScreen colourwayId={named.id} />);
    const side = (name: string) => page.getByRole('region', { name, exact: true });
    await expect.element(side('Side A')).toHaveTextContent('3 drops');
    await expect.element(side('Side B')).toHaveTextContent('¼ tsp');
    for (let cup = 0; cup < 8; cup++)
      await page.getByRole('button', { name: '¼ cup more' }).click();
    await expect.element(side('Side A')).toHaveTextContent('6 drops');
    await expect.element(side('Side B')).toHaveTextContent('½ tsp');

    // Poured again next week, both cups at once.
    table.shop.set(seven + 7 * 86_400_000);
    const mould = await aMould(book, 'Shad');
    const zone = 'Europe/Berlin';
    await startPouring(
      book,
      { mouldIds: [mould.id], injectorId: null, colourwayId: null, zone },
      seven + 7 * 86_400_000,
    );
    show(table.shop, <TableScreen />);
    await press(/^Pot:/);
    await press(/^New mix/);
    for (let cup = 0; cup < 8; cup++) await press('¼ cup more');
    await press(/^Ink and reed, mix/);
    await expect.element(page.getByText('946 mL each')).toBeVisible();
    await expect.element(page.getByRole('img', { name: '6 drops of Black' })).toBeVisible();
    await expect.element(page.getByRole('list', { name: 'Side A, Ink' })).toBeVisible();
  }, 60_000);

  test('tops side A up as a side of both, with its own doses', async () => {
    await makeUp('Side A', { Black: 4 });
    await makeUp('Side B', { 'Green flake': 2 });
    await expect.poll(async () => (await nameless())[0]?.sides.length).toBe(2);
    const [mix] = await nameless();
    await press(/^Pot: A/);
    await press(/^Topped up/);
    await press(/^Top up/);
    const topUps = async () =>
      all(standingOf(await entriesOf(table.shop.book, table.sessionId)), 'pot-topped-up');
    await expect.poll(async () => (await topUps()).length).toBe(1);
    expect((await topUps())[0]?.said.mix).toMatchObject({
      mixId: mix?.id,
      version: 1,
      role: 'a',
      doses: [{ name: 'Black' }],
    });
  });

  test('of two volumes is written for the larger pot, and each side keeps its strength', async () => {
    await makeUp('Side A', { Black: 6 });
    await press(/^Pot:/);
    await press(/^New mix/);
    await press('Side B');
    for (let cup = 0; cup < 4; cup++) await press('¼ cup less');
    await press(/^New colour/);
    for (let number = 0; number < 3; number++) await press(/^Black /);
    await press(/^Mixed/);
    await expect.poll(async () => (await nameless())[0]?.sides.length).toBe(2);
    const [mix] = await nameless();
    expect(mix?.baseMl).toBeCloseTo(2 * cupMl, 6);
    const amounts = mix?.sides.map(({ doses }) => doses[0]?.amount);
    expect(amounts?.[0]).toBe(6);
    expect(amounts?.[1]).toBeCloseTo(6, 9);
  });

  test('B first, then A, is the same; and the side beside a colour of the shop is a mix of its own', async () => {
    await makeUp('Side B', { Black: 2 });
    await makeUp('Side A', { 'Green flake': 1 });
    await expect.poll(async () => (await nameless())[0]?.sides.length).toBe(2);
    const [mix] = await nameless();
    expect(mix?.sides.map(({ role, doses }) => [role, doses[0]?.name])).toEqual([
      ['a', 'Green flake'],
      ['b', 'Black'],
    ]);
    const peat = await aColourway(table.shop.book, 'Peat', '#5b4029');
    await press(/^Pot: A/);
    await press(/^New mix/);
    await press('Side A');
    const told = potWords();
    await press(new RegExp(`^${peat.name}, mix`));
    await expect.poll(potWords).not.toBe(told);
    await makeUp('Side B', { Black: 4 });
    await expect.poll(async () => (await nameless()).length).toBe(2);
    const roles = (await nameless()).map(({ sides }) => sides.map(({ role }) => role).join());
    expect(roles.toSorted()).toEqual(['a,b', 'only']);
  });

  test('taken back, side B leaves side A as it was; taken back as well, nothing waits for a name', async () => {
    await makeUp('Side A', { Black: 3 });
    await makeUp('Side B', { 'Green flake': 2 });
    await expect.poll(async () => (await nameless())[0]?.sides.length).toBe(2);
    const told = potWords();
    await press(/^Undo/);
    await expect.poll(async () => (await nameless())[0]?.sides.length).toBe(1);
    expect(await nameless()).toMatchObject([{ sides: [{ role: 'only', doses: [{ amount: 3 }] }] }]);
    await expect.poll(potWords).not.toBe(told);
    table.pass(1_000);
    await press(/^Undo/);
    await expect.poll(nameless).toEqual([]);
    show(table.shop, <ColoursScreen />);
    await expect.element(page.getByRole('heading', { name: 'Colours' })).toBeVisible();
    await expect.element(page.getByText('Without a name')).not.toBeInTheDocument();
  });
});

describe('what the device refuses of a mix', () => {
  test('is built from the log when the session ends, one-sided, two-sided or changed, and only once', async () => {
    const { book } = table.shop;
    const peat = await aColourway(book, 'Peat', '#5b4029');
    const sides = [
      aSide([aDose(black.id, 4, 'drop', { name: 'Black' })]),
      aSide([aDose(black.id, 9, 'drop', { name: 'Black' })], { role: 'tail', name: 'Tail' }),
    ];
    await keepMix(book, peat.id, { baseMl: cupMl, sides, nextTime: 'Hotter.' }, seven);
    const { put } = IDBObjectStore.prototype;
    const refused: string[] = [];
    const spy = vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(function (
      this: IDBObjectStore,
      ...args
    ) {
      if (this.name !== 'mixes') return put.apply(this, args);
      refused.push(this.name);
      throw new DOMException('No room.', 'QuotaExceededError');
    });
    await makeUp('Side A', { Black: 3 });
    await makeUp('Side B', { 'Green flake': 2 });
    await press(/^Pot: A/);
    await press(/^New mix/);
    await press('Only pot');
    await press(/^Peat, mix/);
    await press('Change');
    await press(/^Black 8 drops/);
    await press(/^Mixed/);
    await expect.poll(async () => (await pots()).length).toBe(4);
    await expect.poll(() => refused.length).toBeGreaterThanOrEqual(3);
    expect(await headsOf(book, 'mixes')).toHaveLength(1);
    spy.mockRestore();

    await endSession(book, table.sessionId, seven + 3_600_000);
    const made = await headsOf(book, 'mixes');
    expect(made).toHaveLength(4);
    expect(await nameless()).toMatchObject([
      {
        sides: [
          { role: 'a', doses: [{ amount: 3 }] },
          { role: 'b', doses: [{ amount: 0.25 }] },
        ],
      },
    ]);
    const [changed] = await versionsOf(book, peat.id);
    expect(changed).toMatchObject({
      id: (await pots())[3]?.mix?.mixId,
      version: 2,
      nextTime: 'Hotter.',
    });
    const strengths = changed?.sides.map(({ role, doses }) => [
      role,
      Number((((doses[0]?.amount ?? 0) * cupMl) / changed.baseMl).toFixed(6)),
    ]);
    // The tail was not poured: it is as it was, 9 drops a cup; of the body 9 drops went into two cups.
    expect(strengths).toEqual([
      ['only', 4.5],
      ['tail', 9],
    ]);
  });

  test('is built from the log when the next mix is begun', async () => {
    const { book } = table.shop;
    const { put } = IDBObjectStore.prototype;
    let left = 1;
    vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(function (
      this: IDBObjectStore,
      ...args
    ) {
      if (this.name !== 'mixes' || left === 0) return put.apply(this, args);
      left -= 1;
      throw new DOMException('No room.', 'QuotaExceededError');
    });
    await makeUp('Only pot', { Black: 3 });
    expect(left).toBe(0);
    expect(await headsOf(book, 'mixes')).toEqual([]);
    await press(/^Pot:/);
    await press(/^New mix/);
    await expect.poll(async () => (await headsOf(book, 'mixes')).length).toBe(1);
    expect(await nameless()).toMatchObject([
      { id: (await pots())[1]?.mix?.mixId, sides: [{ doses: [{ name: 'Black', amount: 3 }] }] },
    ]);
  });
});

describe('the plastisol of a pot made up on the spot', () => {
  const usedOf = async (id: string) =>
    usesOf(standingOf(await entriesOf(table.shop.book, table.sessionId))).filter(
      ({ materialId }) => materialId === id,
    );

  test('is the only one there is, said in a few words, and the stock moves it', async () => {
    const soft = await aMaterial(table.shop.book, 'Soft', { kind: 'plastisol' });
    await aMaterial(table.shop.book, 'Old', { kind: 'plastisol', isAside: true });
    await press(/^Pot:/);
    await press(/^New mix/);
    await press(/^New colour/);
    await expect.element(key(/^Mixed in Soft/)).toBeVisible();
    await expect.element(key(/^Plastisol/)).not.toBeInTheDocument();
    await press(/^Black /);
    await press(/^Mixed/);
    await expect.poll(async () => (await pots()).length).toBe(2);
    const [, pot] = await pots();
    expect(pot?.mix?.plastisolId).toBe(soft.id);
    expect(await usedOf(soft.id)).toMatchObject([{ amount: pot?.volumeMl, unit: 'mL' }]);
    await expect.poll(async () => (await nameless())[0]?.sides[0]?.plastisolId).toBe(soft.id);
  });

  test('is the one poured last of several, and one press takes the next', async () => {
    const { book } = table.shop;
    await aMaterial(book, 'Hard', { kind: 'plastisol' });
    await aMaterial(book, 'Soft', { kind: 'plastisol' });
    const [one, two] = (await headsOf(book, 'materials')).filter(
      ({ kind }) => kind === 'plastisol',
    );
    if (!one || !two) throw new Error('There are no two of them.');
    await press(/^Pot:/);
    await press(/^New mix/);
    await press(/^New colour/);
    await press(`Plastisol: not told, press for ${one.name}`);
    await press(`Plastisol: ${one.name}, press for ${two.name}`);
    await expect.element(key(`Plastisol: ${two.name}, press for ${one.name}`)).toBeVisible();
    const box = key(/^Plastisol/)
      .element()
      .getBoundingClientRect();
    expect(Math.min(box.width, box.height)).toBeGreaterThanOrEqual(72);
    // Nothing but plastisol is a mix too, once it is told which.
    await press(/^Mixed/);
    await expect.poll(async () => (await pots()).length).toBe(2);
    expect(await usedOf(two.id)).toHaveLength(1);
    expect(await usedOf(one.id)).toEqual([]);
    await press(/^Pot:/);
    await press(/^New mix/);
    await press(/^New colour/);
    await expect.element(key(`Plastisol: ${two.name}, press for ${one.name}`)).toBeVisible();
  });
});

test('a colourant that is a powder is given by spoons, not by drops', async () => {
  await aMaterial(table.shop.book, 'Pearl powder', { unit: 'g' });
  await makeUp('Only pot', { 'Pearl powder': 3, Black: 1 });
  const [, pot] = await pots();
  expect(pot?.mix?.doses.map(({ name, amount, unit }) => [name, amount, unit])).toEqual([
    ['Pearl powder', 0.375, 'tsp'],
    ['Black', 1, 'drop'],
  ]);
});

describe('the one quiet line', () => {
  const written = async (name: string, drops: number) => {
    const { book } = table.shop;
    const colour = await aColourway(book, name, '#5b4029');
    const doses = [
      aDose(black.id, drops, 'drop', { name: 'Black' }),
      aDose(flake.id, 0.5, 'tsp', { name: 'Green flake' }),
    ];
    await keepMix(
      book,
      colour.id,
      { baseMl: 2 * cupMl, sides: [aSide(doses)], nextTime: '' },
      seven,
    );
  };

  test('says how a dose was rounded, and nothing where none was', async () => {
    await written('Peat', 11.6);
    await press(/^Pot:/);
    await press(/^New mix/);
    await press(/^Peat, mix/);
    await expect.element(page.getByText('Black rounded up from 11.6 drops')).toBeVisible();
  });

  test('of a mix that comes out says nothing', async () => {
    await written('Peat', 12);
    await press(/^Pot:/);
    await press(/^New mix/);
    await press(/^Peat, mix/);
    await expect.element(page.getByText('12 drops')).toBeVisible();
    expect(page.getByText(/rounded|usual/).elements()).toEqual([]);
  });

  test('says of a dose five times the usual that it is, here and where it is made up', async () => {
    await written('Peat', 1);
    await press(/^Pot:/);
    await press(/^New mix/);
    await press(/^New colour/);
    for (let number = 0; number < 4; number++) await press(/^Black /);
    await expect.element(key('Black 4 drops')).toBeVisible();
    expect(page.getByText(/usual/).elements()).toEqual([]);
    await press(/^Black /);
    await expect
      .element(page.getByRole('status').filter({ hasText: 'Black 5 × usual' }))
      .toBeVisible();
    await page.viewport(740, 360);
    await expect.element(key('Mixed Black 5 × usual')).toBeVisible();
    await page.viewport(360, 740);
    await press(/^Pot:/);
    await written('Ink', 6.4);
    await press(/^Pot:/);
    await press(/^New mix/);
    await press(/^Ink, mix/);
    // Rounded as well, which is the lesser word.
    await expect.element(page.getByText('Black: 6 times your usual')).toBeVisible();
    expect(page.getByText(/rounded/).elements()).toEqual([]);
  });
});
