import { beforeEach, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import { drawn } from '../../hands/drawn.ts';
import { aColourway, aMould } from '../../hands/evening.ts';
import { glasses, placeFaults } from '../../hands/glass.ts';
import { aTable, type LineUpOf } from '../../hands/table.tsx';

const key = (name: RegExp) => page.getByRole('button', { name }).first();

beforeEach(async () => {
  await page.viewport(360, 740);
});

/** A table of one mould; the pots of its first colour are mixed. */
function pouring(name: string, ...swatches: string[]): LineUpOf {
  return async (book) => {
    const mould = await aMould(book, 'Grub 50', { rows: 2, cols: 2 });
    const { id } = await aColourway(book, name, ...swatches);
    return { mouldIds: [mould.id], colourwayId: id };
  };
}

/** The element that holds the name on a key. */
const nameOn = (name: RegExp) =>
  [...key(name).element().querySelectorAll('span')].find(
    (span) => getComputedStyle(span).overflow === 'hidden' && !span.classList.contains('said'),
  );

/** The name as it is painted on a key. */
const shownOn = (name: RegExp) => nameOn(name)?.textContent ?? 'none';

async function at(width: number, height: number): Promise<void> {
  await page.viewport(width, height);
  await drawn();
}

test('the names of two pots are whole wherever their keys have the room, on two lines if need be', async () => {
  await aTable(pouring('Peat brown', '#5b4029', '#8a3b1d'));
  for (const [width, height] of [
    [412, 915],
    [768, 1024],
  ] as const) {
    await page.viewport(width, height);
    await expect.poll(() => shownOn(/^Pot: A/)).toBe('A Peat brown A');
    expect(shownOn(/^Pot: B/)).toBe('B Peat brown B');
  }
});

test('a name that does not fit keeps its beginning and its end, and a screen reader hears it whole', async () => {
  const name = 'Chartreuse pearl with a blue back and a gold flake';
  await aTable(pouring(name, '#c8d400'));
  await expect.poll(() => shownOn(/^Pot:/)).toMatch(/^Char.*….*e$/);
  await expect.element(key(/^Pot:/)).toHaveAccessibleName(new RegExp(`….+ ${name}`));
  // Back on a glass with the room it is whole again.
  await page.viewport(768, 1024);
  await expect.poll(() => shownOn(/^Pot:/)).toBe(name);
  expect(key(/^Pot:/).element().textContent).not.toContain(`${name} ${name}`);
  for (const [width, height] of glasses) {
    await at(width, height);
    const box = nameOn(/^Pot:/);
    expect(box?.scrollWidth, `${width}x${height}`).toBe(box?.clientWidth);
    expect(placeFaults(document.body), `${width}x${height}`).toEqual([]);
  }
});

test('of three pots every name is whole on its key, on a phone in the hand and on a stand', async () => {
  await aTable(pouring('Peat brown', '#5b4029', '#8a3b1d'));
  await key(/^Pot: A/).click();
  await key(/^Another pot/).click();
  await key(/^New colour/).click();
  await key(/^Mixed/).click();
  await expect.element(page.getByText('+ 2 more')).toBeVisible();
  await key(/^Pot:/).click();
  for (const [width, height] of [
    [360, 740],
    [740, 360],
  ] as const) {
    await page.viewport(width, height);
    await expect.poll(() => shownOn(/^A Peat brown A, pour next/)).toBe('A Peat brown A');
    expect(shownOn(/^About/)).toBe('About Peat brown A');
  }
});

test('of three moulds a name is whole on its card on a stand, and a long one is cut before the state beside it', async () => {
  await aTable([
    ['Grub 50', 2, 2],
    ['Leaf tail', 2, 2],
    ['A mould with a rather long name', 2, 2],
  ]);
  const names = () =>
    [...document.querySelectorAll('article h2')].map(
      (heading) => heading.querySelector('span')?.textContent ?? '',
    );
  await page.viewport(740, 360);
  await expect.poll(() => names().slice(0, 2)).toEqual(['Grub 50', 'Leaf tail']);
  await page.viewport(360, 740);
  await expect.poll(() => names()[2]).toMatch(/^A mou.*….*e$/);
  for (const card of document.querySelectorAll('article')) {
    const name = card.querySelector('h2 span span')?.getBoundingClientRect();
    const state = card.querySelector('[data-blocks]')?.getBoundingClientRect();
    expect(name?.right ?? 999).toBeLessThanOrEqual(state?.left ?? 0);
  }
});

test('of three moulds on a stand each card that is open says its whole name', async () => {
  await page.viewport(740, 360);
  const table = await aTable([
    ['Grub 50', 2, 4],
    ['Shad 7', 2, 2],
    ['Leaf tail', 6, 2],
  ]);
  table.pass(1_000);
  await key(/^Filled/).click();
  for (const name of ['Grub 50', 'Shad 7']) {
    await key(new RegExp(`^Open now, ${name}`)).click();
    const card = page.getByRole('article', { name: new RegExp(name) });
    await expect.element(card.getByText('OPEN')).toBeVisible();
    await drawn();
    expect(card.element().textContent).toContain(name);
    expect(card.element().textContent).not.toContain('…');
  }
});
