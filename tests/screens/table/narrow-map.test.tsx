import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { page } from 'vitest/browser';
import { drawn } from '../../hands/drawn.ts';
import { Finger } from '../../hands/finger.ts';
import { keysOn, placeFaults } from '../../hands/glass.ts';
import { aTable, type TableMoulds, type TestTable } from '../../hands/table.tsx';

const leastPx = 72;
const three = [2, 5, 8];

let table: TestTable;
let atMs = 900_000;
const finger = new Finger(7);
const key = (name: RegExp) => page.getByRole('button', { name }).first();

beforeEach(async () => {
  // A finger that no glass feels cannot be captured.
  vi.spyOn(Element.prototype, 'setPointerCapture').mockImplementation(() => {});
  await page.viewport(360, 740);
});
afterEach(() => vi.restoreAllMocks());

/** Presses a key as soon as it is there, a second after the last press. */
async function press(name: RegExp): Promise<void> {
  await expect.element(key(name)).toBeVisible();
  atMs += 1_000;
  table.pass(1_000);
  finger.down(key(name).element(), atMs);
  finger.lift(atMs + 60);
}

/** A press without a finger, long after the last one. */
function click(on: HTMLElement | undefined): void {
  atMs += 1_000;
  const event = new MouseEvent('click', { bubbles: true });
  Object.defineProperty(event, 'timeStamp', { value: atMs });
  on?.dispatchEvent(event);
}

/** The keys that lead to the parts of a map: one for each, or one that walks on; none where the map is whole. */
function partKeys(): { parts: number; keys: HTMLElement[] } {
  const group = document.querySelector('[aria-label="Part of the mould"]');
  if (!group) return { parts: 1, keys: [] };
  const keys = [...group.querySelectorAll<HTMLElement>('button')];
  const told = /of (\d+)/.exec(group.querySelector('[role="status"]')?.textContent ?? '')?.[1];
  return told ? { parts: Number(told), keys: keys.slice(-1) } : { parts: keys.length, keys };
}

/** What is wrong with the map that is open, part by part, on the glass as it is. */
async function faultsOfMap(where: string, cavities: number): Promise<string[]> {
  await drawn();
  const faults: string[] = [];
  const seen: number[] = [];
  const perPart: number[] = [];
  const { parts } = partKeys();
  for (let part = 0; part < parts; part += 1) {
    const { keys } = partKeys();
    click(keys.length > 1 ? keys[part] : keys[0]);
    await drawn();
    const cells = keysOn(document.body).filter(
      ({ name, element }) => name.startsWith('Cavity ') && !element.closest('article'),
    );
    for (const { name, wide, high } of cells) {
      if (wide < leastPx - 0.5 || high < leastPx - 0.5) {
        faults.push(`${where}: ${name} is ${wide} x ${high}`);
      }
    }
    seen.push(...cells.map(({ name }) => Number(/\d+/.exec(name)?.[0])));
    perPart.push(cells.length);
    // Each part lies on the same lines: the first and the last are looked at closely.
    if (part > 0 && part < parts - 1) continue;
    faults.push(...placeFaults(document.body).map((fault) => `${where}: ${fault}`));
  }
  const all = Array.from({ length: cavities }, (_, index) => index + 1);
  if (JSON.stringify(seen.sort((a, b) => a - b)) !== JSON.stringify(all)) {
    faults.push(`${where}: of ${cavities} cavities it shows ${seen.join(' ')}`);
  }
  // Equal parts: none is larger than the first, whose keys stand where those of the others do.
  if (perPart.some((count) => count > Math.max(perPart[0] ?? 0, perPart.at(-1) ?? 0))) {
    faults.push(`${where}: parts of ${perPart.join(', ')}`);
  }
  return faults;
}

describe('checklist 9: in the narrow card of three moulds on a tablet', () => {
  test.each([1, 2, 3, 4, 5, 6])(
    'the map of a mould of %i rows is whole or in equal parts, no cell under 72 px',
    async (rows) => {
      const faults: string[] = [];
      const moulds: TableMoulds = three.map((cols) => [`Wide ${cols}`, rows, cols] as const);
      table = await aTable(moulds);
      table.pass(1_000);
      await press(/^Filled/);
      for (const cols of three) {
        await page.viewport(360, 740);
        await press(new RegExp(`^Open now, Wide ${cols}`));
        await press(new RegExp(`^Mark bad, Wide ${cols}`));
        await expect.element(key(/^Cavity \d/)).toBeVisible();
        await page.viewport(1024, 768);
        faults.push(...(await faultsOfMap(`${rows} x ${cols} of three`, rows * cols)));
        await page.viewport(360, 740);
        await press(/^Back/);
      }
      expect(faults).toEqual([]);
    },
  );
});
