import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { page } from 'vitest/browser';
import type { MixSide } from '#model/mix.ts';
import { keepMix } from '#store/mixes.ts';
import { drawn } from '../../hands/drawn.ts';
import { aColourway, seven } from '../../hands/evening.ts';
import { Finger } from '../../hands/finger.ts';
import { isOfTheBar, keysOn, type PaintedKey, placeFaults } from '../../hands/glass.ts';
import { aDose, aMaterial, aSide, cupMl } from '../../hands/mixes.ts';
import { aTable } from '../../hands/table.tsx';

const glasses = [
  [360, 740],
  [740, 360],
  [320, 568],
] as const;
/** Three keys of 112 px abreast do not fit a glass of 360; the stepper has 96 on every one. */
const leastPx = { usual: 72, large: 96, largest: 96 } as const;
const finger = new Finger(9);
let atMs = 900_000;

const key = (name: RegExp | string) => page.getByRole('button', { name }).first();

async function press(name: RegExp | string): Promise<void> {
  await expect.element(key(name)).toBeVisible();
  atMs += 1_000;
  finger.down(key(name).element(), atMs);
  finger.lift(atMs + 60);
}

beforeEach(() => {
  vi.spyOn(Element.prototype, 'setPointerCapture').mockImplementation(() => {});
});
afterEach(() => vi.restoreAllMocks());

/** What is cut, too small or off the glass, on every glass. */
async function look(
  state: string,
  keySize: keyof typeof leastPx,
  has = (_key: PaintedKey) => true,
): Promise<string[]> {
  const found: string[] = [];
  for (const [width, height] of glasses) {
    await page.viewport(width, height);
    await drawn();
    const where = `${width}x${height} ${keySize} ${state}`;
    // The smallest glass has room for the usual keys only.
    const least = width === 320 ? 72 : leastPx[keySize];
    for (const one of keysOn(document.body).filter(has)) {
      const isSmall = one.wide < least - 0.5 || one.high < least - 0.5;
      if (!isOfTheBar(one) && isSmall) found.push(`${where}: ${one.name} ${one.wide}x${one.high}`);
    }
    found.push(...placeFaults(document.body).map((fault) => `${where}: ${fault}`));
    for (const line of document.querySelectorAll('section p, section li')) {
      if (line.scrollWidth > line.clientWidth + 1)
        found.push(`${where}: ${line.textContent} is cut`);
    }
  }
  await page.viewport(360, 740);
  return found;
}

test.for(['usual', 'large', 'largest'] as const)(
  'with %s keys the panels of a mix keep their words and keys on the narrow glasses',
  { timeout: 90_000 },
  async (keySize) => {
    await page.viewport(360, 740);
    const table = await aTable([['Grub 50', 2, 4]], { keySize });
    const { book } = table.shop;
    const black = await aMaterial(book, 'Black');
    for (let number = 1; number <= 5; number++) {
      await aMaterial(book, `Flake ${number}`, { kind: 'flake', unit: 'g' });
    }
    await aMaterial(book, 'Medium plastisol', { kind: 'plastisol' });
    await aMaterial(book, 'Soft plastisol of mine', { kind: 'plastisol' });
    const names = ['Chartreuse pearl', 'Black', 'Gold', 'Green flake', 'Salt'];
    const doses = names.map((name, index) =>
      aDose(black.id, 1.14 + index, index < 3 ? 'drop' : 'tsp', { name }),
    );
    const write = async (name: string, swatches: string[], sides: MixSide[]) => {
      const { id } = await aColourway(book, name, ...swatches);
      await keepMix(book, id, { baseMl: cupMl, sides, nextTime: '' }, seven);
    };
    const tail = aSide(doses.slice(0, 1), { role: 'tail', name: 'Tail' });
    await write('Peat brown', ['#5b4029'], [aSide(doses), tail]);
    await write(
      'Ink and rust',
      ['#1c2733', '#8a3b1d'],
      [
        aSide(doses, { role: 'a', name: 'Ink' }),
        aSide(doses.slice(1, 3), { role: 'b', name: 'Rust' }),
      ],
    );
    table.pass(1_000);
    const found: string[] = [];
    const open = async () => {
      await press(/^Pot:/);
      await press(/^New mix/);
    };
    await open();
    await press(/^Peat brown, mix/);
    await expect.element(page.getByText(/rounded/)).toBeVisible();
    await expect.element(key('Tail pot')).toBeVisible();
    found.push(...(await look('doses', keySize)));
    await press(/^Pot:/);
    await open();
    await press(/^Ink and rust, mix/);
    await expect.element(page.getByText(/rounded/)).toBeVisible();
    found.push(...(await look('two sides', keySize)));
    // Two cups of so little want more plastisol, which is said on one line of every glass.
    for (let cup = 0; cup < 3; cup++) await press('¼ cup less');
    await expect.element(page.getByText(/^Too small: .* at least$/)).toBeVisible();
    found.push(...(await look('too small', keySize)));
    await press('Change');
    await expect.element(key('Side B')).toBeVisible();
    found.push(...(await look('change', keySize)));
    await press(/^Pot:/);
    await open();
    await press(/^New colour/);
    await press(/^Plastisol/);
    for (let drops = 0; drops < 40; drops++) await press(/^Black /);
    await expect.element(page.getByRole('status').filter({ hasText: '× usual' })).toBeVisible();
    found.push(...(await look('make', keySize)));
    await press(/^Pot:/);
    await open();
    await press(/^Peat brown, mix/);
    await press(/^Mixed/);
    await press(/^Pot: Peat/);
    await expect.element(key(/Count drops$/)).toBeVisible();
    found.push(...(await look('pot of drops', keySize)));
    await press(/Count drops$/);
    await expect.element(key('Undo a drop')).toBeVisible();
    found.push(...(await look('drops', keySize)));
    // Beside other pots it has a key more: they stay as large.
    await press('Back');
    await press(/^Another pot/);
    await press(/^Peat brown, mix/);
    await press(/^Mixed/);
    await press(/^Pot: A/);
    await expect.element(key(/Count drops$/)).toBeVisible();
    await expect.element(key(/^Pour both/)).toBeVisible();
    // The strip over it holds four keys then, and is no wider than the glass.
    const isBelow = ({ element }: PaintedKey) => element.closest('header') === null;
    found.push(...(await look('a pot of drops beside another', keySize, isBelow)));
    expect(found).toEqual([]);
  },
);
