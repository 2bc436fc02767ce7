import { describe, expect, test } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { countOf } from '#calc/tonight.ts';
import {
  type KeyWords,
  keyDown,
  pageDown,
  pageUp,
  stayDown,
  wornPress,
} from '../../hands/pedal.ts';
import { aTable, mainKey, mainSays, type TableMoulds, type TestTable } from '../../hands/table.tsx';

const one: TableMoulds = [['Grub 50', 2, 4]];
const two: TableMoulds = [...one, ['Shad 7', 2, 2]];

const minuteMs = 60_000;
/** Longer than any first guess of a set time. */
const setMs = 10 * minuteMs;

let atMs = 50_000;

/** A key comes down, a second after the last. */
function foot(words: KeyWords): KeyboardEvent {
  atMs += 1_000;
  return keyDown(words, atMs);
}

/** Lets a label settle, then presses the pedal for the main key. */
async function main(table: TestTable, says: RegExp): Promise<void> {
  await mainSays(says);
  table.pass(400);
  foot(pageDown);
}

const kinds = async (table: TestTable) => (await table.entries()).map(({ said }) => said.kind);
const number = (digit: string) => ({ key: digit, code: `Digit${digit}` });

test('a hundred presses of a worn pedal are fifty shots, filled and all good', async () => {
  const table = await aTable(one);
  for (let shot = 1; shot <= 50; shot += 1) {
    await mainSays(/^Filled Grub 50/);
    table.pass(400);
    atMs += 1_000;
    wornPress(pageDown, atMs);
    await mainSays(/^Setting/);
    table.pass(setMs);
    await mainSays(/^All good Grub 50/);
    table.pass(400);
    atMs += 1_000;
    wornPress(pageDown, atMs);
  }
  await mainSays(/^Filled/);
  const said = await kinds(table);
  expect(said).toEqual(Array.from({ length: 50 }, () => ['filled', 'opened']).flat());
  await expect.poll(() => table.heard).toEqual(said.map(() => 'logged'));
}, 60_000);

test('a press that comes again before the first is on disk counts once', async () => {
  const table = await aTable(two);
  await mainSays(/^Filled/);
  // Two pedals at once: neither bounces, and the label is still the old one.
  foot(pageDown);
  foot({ key: 'ArrowRight', code: 'ArrowRight' });
  foot({ key: 'Enter', code: 'Enter' });
  await mainSays(/^Setting/);
  expect(await kinds(table)).toEqual(['filled']);
  expect(table.heard.filter((sound) => sound === 'wrong way')).toHaveLength(2);
});

test('while everything sets, the pedal logs nothing and the low double says so', async () => {
  const table = await aTable(one);
  await main(table, /^Filled/);
  await main(table, /^Setting Grub 50 first/);
  expect(await kinds(table)).toEqual(['filled']);
  await expect.poll(() => table.heard).toEqual(['logged', 'wrong way']);
});

test('a label that changed less than 300 ms before still has its earlier meaning', async () => {
  const table = await aTable(two);
  await main(table, /^Filled Grub 50 \+ Shad 7/);
  await mainSays(/^Setting/);
  await page.getByRole('button', { name: 'Open now, Grub 50' }).click();
  await mainSays(/^All good Grub 50$/);
  table.pass(400);
  await page.getByRole('button', { name: 'Open now, Shad 7' }).click();
  await mainSays(/^All good Grub 50 \+ Shad 7$/);
  table.pass(299);
  foot(pageDown);
  await mainSays(/^All good Shad 7$/);
  const last = (await table.entries()).at(-1)?.said;
  expect(last?.kind === 'opened' && last.shots).toHaveLength(1);
});

describe('with the map open', () => {
  test('the pedal saves the marks, the other goes back and keeps them', async () => {
    const table = await aTable(two);
    await main(table, /^Filled/);
    await mainSays(/^Setting/);
    table.pass(setMs);
    await page.getByRole('button', { name: /^Mark bad, Grub/ }).click();
    await page.getByRole('button', { name: /^Cavity 3/ }).click();
    await mainSays(/^Save 7 good, 1 bad/);
    foot(pageUp);
    await mainSays(/^All good Grub 50 \+ Shad 7/);
    await expect.element(page.getByText('1 marked, not saved')).toBeInTheDocument();
    expect(await kinds(table)).toEqual(['filled']);
    await page.getByRole('button', { name: /^Mark bad, Grub/ }).click();
    await main(table, /^Save 7 good, 1 bad/);
    await mainSays(/^All good Shad 7/);
    expect(await kinds(table)).toEqual(['filled', 'opened']);
  });

  test('the number of that mould does not throw its marks away', async () => {
    const table = await aTable(two);
    await main(table, /^Filled/);
    await mainSays(/^Setting/);
    table.pass(setMs);
    await page.getByRole('button', { name: /^Mark bad, Grub/ }).click();
    await mainSays(/^Save 8 good/);
    foot(number('1'));
    expect(table.heard.at(-1)).toBe('wrong way');
    expect(await kinds(table)).toEqual(['filled']);
  });
});

describe('a pedal held on All good walks the map', () => {
  /** A foot comes down on the main key that says this. */
  async function down(table: TestTable, says: RegExp): Promise<void> {
    await mainSays(says);
    table.pass(400);
    atMs += 3_000;
    keyDown(pageDown, atMs);
  }

  /** To the open map of the first mould, its first cavity outlined. */
  async function atWalk(moulds: TableMoulds): Promise<TestTable> {
    const table = await aTable(moulds);
    table.pass(1_000);
    await main(table, /^Filled/);
    await mainSays(/^Setting/);
    table.pass(setMs);
    await down(table, /^All good/);
    await mainSays(/^Filled/);
    stayDown(pageDown, atMs);
    await mainSays(/^Next cavity 1 of/);
    return table;
  }

  /** Goes past one cavity, and marks it where the foot stays. */
  async function pass(table: TestTable, cavity: number, isBad = false): Promise<void> {
    await down(table, new RegExp(`^Next cavity ${cavity} of`));
    if (isBad) stayDown(pageDown, atMs);
  }

  const logged = async (table: TestTable) =>
    (await table.entries()).flatMap(({ said }) =>
      said.kind === 'opened' ? said.shots.map(({ results }) => results.join(' ')) : [],
    );

  test('two bad ones of eight are marked and saved with the glass untouched', async () => {
    const table = await atWalk(one);
    let touches = 0;
    const touched = () => {
      touches += 1;
    };
    document.addEventListener('pointerdown', touched, true);
    for (let cavity = 1; cavity <= 8; cavity += 1)
      await pass(table, cavity, [3, 7].includes(cavity));
    await down(table, /^Save 6 good, 2 bad/);
    await mainSays(/^Filled/);
    document.removeEventListener('pointerdown', touched, true);
    expect(touches).toBe(0);
    await expect.poll(() => kinds(table)).toEqual(['filled', 'opened', 'taken-back', 'opened']);
    expect((await logged(table)).at(-1)).toBe('good good short good good good short good');
  });

  test('the other pedal goes back, a second hold there gives the next reason, and at the first it is Back', async () => {
    const table = await atWalk(one);
    await pass(table, 1, true);
    await mainSays(/^Next cavity 2 of/);
    await expect.element(page.getByRole('button', { name: 'Cavity 1, Short' })).toBeVisible();
    foot(pageUp);
    await pass(table, 1, true);
    await expect.element(page.getByRole('button', { name: 'Cavity 1, Dent' })).toBeVisible();
    await mainSays(/^Next cavity 2 of/);
    foot(pageUp);
    await mainSays(/^Next cavity 1 of/);
    foot(pageUp);
    await mainSays(/^All good/);
    await expect.element(page.getByText('1 marked, not saved')).toBeInTheDocument();
  });

  test('of two moulds that were called good at once the first is walked, the other waits', async () => {
    const table = await atWalk(two);
    for (let cavity = 1; cavity <= 8; cavity += 1) await pass(table, cavity, cavity === 1);
    await down(table, /^Save 7 good, 1 bad/);
    await mainSays(/^All good Shad 7/);
    await expect
      .poll(async () => (await logged(table)).at(-1))
      .toBe('short good good good good good good good');
  });

  test('a finger takes over: the main key saves again', async () => {
    const table = await atWalk(one);
    await page.getByRole('button', { name: 'Cavity 5, good' }).click();
    await mainSays(/^Save 7 good, 1 bad/);
    expect(await logged(table)).toHaveLength(1);
  });

  test('held on Filled it does no more than a press', async () => {
    const table = await aTable(one);
    table.pass(1_000);
    await down(table, /^Filled/);
    await mainSays(/^Setting/);
    stayDown(pageDown, atMs);
    expect(await kinds(table)).toEqual(['filled']);
    await expect.poll(() => table.heard).toEqual(['logged']);
  });
});

describe('a pedal held on Undo goes through all keys', () => {
  const standsOn = () => document.querySelector('[data-outlined]');
  const outlined = () => standsOn()?.textContent ?? '';
  const goesTo = (words: RegExp) => expect.poll(outlined).toMatch(words);

  /** The foot of this pedal comes down. */
  function down(words: KeyWords): void {
    atMs += 3_000;
    keyDown(words, atMs);
  }

  /** Undo comes down on a table with one shot filled, and stays there. */
  async function atKeys(moulds: TableMoulds): Promise<TestTable> {
    const table = await aTable(moulds);
    table.pass(1_000);
    await main(table, /^Filled/);
    await mainSays(/^Setting/);
    down(pageUp);
    await mainSays(/^Filled/);
    stayDown(pageUp, atMs);
    await mainSays(/^Next key, hold to press/);
    await goesTo(/^Table/);
    return table;
  }

  /** On to the key that says this, then a foot that stays on it. */
  async function hold(words: RegExp): Promise<void> {
    // What a held foot brings back is on disk a moment later, and its keys with it.
    const keys = () => [...document.querySelectorAll('button')].map((key) => key.textContent ?? '');
    await expect.poll(() => keys().some((key) => words.test(key))).toBe(true);
    for (let step = 0; step < 40 && !words.test(outlined()); step += 1) {
      const before = standsOn();
      down(pageDown);
      await expect.poll(standsOn).not.toBe(before);
    }
    expect(outlined()).toMatch(words);
    down(pageDown);
    stayDown(pageDown, atMs);
  }

  test('what its press took back comes again, and a second hold ends it', async () => {
    const table = await atKeys(one);
    await expect.poll(() => kinds(table)).toEqual(['filled', 'taken-back', 'taken-back']);
    down(pageUp);
    await mainSays(/^Setting/);
    expect(standsOn()).toBeNull();
    // The same line can be taken back again.
    down(pageUp);
    await mainSays(/^Filled/);
  });

  test('with nothing to take back it begins all the same, and its second hold ends it', async () => {
    const table = await aTable(one);
    down(pageUp);
    stayDown(pageUp, atMs);
    await mainSays(/^Next key/);
    down(pageDown);
    await goesTo(/^(No pot|Pot)/);
    down(pageUp);
    await goesTo(/^Table/);
    down(pageDown);
    down(pageDown);
    down(pageUp);
    stayDown(pageUp, atMs);
    await mainSays(/^Filled/);
    expect(await kinds(table)).toEqual([]);
  });

  test('a mould is opened, marked and sits out, the pot is reheated and the session ends, the glass untouched', async () => {
    const table = await atKeys(two);
    let touches = 0;
    const touched = () => {
      touches += 1;
    };
    document.addEventListener('pointerdown', touched, true);
    await hold(/^Open now/);
    await expect.poll(async () => (await kinds(table)).at(-1)).toBe('clock-stopped');
    await hold(/^Mark bad/);
    await goesTo(/^Cavity 1,/);
    await hold(/^Cavity 3,/);
    await expect.element(page.getByRole('button', { name: 'Cavity 3, Short' })).toBeVisible();
    // The walk ends, and the main key saves what is marked.
    down(pageUp);
    stayDown(pageUp, atMs);
    await main(table, /^Save 7 good, 1 bad/);
    await mainSays(/^Filled Grub 50/);
    down(pageUp);
    await mainSays(/^All good Grub 50/);
    stayDown(pageUp, atMs);
    await mainSays(/^Next key/);
    await hold(/^Skip/);
    await expect.poll(async () => (await kinds(table)).at(-1)).toBe('skipped');
    await hold(/^Pot: /);
    await goesTo(/cups/);
    await hold(/^Reheated/);
    await expect.poll(async () => (await kinds(table)).at(-1)).toBe('pot-heated');
    await hold(/^Table/);
    await goesTo(/^1 Grub 50/);
    await hold(/^Finish/);
    document.removeEventListener('pointerdown', touched, true);
    expect(touches).toBe(0);
    await expect.poll(async () => (await table.shop.book.db.getAll('sealed')).length).toBe(1);
  });

  test('held with a map open it brings nothing again: its press was Back', async () => {
    const table = await aTable(one);
    table.pass(1_000);
    await main(table, /^Filled/);
    await mainSays(/^Setting/);
    table.pass(setMs);
    await mainSays(/^All good/);
    table.pass(400);
    down(pageDown);
    await mainSays(/^Filled/);
    // Held on All good, it is taken back and the map is walked.
    stayDown(pageDown, atMs);
    await mainSays(/^Next cavity 1 of/);
    down(pageUp);
    await mainSays(/^All good/);
    stayDown(pageUp, atMs);
    await mainSays(/^Next key/);
    down(pageUp);
    await mainSays(/^All good/);
    expect(await kinds(table)).toEqual(['filled', 'opened', 'taken-back']);
  });

  test('a finger takes over', async () => {
    await atKeys(one);
    await page.getByRole('button', { name: 'Wipe' }).click();
    expect(standsOn()).toBeNull();
  });
});

test('1, 2 and 3 log all good for that mould, and refuse one that is not open', async () => {
  const table = await aTable(two);
  foot(number('1'));
  await main(table, /^Filled/);
  await mainSays(/^Setting/);
  foot(number('2'));
  table.pass(setMs);
  await mainSays(/^All good Grub 50 \+ Shad 7/);
  foot(number('3'));
  await expect.poll(() => table.heard).toEqual(['wrong way', 'logged', 'wrong way', 'wrong way']);
  foot(number('2'));
  foot(number('2'));
  await mainSays(/^All good Grub 50$/);
  foot(number('1'));
  await mainSays(/^Filled/);
  const opened = (await table.entries()).flatMap(({ said }) =>
    said.kind === 'opened' ? [said.shots.map(({ results }) => results.length)] : [],
  );
  expect(opened).toEqual([[4], [8]]);
});

test('undo goes back press by press, and refuses when nothing is left', async () => {
  const table = await aTable(one);
  await main(table, /^Filled/);
  await mainSays(/^Setting/);
  table.pass(setMs);
  await main(table, /^All good/);
  await mainSays(/^Filled/);
  foot(pageUp);
  await mainSays(/^All good/);
  foot(pageUp);
  await mainSays(/^Filled/);
  await expect.element(page.getByRole('button', { name: 'Undo nothing yet' })).toBeVisible();
  foot(pageUp);
  expect(await kinds(table)).toEqual(['filled', 'opened', 'taken-back', 'taken-back']);
  await expect
    .poll(() => table.heard)
    .toEqual(['logged', 'logged', 'logged', 'logged', 'wrong way']);
});

test('two undos before the first is on disk take back one line', async () => {
  const table = await aTable(one);
  table.pass(400);
  for (let shot = 0; shot < 2; shot += 1) {
    await main(table, /^Filled/);
    await mainSays(/^Setting/);
    table.pass(setMs);
    await main(table, /^All good/);
  }
  await mainSays(/^Filled/);
  foot(pageUp);
  foot({ key: 'ArrowLeft', code: 'ArrowLeft' });
  await mainSays(/^All good/);
  expect((await kinds(table)).slice(4)).toEqual(['taken-back']);
  await expect.poll(() => table.heard.slice(4).toSorted()).toEqual(['logged', 'wrong way']);
});

test('a pedal that was learnt works, and Enter works after the glass was touched', async () => {
  const table = await aTable(one, {
    pedal: { press: ['KeyB'], undo: ['KeyA'] },
  });
  table.pass(400);
  foot({ key: 'b', code: 'KeyB' });
  await mainSays(/^Setting/);
  foot({ key: 'a', code: 'KeyA' });
  await mainSays(/^Filled/);
  await page.getByRole('button', { name: 'Skip, Grub 50' }).click();
  await page.getByRole('button', { name: 'Put back, Grub 50' }).click();
  await mainSays(/^Filled/);
  table.pass(400);
  // The key that was touched last has not kept the focus, or Enter would press it again.
  expect(document.activeElement).toBe(document.body);
  await userEvent.keyboard('{Enter}');
  await mainSays(/^Setting/);
  expect((await kinds(table)).at(-1)).toBe('filled');
});

test('by keyboard a key that was walked to is pressed by Enter, once, and by nothing else', async () => {
  const table = await aTable(one);
  await userEvent.keyboard('{Tab}');
  expect(document.activeElement?.textContent).toContain('Table');
  await userEvent.keyboard('{Enter}');
  await expect.element(page.getByRole('region', { name: 'Table' })).toBeVisible();
  await userEvent.keyboard(' ');
  expect(await kinds(table)).toEqual([]);
  // A touch anywhere ends the walk.
  await page.getByRole('button', { name: 'Wipe' }).click();
  expect(document.activeElement).toBe(document.body);
});

test('an evening of five rounds by pedal alone, the glass untouched', async () => {
  const table = await aTable(two);
  let touches = 0;
  const touched = () => {
    touches += 1;
  };
  document.addEventListener('pointerdown', touched, true);
  for (let round = 1; round <= 5; round += 1) {
    await main(table, /^Filled Grub 50 \+ Shad 7/);
    await mainSays(/^Setting/);
    // A foot that is too early.
    if (round === 2) await main(table, /^Setting/);
    table.pass(setMs);
    if (round === 3) {
      await mainSays(/^All good Grub 50 \+ Shad 7/);
      foot(number('2'));
      await main(table, /^All good Grub 50$/);
    } else {
      await main(table, /^All good Grub 50 \+ Shad 7/);
    }
    await mainSays(/^Filled/);
    // A press too many, and its undo.
    if (round === 4) {
      await main(table, /^Filled/);
      await mainSays(/^Setting/);
      foot(pageUp);
    }
    await mainSays(/^Filled/);
    table.pass(minuteMs);
  }
  document.removeEventListener('pointerdown', touched, true);
  expect(touches).toBe(0);
  const logged = (await table.entries()).flatMap(({ said }) =>
    said.kind === 'opened' ? said.shots.flatMap(({ results }) => results) : [],
  );
  expect(countOf(logged)).toMatchObject({
    good: 5 * (8 + 4),
    bad: 0,
    notChecked: 0,
  });
  await expect.element(page.getByText('60 good', { exact: true })).toBeVisible();
  expect(mainKey().getAttribute('aria-label')).toMatch(/^Filled/);
});
