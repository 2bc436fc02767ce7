import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { addHead } from '#store/heads.ts';
import { keepMix } from '#store/mixes.ts';
import { drawn } from '../../hands/drawn.ts';
import { aMould, seven } from '../../hands/evening.ts';
import { faults } from '../../hands/faults.ts';
import { Finger } from '../../hands/finger.ts';
import { placeFaults } from '../../hands/glass.ts';
import { aDose, aMaterial, aSide, cupMl } from '../../hands/mixes.ts';
import { keyDown, pageDown, pageUp, stayDown } from '../../hands/pedal.ts';
import { aTable, mainKey, mainSays, type TestTable } from '../../hands/table.tsx';

let table: TestTable;
const finger = new Finger(9);
let atMs = 900_000;

const key = (name: RegExp | string) => page.getByRole('button', { name }).first();

async function press(name: RegExp | string): Promise<void> {
  await expect.element(key(name)).toBeVisible();
  atMs += 1_000;
  finger.down(key(name).element(), atMs);
  finger.lift(atMs + 60);
}

/** Two cups of each side of a laminate: 12 drops of black and 5 of brown in A, 4 of pearl in B. */
async function aLaminate(keySize: 'usual' | 'largest' = 'usual'): Promise<TestTable> {
  const table = await aTable(
    async (book) => {
      const mould = await aMould(book, 'Grub 50');
      const looks = [
        { name: 'Ink', swatch: '#1c2733' },
        { name: 'Bone', swatch: '#ece7d8' },
      ];
      const two = await addHead(book, 'colourways', { name: 'Duo', sides: looks }, seven);
      const dose = async (name: string, amount: number) =>
        aDose((await aMaterial(book, name)).id, amount, 'drop', { name });
      const flake = await aMaterial(book, 'Green flake', { kind: 'flake', unit: 'g' });
      const doses = [await dose('Black', 12), aDose(flake.id, 1, 'tsp', { name: 'Green flake' })];
      const sides = [
        aSide([...doses, await dose('Brown', 5)], { role: 'a', name: 'Peat' }),
        aSide([await dose('Pearl', 4)], { role: 'b', name: 'Pearl' }),
      ];
      await keepMix(book, two.id, { baseMl: 2 * cupMl, sides, nextTime: '' }, seven);
      return { mouldIds: [mould.id], colourwayId: two.id };
    },
    { keySize },
  );
  table.pass(1_000);
  return table;
}

beforeEach(async () => {
  vi.spyOn(Element.prototype, 'setPointerCapture').mockImplementation(() => {});
  await page.viewport(360, 740);
  table = await aLaminate();
});

afterEach(() => vi.restoreAllMocks());

const drop = () =>
  page.getByRole('region', { name: /^Drops/ }).getByRole('button', { name: /^Drop/ });
const counted = (words: RegExp) => expect.element(drop()).toHaveTextContent(words);

async function count(pot: RegExp = /^Pot: A/) {
  await press(pot);
  await press(/Count drops$/);
}

test('drops of a pot are counted over the cards, with no way from the table and no line in the log', async () => {
  await count();
  await expect.element(page.getByRole('heading', { name: 'Black' })).toBeVisible();
  await counted(/^Drop 0 of 12$/);
  for (let one = 0; one < 12; one++) await userEvent.click(drop());
  await counted(/^Drop 12 all 12 are in$/);
  // Heard at 5, at 10 and at 12.
  expect(table.heard).toEqual(['logged', 'logged', 'logged']);
  await press('Undo a drop');
  await counted(/^Drop 11 of 12$/);
  await press('Next Brown');
  await counted(/^Drop 0 of 5$/);
  await press(/^Back/);
  await expect.element(key('Reheated')).toBeVisible();
  expect(await table.entries()).toEqual([]);
  expect(window.location.hash).toBe('');
});

test('the pedal adds a drop and takes one back, and is the table again when the count is closed', async () => {
  await count();
  await mainSays(/^Drop one more$/);
  table.pass(1_000);
  for (let one = 0; one < 5; one++) keyDown(pageDown, 10_000 + one * 400);
  await counted(/^Drop 5 of 12$/);
  expect(table.heard).toEqual(['logged']);
  keyDown(pageUp, 20_000);
  await counted(/^Drop 4 of 12$/);
  // A foot that stays down on Undo walks the keys: what it took is given back.
  keyDown(pageUp, 30_000);
  await counted(/^Drop 3 of 12$/);
  stayDown(pageUp, 30_000);
  await counted(/^Drop 4 of 12$/);
  await mainSays(/^Next/);
  keyDown(pageUp, 40_000);
  await mainSays(/^Drop one more$/);
  expect(await table.entries()).toEqual([]);
  await press(/^Back/);
  await mainSays(/^Filled/);
  table.pass(1_000);
  keyDown(pageDown, 50_000);
  await expect.poll(async () => (await table.entries()).at(-1)?.said.kind).toBe('filled');
});

test('each pot keeps its own count, through other pots and a reload', async () => {
  await count();
  for (let one = 0; one < 3; one++) await userEvent.click(drop());
  await press(/^Pot: B/);
  await press(/Count drops$/);
  await counted(/^Drop 0 of 4$/);
  await userEvent.click(drop());
  await press(/^Pot: A/);
  await press(/Count drops$/);
  await counted(/^Drop 3 of 12$/);
});

test('a pot of which nothing was measured by drops has no such key', async () => {
  await press(/^Pot: A/);
  await press(/^New mix/);
  await press('Only');
  await press(/^New colour/);
  await press(/^Mixed/);
  await expect.element(key(/^Pot: Pot 3/)).toBeVisible();
  await press(/^Pot: Pot 3/);
  await expect.element(key('Reheated')).toBeVisible();
  expect(page.getByRole('button', { name: /Count drops/ }).elements()).toEqual([]);
});

test.each(['usual', 'largest'] as const)(
  'every key and word keeps its size and place on every glass in both palettes, keys %s',
  async (keySize) => {
    if (keySize === 'largest') table = await aLaminate(keySize);
    const glasses = [
      [320, 568],
      [360, 740],
      [412, 915],
      [740, 360],
      [1024, 768],
    ] as const;
    async function look(what: string) {
      for (const [width, height] of glasses) {
        await page.viewport(width, height);
        await drawn();
        expect.soft(placeFaults(document.body), `${what} ${width}x${height}`).toEqual([]);
      }
      await page.viewport(360, 740);
      for (const palette of ['lamp', 'chalk']) {
        document.documentElement.dataset.theme = palette;
        expect(await faults(document.body)).toEqual([]);
      }
    }
    await press(/^Pot: A/);
    await expect.element(key(/Count drops$/)).toBeVisible();
    await look('panel');
    await press(/Count drops$/);
    for (let one = 0; one < 12; one++) await userEvent.click(drop());
    await look('count');
    expect(mainKey().getBoundingClientRect().height).toBeGreaterThanOrEqual(96);
  },
  60_000,
);
