import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { page } from 'vitest/browser';
import { tableOf } from '#calc/table.ts';
import { trayAfter } from '#calc/tray.ts';
import type { MouldId } from '#model/mould.ts';
import { allColumns } from '#store/history.ts';
import { endSession, entriesOf } from '#store/sessions.ts';
import { drawn } from '../../hands/drawn.ts';
import { aMould, pourEvening, seven, twoInjectors } from '../../hands/evening.ts';
import { Finger } from '../../hands/finger.ts';
import { keysOn, placeFaults } from '../../hands/glass.ts';
import { aTable, type LineUpOf, mainSays, type TestTable } from '../../hands/table.tsx';

let table: TestTable;
let atMs = 500_000;
const finger = new Finger(7);

const key = (name: RegExp) => page.getByRole('button', { name }).first();
const line = () => page.getByRole('status', { name: /^(\d+ tails?, next round|Load) / });

/** Presses a key as soon as it is there, a second after the last press. */
async function press(name: RegExp): Promise<void> {
  await expect.element(key(name)).toBeVisible();
  atMs += 1_000;
  table.pass(1_000);
  finger.down(key(name).element(), atMs);
  finger.lift(atMs + 60);
}

beforeEach(async () => {
  // A finger that no glass feels cannot be captured.
  vi.spyOn(Element.prototype, 'setPointerCapture').mockImplementation(() => {});
  await page.viewport(360, 740);
});
afterEach(() => vi.restoreAllMocks());

/** Mixes one more pot beside the others; the strip then says so. */
async function anotherPot(says: string): Promise<void> {
  await press(/^Pot:/);
  await press(/^Another pot/);
  await press(/^New colour/);
  await press(/^Mixed/);
  await expect.element(page.getByText(says)).toBeVisible();
}

let tailId: MouldId;

/** A mould of six tails, poured once before, and a body of four that takes one tail each. */
const tailsAndBody: LineUpOf = async (book) => {
  const tail = await aMould(book, 'Curl', { rows: 3, cols: 2 }, { makes: 'tail' });
  tailId = tail.id;
  const needs = [{ mouldId: tail.id, each: 1 }];
  const body = await aMould(book, 'Body 9', { rows: 2, cols: 2 }, { needs });
  await pourEvening(book, {
    fills: [{ mould: tail, gave: 'ggggsg' }],
    at: seven - 86_400_000,
  });
  return { mouldIds: [tail.id, body.id] };
};

describe('tails and bodies', () => {
  beforeEach(async () => {
    table = await aTable(tailsAndBody);
    table.pass(1_000);
  });

  test('the tray comes from the evenings before, and the line says what the next round takes', async () => {
    await expect.element(line()).toHaveAccessibleName('5 tails, next round needs 4');
    await mainSays(/^Filled Curl \+ Body 9: start 2 clocks$/);
  });

  test('checklist 26: a body takes its tails when it is filled; short of them it says so, and works all the same', async () => {
    await press(/^Log now, Body 9/);
    await expect.element(line()).toHaveAccessibleName('1 tail, next round needs 4');
    await press(/^All good, Body 9/);
    await press(/^Skip, Curl/);
    await mainSays(/^Filled Body 9: needs 4 tails, tray has 1$/);
    const { color } = getComputedStyle(line().element());
    expect(color).not.toBe(getComputedStyle(document.body).color);
    await press(/^Filled/);
    await mainSays(/^Setting/);
    await expect.element(line()).toHaveAccessibleName('0 tails, next round needs 4');
    await press(/^Undo/);
    await expect.element(line()).toHaveAccessibleName('1 tail, next round needs 4');
  });

  test('checklist 26: good tails go in, and Undo takes them out again', async () => {
    await press(/^Log now, Curl/);
    await press(/^All good, Curl/);
    await expect.element(line()).toHaveAccessibleName('11 tails, next round needs 4');
    await press(/^Undo/);
    await expect.element(line()).toHaveAccessibleName('5 tails, next round needs 4');
  });

  test('the tray is counted by steps, and what was counted holds', async () => {
    await press(/^Table/);
    await press(/^2 Body/);
    await press(/^Count tray/);
    await press(/^10 more/);
    await press(/^1 less/);
    await press(/^Log 14 tails/);
    await press(/^Table/);
    await expect.element(line()).toHaveAccessibleName('14 tails, next round needs 4');
    await press(/^Undo/);
    await expect.element(line()).toHaveAccessibleName('5 tails, next round needs 4');
  });

  test('came apart is offered for the body and not for the tail', async () => {
    await press(/^Log now, Body 9/);
    await press(/^Mark bad, Body 9/);
    await press(/^More/);
    await press(/^Came apart/);
    await press(/^Cavity 2/);
    await press(/^Save 3 good, 1 bad/);
    await expect
      .poll(async () => (await table.entries()).at(-1)?.said)
      .toMatchObject({ shots: [{ results: ['good', 'came-apart', 'good', 'good'] }] });
    await press(/^Log now, Curl/);
    await press(/^Mark bad, Curl/);
    await press(/^More/);
    await expect.element(key(/^Tail missed/)).toBeVisible();
    await expect.element(key(/^Came apart/)).not.toBeInTheDocument();
  });

  test('the evening takes the tray with it into the history', async () => {
    await press(/^Log now, Curl/);
    await press(/^All good, Curl/);
    await press(/^Log now, Body 9/);
    await expect.element(line()).toHaveAccessibleName('7 tails, next round needs 4');
    const { book } = table.shop;
    await endSession(book, table.sessionId, seven + 3_600_000);
    expect(trayAfter(await allColumns(book), tailId)).toBe(7);
  });
});

describe('a new mould on trial', () => {
  test('is said of its newest shot, once each; a press on the same word takes it back', async () => {
    table = await aTable(tailsAndBody);
    await press(/^Table/);
    await press(/^2 Body/);
    await press(/^Trial/);
    await expect.element(page.getByText('Fill it first, then say what it shows.')).toBeVisible();
    await press(/^Back/);
    await press(/^All moulds/);
    await press(/^Table/);
    await press(/^Log now, Body 9/);
    await press(/^Table/);
    await press(/^2 Body/);
    await press(/^Trial/);
    // One pot: there are no two sides that could come even.
    await expect.element(key(/^Even/)).not.toBeInTheDocument();
    await press(/^Fills$/);
    await press(/^Parts fail/);
    const tried = async () => {
      const { shots } = tableOf(await entriesOf(table.shop.book, table.sessionId));
      return shots[0]?.tried;
    };
    await expect.poll(tried).toEqual({ fills: true, parts: false });
    await press(/^Takes parts/);
    await expect.poll(tried).toEqual({ fills: true, parts: true });
    await expect.element(key(/^Takes parts/)).toHaveAttribute('aria-pressed', 'true');
    await expect.element(key(/^Fills$/)).toHaveAttribute('aria-pressed', 'true');
    await press(/^Fills$/);
    await expect.poll(tried).toEqual({ parts: true });
  });
});

describe('a hand pour in layers', () => {
  const cup: LineUpOf = async (book) => {
    const mould = await aMould(book, 'Cup 4', { rows: 2, cols: 2 }, { fill: 'by-hand' });
    return { mouldIds: [mould.id] };
  };

  beforeEach(async () => {
    table = await aTable(cup);
    table.pass(1_000);
    await anotherPot('waits');
    await anotherPot('+ 2 more');
  });

  test('goes pot by pot, each named on the main key, and the clock runs from the last', async () => {
    await mainSays(/^Filled Cup 4: layer 1, Pot 1$/);
    await press(/^Filled/);
    await mainSays(/^Layer 2 Pot 2: Cup 4$/);
    table.pass(42_000);
    await expect.element(page.getByText('+0:42')).toBeVisible();
    await press(/^Layer 2/);
    await mainSays(/^Layer 3 Pot 3: Cup 4$/);
    await press(/^Layer 3/);
    await mainSays(/^Setting/);
    await expect.element(page.getByText(/^2:5\d$|^3:00$/)).toBeVisible();
  });

  test('is undone layer by layer, ends with its last layer, and is offered again', async () => {
    await press(/^Filled/);
    await press(/^Layer 2/);
    await mainSays(/^Layer 3/);
    await press(/^Undo Layer/);
    await mainSays(/^Layer 2/);
    await press(/^Layer 2/);
    await press(/^Last layer, Cup 4/);
    await mainSays(/^Setting/);
    await press(/^Open now/);
    await press(/^All good/);
    await press(/^Filled/);
    await mainSays(/^Layer 2 Pot 2: Cup 4$/);
    // The gap of the shot before stands beside the count.
    await expect.element(page.getByText(/^, last 0:0\d$/)).toBeVisible();
    await press(/^Layer 2/);
    await mainSays(/^Setting/);
  });

  test('takes another pot in two presses', async () => {
    await press(/^Filled/);
    await mainSays(/^Layer 2 Pot 2/);
    await press(/^Pot:/);
    await press(/^C Pot 3/);
    await mainSays(/^Layer 2 Pot 3: Cup 4$/);
  });
});

describe('injectors and pots', () => {
  test('the load stands in one line, and another injector is two presses away', async () => {
    table = await aTable(
      async (book) => {
        const injectorId = (await twoInjectors(book)).id;
        const four = await aMould(book, 'Grub 50', { rows: 2, cols: 2 });
        const eight = await aMould(book, 'Shad 7', { rows: 4, cols: 2 });
        return { mouldIds: [four.id, eight.id], injectorId };
      },
      { volumeUnit: 'mL' },
    );
    // 4 and 8 baits of 9 mL with 1.5 mL of sprue each (method notes, section 5), and a tenth more.
    await expect.element(line()).toHaveAccessibleName('Load 139 mL: 2 times 118 mL');
    await press(/^Skip, Shad 7/);
    await expect.element(line()).toHaveAccessibleName('Load 46 mL: Short one is enough');
    await press(/^Table/);
    await press(/^Injector Short one/);
    await expect.element(line()).toHaveAccessibleName('Load 46 mL of 59 mL');
    const said = (await table.entries()).at(-1)?.said;
    expect(said).toMatchObject({ kind: 'injector-taken', injector: { name: 'Short one' } });
    await press(/^Put back, Shad 7/);
    await expect.element(line()).toHaveAccessibleName('Load 139 mL: 59 mL is too small');
    await mainSays(/^Filled Grub 50 \+ Shad 7/);
    await press(/^Filled/);
    await mainSays(/^Setting/);
  });

  test('a round is poured from another pot after two presses', async () => {
    table = await aTable([['Grub 50', 2, 2]]);
    await anotherPot('waits');
    await press(/^Pot: B/);
    await press(/^Pour next/);
    await expect.element(key(/^Pot: A/)).toHaveTextContent('waits');
    await press(/^Filled/);
    await mainSays(/^Setting/);
    const entries = await entriesOf(table.shop.book, table.sessionId);
    const { shots, pots } = tableOf(entries);
    expect(shots[0]?.potIds).toEqual([pots[1]?.id]);
  });
});

describe('every glass', () => {
  const glasses = [
    [320, 568],
    [360, 740],
    [393, 852],
    [412, 915],
    [740, 360],
    [915, 412],
    [768, 1024],
    [1024, 768],
  ] as const;
  const faults: string[] = [];

  async function look(state: string): Promise<void> {
    for (const [width, height] of glasses) {
      await page.viewport(width, height);
      await drawn();
      const where = `${width}x${height} ${state}`;
      for (const { name, wide, high } of keysOn(document.body)) {
        if (Math.min(wide, high) < 71.5) faults.push(`${where}: ${name} is ${wide} x ${high}`);
      }
      faults.push(...placeFaults(document.body).map((fault) => `${where}: ${fault}`));
      if (import.meta.env.VITE_SHOTS) {
        await page.screenshot({ path: `../../../tests/out/parts/${state}-${width}x${height}.png` });
      }
    }
    await page.viewport(360, 740);
  }

  test.each([1, 2, 3])(
    'holds the line, the panels and the layers with %i moulds',
    async (count) => {
      faults.length = 0;
      table = await aTable(async (book) => {
        const { mouldIds } = await tailsAndBody(book);
        const cup = await aMould(book, 'Cup 4', { rows: 2, cols: 2 }, { fill: 'by-hand' });
        const injectorId = (await twoInjectors(book)).id;
        return { mouldIds: [...mouldIds.slice(1), cup.id, tailId].slice(0, count), injectorId };
      });
      table.pass(1_000);
      const at = `${count}`;
      await look(`${at}-empty`);
      await press(/^Table/);
      await look(`${at}-table`);
      await press(/^1 Body/);
      await look(`${at}-mould`);
      await press(/^Count tray/);
      await look(`${at}-tray`);
      await press(/^Back/);
      await press(/^All moulds/);
      await press(/^Table/);
      await press(/^Pot:/);
      await press(/^Another pot/);
      await look(`${at}-another`);
      await press(/^New colour/);
      await press(/^Mixed/);
      await expect.element(page.getByText('waits')).toBeVisible();
      await look(`${at}-two pots`);
      await press(/^Pot: B/);
      await look(`${at}-pot`);
      await press(/^Another pot/);
      await press(/^New colour/);
      await press(/^Mixed/);
      await expect.element(page.getByText('+ 2 more')).toBeVisible();
      await look(`${at}-three pots`);
      await press(/^Pot:/);
      await look(`${at}-pots`);
      await press(/^About/);
      await look(`${at}-about`);
      await press(/^Pot:/);
      await press(/^Log now, Body 9/);
      await press(/^Table/);
      await press(/^1 Body/);
      await press(/^Trial/);
      await look(`${at}-trial`);
      await press(/^Table/);
      await press(/^All good, Body 9|^All good/);
      if (count > 1) {
        await press(/^Skip, Body 9/);
        if (count > 2) await press(/^Skip, Curl/);
        await mainSays(/^Filled Cup 4/);
        await press(/^Filled/);
        await mainSays(/^Layer 2/);
        await look(`${at}-layer`);
      }
      expect(faults).toEqual([]);
    },
    120_000,
  );
});
