import { beforeEach, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import type { Book } from '#store/book.ts';
import { drawn } from '../../hands/drawn.ts';
import { aMould, twoInjectors } from '../../hands/evening.ts';
import { placeFaults } from '../../hands/glass.ts';
import { keyDown, pageDown } from '../../hands/pedal.ts';
import { aTable, type LineUpOf, mainSays, type TestTable } from '../../hands/table.tsx';

const glasses = [
  [320, 568],
  [360, 740],
  [412, 915],
  [568, 320],
  [667, 375],
  [740, 360],
  [915, 412],
  [768, 1024],
  [1024, 768],
] as const;

let atMs = 3_000_000;

beforeEach(async () => {
  await page.viewport(360, 740);
});

/** A main key pressed by the pedal, a second after the last press. */
async function main(table: TestTable, says: RegExp): Promise<void> {
  await mainSays(says);
  table.pass(1_000);
  atMs += 1_000;
  keyDown(pageDown, atMs);
}

async function twoMoulds(book: Book): ReturnType<LineUpOf> {
  const grub = await aMould(book, 'Grub 50', { rows: 2, cols: 2 });
  const shad = await aMould(book, 'Shad 7', { rows: 1, cols: 2 });
  return { mouldIds: [grub.id, shad.id] };
}

/** The same with injectors to choose from: a row of keys more. */
async function withInjectors(book: Book): ReturnType<LineUpOf> {
  return { ...(await twoMoulds(book)), injectorId: (await twoInjectors(book)).id };
}

/** Two moulds, four rounds of five minutes each, all good: 24 baits, with the panel of the table open. */
async function atTheSetUp(
  keySize: 'usual' | 'large' | 'largest',
  lineUp: LineUpOf = twoMoulds,
): Promise<TestTable> {
  const table = await aTable(lineUp, { keySize, hearing: 'heard' });
  table.tellSound(true);
  table.pass(1_000);
  for (let round = 0; round < 4; round += 1) {
    await main(table, /^Filled/);
    await mainSays(/^Setting/);
    table.pass(298_000);
    await main(table, /^All good/);
    await mainSays(/^Filled/);
  }
  await page.getByRole('button', { name: /^Table/ }).click();
  // Where there is no room for it, it is there all the same.
  await expect.element(page.getByText(/an hour now/)).toBeInTheDocument();
  return table;
}

/** The lines of the evening that a person can read: no part of them is cut, covered or off the glass. */
function linesSeen(of: 'Table' | 'Tonight' = 'Table'): string[] {
  const panel = document.querySelector(`section[aria-label="${of}"]`);
  return [...(panel?.querySelectorAll('p') ?? [])]
    .filter((line) => {
      const box = line.getBoundingClientRect();
      if (box.width === 0 || line.scrollWidth > line.clientWidth + 1) return false;
      const y = [box.top + 2, box.bottom - 2];
      return y.every((at) => {
        const seen = document.elementFromPoint(box.left + 4, at);
        return seen === line || line.contains(seen);
      });
    })
    .map((line) => line.textContent ?? '');
}

// 8 shots since the first fill, 20 minutes and some seconds ago, are 24 an hour; 24 good in that time are 72 an hour.
// Begun at 19:02: at 19:22 the last full ten minutes within an hour are 20:20, with 24 + 70 good.
const told = [
  /^24 good of 24 tonight$/,
  /^8 shots, 24 an hour now$/,
  /^At this pace 9\d good by 20:20$/,
  /^Sound on$/,
];

test.for(['usual', 'large', 'largest'] as const)(
  'with %s keys the panel of the table tells count, pace and sound on every glass that has the room',
  { timeout: 60_000 },
  async (keySize) => {
    await atTheSetUp(keySize);
    const missing: string[] = [];
    for (const [width, height] of glasses) {
      await page.viewport(width, height);
      await drawn();
      const seen = linesSeen();
      const where = `${width}x${height}`;
      // The smallest glasses tell count and pace, the upright one what is ahead, too; a low stand with large keys count and sound.
      const isFull = keySize !== 'usual' && height === 360;
      const needs = isFull
        ? [told[0], told[3]]
        : width === 568
          ? told.slice(0, 2)
          : width === 320
            ? told.slice(0, 3)
            : told;
      for (const line of needs) {
        if (!seen.some((one) => line?.test(one)))
          missing.push(`${where} ${line}: ${seen.join(' | ')}`);
      }
      missing.push(...placeFaults(document.body).map((fault) => `${where}: ${fault}`));
    }
    expect(missing).toEqual([]);
  },
);

test.for(['usual', 'large', 'largest'] as const)(
  'with %s keys and injectors on the table every count of the evening is seen, at most one key away',
  { timeout: 60_000 },
  async (keySize) => {
    await atTheSetUp(keySize, withInjectors);
    const all = [...told, /^Grub 50.*16 of 16$/, /^Shad 7.*8 of 8$/];
    const missing: string[] = [];
    const unseen = (lines: readonly string[]) =>
      all.filter((line) => !lines.some((one) => line.test(one)));
    const tonight = page.getByRole('button', { name: 'Tonight' });
    for (const [width, height] of glasses) {
      await page.viewport(width, height);
      await drawn();
      const where = `${width}x${height}`;
      missing.push(...placeFaults(document.body).map((fault) => `${where}: ${fault}`));
      if (unseen(linesSeen()).length === 0) continue;
      if (!tonight.query()?.checkVisibility()) {
        missing.push(`${where}: no key leads to ${unseen(linesSeen()).join(', ')}`);
        continue;
      }
      await tonight.click();
      await expect.element(page.getByRole('region', { name: 'Tonight' })).toBeVisible();
      await drawn();
      const seen = linesSeen('Tonight');
      missing.push(...unseen(seen).map((line) => `${where} ${line}: ${seen.join(' | ')}`));
      missing.push(...placeFaults(document.body).map((fault) => `${where} tonight: ${fault}`));
      await page.getByRole('button', { name: 'Back' }).click();
      await expect.element(page.getByRole('region', { name: 'Table' })).toBeVisible();
    }
    expect(missing).toEqual([]);
  },
);

test('the panel of the table says when the bell is muted', async () => {
  const table = await atTheSetUp('usual');
  const sound = page.getByText(/^Sound /);
  for (const [width, height] of [
    [740, 360],
    [360, 740],
  ] as const) {
    await page.viewport(width, height);
    table.tellSound(false);
    await expect.element(sound).toHaveTextContent('Sound muted');
    await drawn();
    expect(linesSeen().some((line) => line === 'Sound muted')).toBe(true);
    table.tellSound(true);
    await expect.element(sound).toHaveTextContent('Sound on');
  }
});
