import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { page } from 'vitest/browser';
import { drawn } from '../../hands/drawn.ts';
import { Finger } from '../../hands/finger.ts';
import { isOfTheBar, keysOn, type PaintedKey, placeFaults } from '../../hands/glass.ts';
import { aTable, mainSays, type TableMoulds, type TestTable } from '../../hands/table.tsx';

const moulds: TableMoulds = [
  ['Grub 50', 4, 2],
  ['Shad 7', 2, 2],
  ['Leaf tail', 6, 2],
];
const sizes = { large: 96, largest: 112 } as const;

const glasses = [
  [360, 740],
  [393, 852],
  [412, 915],
  [768, 1024],
  [1024, 768],
  [740, 360],
  [915, 412],
] as const;
/** A phone without the room: keys of the table itself grow as far as the glass goes, and the glove check says so. */
const smallest = [320, 568] as const;

let table: TestTable;
let faults: string[] = [];

const key = (name: RegExp) => page.getByRole('button', { name }).first();

const finger = new Finger(7);
let atMs = 400_000;

/** Presses a key as soon as it is there, a second after the last press. */
async function press(name: RegExp): Promise<void> {
  await expect.element(key(name)).toBeVisible();
  atMs += 1_000;
  finger.down(key(name).element(), atMs);
  finger.lift(atMs + 60);
}

async function look(state: string, leastPx: number): Promise<void> {
  for (const [width, height] of [...glasses, smallest]) {
    await page.viewport(width, height);
    await drawn();
    const where = `${width}x${height} ${state}`;
    for (const one of keysOn(document.body)) {
      const need = needOf(one, width, leastPx);
      // Three keys of 112 px abreast do not fit a glass of 360: there they may be 104 wide.
      const needWide = width === 360 && leastPx === 112 ? 104 : need;
      if (one.wide < needWide - 0.5 || one.high < need - 0.5) {
        faults.push(`${where}: ${one.name} is ${one.wide} x ${one.high}, needs ${need}`);
      }
    }
    faults.push(...placeFaults(document.body).map((fault) => `${where}: ${fault}`));
  }
  await page.viewport(360, 740);
}

function needOf(one: PaintedKey, width: number, leastPx: number): number {
  if (width > smallest[0]) return isOfTheBar(one) ? 112 : leastPx;
  if (isOfTheBar(one)) return 104;
  const isGrown = /^(Skip|Log now|Open now|Mark bad|All good|Cavity)/.test(one.name);
  return isGrown ? 96 : 72;
}

beforeEach(() => {
  faults = [];
  // A finger that no glass feels cannot be captured.
  vi.spyOn(Element.prototype, 'setPointerCapture').mockImplementation(() => {});
});

afterEach(() => vi.restoreAllMocks());

describe.each(['large', 'largest'] as const)('keys set to %s', (keySize) => {
  test.each([1, 2, 3])(
    'with %i moulds keep their size, place and words',
    async (count) => {
      await page.viewport(360, 740);
      table = await aTable(moulds.slice(0, count), { keySize });
      table.pass(1_000);
      const px = sizes[keySize];
      await look('empty', px);
      await press(/^Filled/);
      await mainSays(/^Setting/);
      await look('setting', px);
      await press(/^Open now/);
      await expect.element(key(/^Mark bad/)).toBeVisible();
      await look('open', px);
      await press(/^Mark bad/);
      await press(/^Cavity \d/);
      await look('map', px);
      await press(/^More/);
      await look('more', px);
      await press(/^Back/);
      await press(/^Pot:/);
      await look('pot', 96);
      await press(/^Topped up/);
      await look('top-up', 96);
      await press(/^Pot:/);
      await expect.element(key(/^Open now|^Skip|^All good, /)).toBeVisible();
      await press(/^Pot:/);
      await press(/^New mix/);
      await look('mix', 96);
      await press(/^Table/);
      await look('table', 96);
      await press(/^1 Grub/);
      await look('mould', 96);
      await press(/^All moulds/);
      await press(/^(Add mould|Swap moulds)/);
      await look('add', 96);
      expect(faults).toEqual([]);
    },
    90_000,
  );

  test('a mould of 48 cavities is marked part by part, every cell as large as that', async () => {
    for (const [width, height] of glasses.filter(([wide]) => wide < 500 || wide === 740)) {
      await page.viewport(width, height);
      table = await aTable([['Wide', 8, 6]], { keySize });
      table.pass(1_000);
      await press(/^Filled/);
      await press(/^Open now/);
      await press(/^Mark bad/);
      const seen = new Set<string>();
      while (seen.size < 48) {
        const before = seen.size;
        await expect.element(key(/^Cavity/)).toBeVisible();
        await drawn();
        for (const { element, wide, high, name } of keysOn(document.body)) {
          if (!/^Cavity/.test(name)) continue;
          seen.add(element.querySelector('b')?.textContent ?? '');
          expect(Math.min(wide, high), name).toBeGreaterThanOrEqual(sizes[keySize] - 0.5);
        }
        expect(placeFaults(document.body)).toEqual([]);
        expect(seen.size).toBeGreaterThan(before);
        if (seen.size < 48) await press(/^Next part/);
      }
    }
  }, 60_000);
});
