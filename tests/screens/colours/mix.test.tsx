import { beforeEach, describe, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import { plastisolGPerMl } from '#calc/pot-course.ts';
import type { Colourway } from '#model/gear.ts';
import type { Material } from '#model/material.ts';
import type { Mix } from '#model/mix.ts';
import { ColourScreen } from '#screens/colours/ColourScreen.tsx';
import { ColoursScreen } from '#screens/colours/ColoursScreen.tsx';
import { MixFactsScreen } from '#screens/colours/MixFactsScreen.tsx';
import { NamelessScreen } from '#screens/colours/NamelessScreen.tsx';
import { MouldScreen } from '#screens/moulds/MouldScreen.tsx';
import { BaitCostScreen } from '#screens/shelf/BaitCostScreen.tsx';
import { freshId } from '#store/book.ts';
import { changeHead, headsOf } from '#store/heads.ts';
import { keepImprovised } from '#store/improvised.ts';
import { keepMix, versionsOf } from '#store/mixes.ts';
import { changeSettings } from '#store/settings.ts';
import { moveStock } from '#store/stock.ts';
import { aColourway, aMould, morning, pourEvening, seven } from '../../hands/evening.ts';
import { faults, isNoWider } from '../../hands/faults.ts';
import { aDose, aDraft, aMaterial, aSide, cupMl } from '../../hands/mixes.ts';
import { aShop, show, type TestShop } from '../../hands/show.tsx';

let shop: TestShop;
let peat: Colourway;
let brown: Material;
let black: Material;
let flake: Material;
let plastisol: Material;

beforeEach(async () => {
  await page.viewport(360, 740);
  shop = await aShop();
  const { book } = shop;
  peat = await aColourway(book, 'Peat brown', '#5b4029');
  plastisol = await aMaterial(book, 'Medium plastisol', {
    kind: 'plastisol',
    package: { qty: 1_000, cents: 1_060 },
  });
  brown = await aMaterial(book, 'Brown', { package: { qty: 30, cents: 600 }, swatch: '#5b4029' });
  black = await aMaterial(book, 'Black', { package: { qty: 30, cents: 600 } });
  flake = await aMaterial(book, 'Green flake', {
    kind: 'flake',
    unit: 'g',
    package: { qty: 60, cents: 720 },
    flake: { acrossMm: 0.889, cut: 'hex' },
    swatch: '#2f7d3b',
  });
});

const key = (name: string | RegExp) => page.getByRole('button', { name });
const text = (words: string | RegExp) => page.getByText(words);
const field = (name: string | RegExp) => page.getByRole('textbox', { name, exact: true });
const choice = (name: string) => page.getByRole('combobox', { name, exact: true });

/** 11.6 drops, 2.9 drops and 1.45 teaspoons a cup: row D05 of methods-colour-plan. */
const doses = () => [
  aDose(brown.id, 11.6, 'drop', { name: 'Brown' }),
  aDose(black.id, 2.9, 'drop', { name: 'Black' }),
  aDose(flake.id, 1.45, 'tsp', { name: 'Green flake' }),
];
async function written(): Promise<Mix> {
  const sides = [aSide(doses(), { plastisolId: plastisol.id })];
  return await keepMix(shop.book, peat.id, { baseMl: cupMl, sides, nextTime: '' }, seven);
}

describe('the page of a colour', () => {
  test('shows drops in fives, spoons, flake in inch and mm, and how each was rounded', async () => {
    await written();
    const root = show(shop, <ColourScreen colourwayId={peat.id} />);
    await expect.element(page.getByRole('heading', { level: 1 })).toHaveTextContent('Peat brown 1');
    await expect.element(text('take 245 mL')).toBeVisible();
    await expect
      .element(text('Rounded up from 11.6 drops, right in this much plastisol.'))
      .toBeVisible();
    await expect.element(text('.035 in, 0.89 mm hex')).toBeVisible();
    const drops = root.querySelector('[aria-label="12 drops of Brown"]');
    expect(drops?.querySelectorAll('circle')).toHaveLength(12);
    const spoons = root.querySelector('[aria-label="1½ tsp of Green flake"]');
    expect([...(spoons?.querySelectorAll('text') ?? [])].map((one) => one.textContent)).toEqual([
      '1',
      '½',
    ]);
    // One hexagon is as wide between its flats as the flake: 0.889 mm at 96 px an inch.
    const piece = root.querySelector('[aria-label^="Flake of"] polygon');
    const corners = (piece?.getAttribute('points') ?? '')
      .split(' ')
      .map((pair) => pair.split(',').map(Number) as [number, number]);
    const [a = [0, 0], , , b = [0, 0]] = corners;
    const across = Math.hypot(a[0] - b[0], a[1] - b[1]) * Math.cos(Math.PI / 6);
    const coarse = window.matchMedia('(pointer: coarse)').matches;
    expect(across).toBeCloseTo((0.889 * (coarse ? 160 : 96)) / 25.4, 1);
  });

  test('grows by the stepper, and pinned lines do not', async () => {
    const sides = [
      aSide([
        aDose(brown.id, 12, 'drop', { name: 'Brown' }),
        aDose(black.id, 3, 'drop', { name: 'Black', isPinned: true }),
      ]),
    ];
    await keepMix(shop.book, peat.id, { baseMl: cupMl, sides, nextTime: '' }, seven);
    show(shop, <ColourScreen colourwayId={peat.id} />);
    await expect.element(text('12 drops')).toBeVisible();
    for (let quarter = 0; quarter < 4; quarter++) await key('¼ cup more').click();
    await expect.element(text('24 drops')).toBeVisible();
    await expect.element(text('3 drops')).toBeVisible();
    await expect.element(text('Pinned: the same in any volume.')).toBeVisible();
  });

  test('tells how many shots there are in what one has, and takes shots for an answer', async () => {
    // 9 x 6 + 10 = 64 mL a shot, 25 mL stays behind: row L11 of methods-colour-plan.
    const changes = { partMl: 9, sprueMl: 10 };
    await aMould(shop.book, 'Grub 50', { rows: 2, cols: 3 }, changes);
    await written();
    show(shop, <ColourScreen colourwayId={peat.id} />);
    await field(/^I have/).fill('217 mL');
    await expect.element(text(/^217 mL is 3 shots of Grub 50/)).toBeVisible();
    await field(/^I have/).fill('216.9');
    await expect.element(text(/216.9|Write 140 mL/)).toBeVisible();
    await field(/^I have/).fill('12 shots');
    await expect.element(text(/^793 mL is 12 shots of Grub 50/)).toBeVisible();
    await field(/^I have/).fill('1 1/2 cups');
    await expect.element(text(/^355 mL is 5 shots of Grub 50/)).toBeVisible();
    // 217 mL of the 1 g to the mL that the shop reckons with, weighed.
    await field(/^I have/).fill(`${217 * plastisolGPerMl} g`);
    await expect.element(text(/^217 mL is 3 shots of Grub 50/)).toBeVisible();
    await field(/^I have/).fill('1 1/2 cups');
    await expect.element(text(/^355 mL is 5 shots of Grub 50/)).toBeVisible();
    await field(/^I have/).fill('a handful');
    await expect.element(page.getByRole('alert')).toHaveTextContent('Write 140 mL');
    await expect.element(text(/^355 mL is 5 shots/)).toBeVisible();
  });

  test('costs what is in it, the cup and the bait', async () => {
    await aMould(shop.book, 'Grub 50', { rows: 2, cols: 3 }, { partMl: 9, sprueMl: 10 });
    const cost = [aDose(black.id, 20, 'drop', { name: 'Black' })];
    const sides = [aSide(cost, { plastisolId: plastisol.id })];
    await keepMix(shop.book, peat.id, { baseMl: 1_000, sides, nextTime: '' }, seven);
    await changeSettings(shop.book, { volumeUnit: 'mL' }, seven);
    show(shop, <ColourScreen colourwayId={peat.id} />);
    // By hand: 1,000 mL for 10.60 and 20 drops of 0.05 mL at 0.20 the mL: 10.80. A bait is 9 mL and a
    // sixth of 10 mL of sprue at half its worth: (9 + 10 / 2 / 6) x 0.0108 = 0.106.
    await expect.element(text('1000 mL cost 10.80. A bait of Grub 50 costs 0.106.')).toBeVisible();
    // A litre more for 31.80: 21.20 a litre on average, and 0.0214 a mL.
    const bought = { kind: 'bought', qty: 1_000, cents: 1_060, lot: '' } as const;
    const written = { at: seven - 2, writtenAt: seven, note: '' };
    await moveStock(shop.book, plastisol.id, bought, written);
    const dearer = { ...bought, cents: 3_180 };
    await moveStock(shop.book, plastisol.id, dearer, { ...written, at: seven - 1 });
    await expect.element(text('1000 mL cost 21.40. A bait of Grub 50 costs 0.210.')).toBeVisible();
  });

  test('a bait costs the same here as on the shelf', async () => {
    const mould = await aMould(shop.book, 'Grub 50', { rows: 2, cols: 3 }, { partMl: 9 });
    const fills = ['gggggg', 'ggggss'].map((gave) => ({ mould, gave }));
    await pourEvening(shop.book, { fills, colourway: peat, endMin: 60 });
    const cost = [aDose(black.id, 20, 'drop', { name: 'Black' })];
    const sides = [aSide(cost, { plastisolId: plastisol.id })];
    await keepMix(shop.book, peat.id, { baseMl: 1_000, sides, nextTime: '' }, seven);
    await changeSettings(shop.book, { hourCents: 500 }, seven);
    show(shop, <BaitCostScreen />);
    const bait = page.getByText(/^\d\.\d{3}$/).first();
    await expect.element(bait).toBeVisible();
    const says = bait.element().textContent;
    show(shop, <ColourScreen colourwayId={peat.id} />);
    await expect.element(text(`A bait of Grub 50 costs ${says}.`)).toBeVisible();
  });

  test('warns by one line when a dose is five times the usual, and of a pot too small', async () => {
    const other = await aColourway(shop.book, 'Moss', '#5f8f4e');
    await keepMix(shop.book, other.id, aDraft([[black, 3]]), seven);
    await keepMix(shop.book, peat.id, aDraft([[black, 30]]), seven);
    show(shop, <ColourScreen colourwayId={peat.id} />);
    await expect.element(text('Black: 10 times what you usually take.')).toBeVisible();
    await keepMix(shop.book, peat.id, aDraft([[black, 0.5]]), seven + 1_000);
    await expect
      .element(text('Too small a pot for these doses: make at least 1¾ cups.'))
      .toBeVisible();
    await expect.element(text(/what you usually take/)).not.toBeInTheDocument();
  });

  test('shows a laminate as two halves with A on the left, each with its own doses', async () => {
    const pair = await aColourway(shop.book, 'Ink/rust', '#1c2733', '#8a3b1d');
    const sides = [
      aSide([aDose(black.id, 9, 'drop', { name: 'Black' })], { role: 'a', name: 'Ink' }),
      aSide([aDose(brown.id, 4, 'drop', { name: 'Brown' })], { role: 'b', name: 'Rust' }),
    ];
    await keepMix(shop.book, pair.id, { baseMl: cupMl, sides, nextTime: '' }, seven);
    show(shop, <ColourScreen colourwayId={pair.id} />);
    const half = (name: string) => page.getByRole('region', { name }).element();
    await expect.element(page.getByRole('region', { name: 'Side A' })).toBeVisible();
    expect(half('Side A').textContent).toContain('9 drops');
    expect(half('Side B').textContent).toContain('4 drops');
    expect(half('Side A').getBoundingClientRect().right).toBeLessThanOrEqual(
      half('Side B').getBoundingClientRect().left + 0.5,
    );
  });

  test('lists its versions with what is otherwise, and the sessions that poured each', async () => {
    const mould = await aMould(shop.book, 'Grub 50');
    await keepMix(shop.book, peat.id, aDraft([[black, 3]]), seven - 100_000);
    const session = await pourEvening(shop.book, {
      colourway: peat,
      fills: [{ mould, gave: 'gggg' }],
    });
    await keepMix(
      shop.book,
      peat.id,
      aDraft([
        [black, 2],
        [brown, 6],
      ]),
      seven + 86_400_000,
    );
    const root = show(shop, <ColourScreen colourwayId={peat.id} />);
    await expect
      .element(text('Black 2 drops instead of 3 drops. Brown added, 6 drops.'))
      .toBeVisible();
    const link = page.getByRole('link', { name: 'Tue 24 Nov' });
    await expect.element(link).toHaveAttribute('href', `#/session/${session}`);
    await key('Show Peat brown 1').click();
    await expect.element(page.getByRole('heading', { level: 1 })).toHaveTextContent('Peat brown 1');
    expect(root.textContent).toContain('poured 1 time, last Tue 24 Nov');
  });

  test('takes notes of three kinds and lets them go again', async () => {
    await written();
    show(shop, <ColourScreen colourwayId={peat.id} />);
    await key('After curing').click();
    await field('Note').fill('Went darker.');
    await key('Add the note').click();
    shop.set(morning + 60_000);
    await key('In the water').click();
    await field('Note').fill('Perch took it.');
    await key('Add the note').click();
    await expect.element(text('In the water, Wed 25 Nov')).toBeVisible();
    expect(
      (await headsOf(shop.book, 'remarks')).map(({ kind, text: says }) => [kind, says]),
    ).toEqual([
      ['cure', 'Went darker.'],
      ['water', 'Perch took it.'],
    ]);
    await key('Take off: Perch took it.').click();
    const water = page.getByText('Perch took it.', { exact: true });
    await expect.element(water).not.toBeInTheDocument();
    await key('Bring back: Perch took it.').click();
    await expect.element(water).toBeVisible();
    expect((await headsOf(shop.book, 'remarks')).length).toBe(2);
  });
});

describe('a note in the water', () => {
  test('names a mould that the colour went into, and stands on both pages', async () => {
    await written();
    const grub = await aMould(shop.book, 'Grub 50');
    const shad = await aMould(shop.book, 'Shad 70');
    await aMould(shop.book, 'Worm 90');
    await pourEvening(shop.book, { colourway: peat, fills: [{ mould: grub, gave: 'gggg' }] });
    const root = show(shop, <ColourScreen colourwayId={peat.id} />);
    await expect.element(key('Add the note')).toBeVisible();
    // Only what was at the lake came out of a mould that matters.
    expect(key('Grub 50').query()).toBeNull();
    await key('In the water').click();
    const offered = page.getByRole('group', { name: 'Out of which mould' });
    await expect.element(offered).toHaveTextContent(/^Grub 50$/);
    await offered.getByRole('button', { name: 'Grub 50' }).click();
    await field('Note').fill('Perch took it.');
    await key('Add the note').click();
    await expect.element(text('In the water, Wed 25 Nov, Grub 50')).toBeVisible();
    expect(await faults(root)).toEqual([]);
    // The next one names none unless it is said again, and a press on the same word takes it back.
    await expect.element(offered.getByRole('button')).toHaveAttribute('aria-pressed', 'false');
    await offered.getByRole('button').dblClick();
    shop.set(morning + 60_000);
    await field('Note').fill('Rolls at speed.');
    await key('Add the note').click();
    await expect.element(text('Rolls at speed.')).toBeVisible();
    const said = (await headsOf(shop.book, 'remarks')).map((one) => [one.text, one.mouldId]);
    expect(said).toEqual([
      ['Perch took it.', grub.id],
      ['Rolls at speed.', null],
    ]);
    const mouldPage = show(shop, <MouldScreen mouldId={grub.id} />);
    await expect.element(page.getByRole('heading', { name: 'Notes on its baits' })).toBeVisible();
    expect(mouldPage.textContent).toContain('In the water, Wed 25 NovPerch took it.');
    expect(mouldPage.textContent).not.toContain('Rolls at speed.');
    await expect
      .element(page.getByRole('link', { name: 'Peat brown' }))
      .toHaveAttribute('href', `#/colour/${peat.id}`);
    expect(await faults(mouldPage)).toEqual([]);
    expect(isNoWider()).toBe(true);
    show(shop, <MouldScreen mouldId={shad.id} />);
    await expect.element(page.getByRole('heading', { name: 'Shad 70' })).toBeVisible();
    await expect.element(text('Notes on its baits')).not.toBeInTheDocument();
  });
});

describe('where the doses are written', () => {
  const save = async () => {
    await key('Save the doses').click();
    await expect.poll(() => window.location.hash).toBe(`#/colour/${peat.id}`);
  };

  test('a first mix is written from the shelf, with steps and by hand', async () => {
    show(shop, <MixFactsScreen colourwayId={peat.id} />);
    await choice('Add').selectOptions('Black');
    await field('Black').fill('2.5');
    await choice('Add').selectOptions('Green flake');
    await key('+ Green flake').click();
    await key('Pin Green flake').click();
    await choice('Plastisol').selectOptions('Medium plastisol');
    await save();
    const [mix] = await versionsOf(shop.book, peat.id);
    expect(mix).toMatchObject({
      version: 1,
      sides: [
        {
          role: 'only',
          plastisolId: plastisol.id,
          doses: [
            { name: 'Black', amount: 2.5, unit: 'drop', isPinned: false },
            { name: 'Green flake', amount: 0.25, unit: 'tsp', isPinned: true },
          ],
        },
      ],
    });
  });

  test('by per cent it is kept as the exact grams, of the plastisol that the doses are for', async () => {
    await changeHead(shop.book, 'materials', plastisol.id, { densityGPerMl: 1.1 }, seven);
    show(shop, <MixFactsScreen colourwayId={peat.id} />);
    await choice('Plastisol').selectOptions('Medium plastisol');
    await choice('Add').selectOptions('Black');
    await page
      .getByRole('group', { name: 'Unit of Black' })
      .getByRole('button', { name: '%' })
      .click();
    await field('Black').fill('2.5 %');
    // Two cups are 473.176473 mL (NIST Handbook 44), 520.494 g at 1.1 g/mL; 2.5 % of that are 13.012 g.
    await expect.element(text('2.5 % of 520.5 g of plastisol is 13 g.')).toBeVisible();
    await key('+ Black').click();
    await expect.element(field('Black')).toHaveValue('3 %');
    await save();
    const [mix] = await versionsOf(shop.book, peat.id);
    const [dose] = mix?.sides[0]?.doses ?? [];
    expect(dose?.unit).toBe('g');
    expect(dose?.amount).toBeCloseTo(0.03 * 2 * 236.5882365 * 1.1, 9);
  });

  test('old plastic in a side is told, and said where the version is', async () => {
    await keepMix(
      shop.book,
      peat.id,
      { baseMl: cupMl, sides: [aSide(doses())], nextTime: '' },
      seven,
    );
    show(shop, <MixFactsScreen colourwayId={peat.id} />);
    await key('Old plastic goes in').click();
    await expect.element(text(/^Its colour is not known here/)).toBeVisible();
    await save();
    const [mix] = await versionsOf(shop.book, peat.id);
    expect(mix?.sides[0]?.hasRemelt).toBe(true);
  });

  test('a material that is not on the shelf yet is made by its name and what it is', async () => {
    shop = await aShop();
    peat = await aColourway(shop.book, 'Peat brown', '#5b4029');
    show(shop, <MixFactsScreen colourwayId={peat.id} />);
    await key('Colourant: add').click();
    await expect.element(page.getByRole('alert')).toHaveTextContent('Give it a name.');
    await field('Something new').fill('Cherry');
    await key('Colourant: add').click();
    await expect.element(field('Cherry')).toHaveValue('1');
    await save();
    const [cherry] = await headsOf(shop.book, 'materials');
    expect(cherry).toMatchObject({ name: 'Cherry', kind: 'colourant', unit: 'mL' });
    const [mix] = await versionsOf(shop.book, peat.id);
    expect(mix?.sides[0]?.doses[0]?.materialId).toBe(cherry?.id);
  });

  test('a poured version stays; the next one begins with its note', async () => {
    const mould = await aMould(shop.book, 'Grub 50');
    const first = aDraft([[black, 3]]);
    await keepMix(shop.book, peat.id, { ...first, nextTime: 'One drop less.' }, seven - 100_000);
    await pourEvening(shop.book, { colourway: peat, fills: [{ mould, gave: 'gggg' }] });
    show(shop, <MixFactsScreen colourwayId={peat.id} />);
    await expect.element(text('You noted: One drop less.')).toBeVisible();
    await expect.element(text('Peat brown 1 was poured: this makes 2')).toBeVisible();
    await key('− Black').click();
    await field('Next time').fill('');
    await save();
    const all = await versionsOf(shop.book, peat.id);
    expect(
      all.map(({ version, nextTime, sides }) => [version, nextTime, sides[0]?.doses[0]?.amount]),
    ).toEqual([
      [2, '', 2],
      [1, 'One drop less.', 3],
    ]);
  });

  test('what is no amount is refused beside it, and nothing is lost', async () => {
    await written();
    show(shop, <MixFactsScreen colourwayId={peat.id} />);
    await field('Black').fill('some');
    await field('Brown').fill('7');
    await key('Save the doses').click();
    await expect
      .element(field('Black'))
      .toHaveAccessibleDescription(/Write a number above 0, such as 12, 1 1\/2 or 3 %\.$/);
    await expect.element(field('Brown')).toHaveValue('7');
    expect(await versionsOf(shop.book, peat.id)).toMatchObject([{ version: 1 }]);
  });

  test('a first mix begins in the only plastisol, and a colourant that is a powder by spoons', async () => {
    await aMaterial(shop.book, 'Pearl powder', { unit: 'g' });
    show(shop, <MixFactsScreen colourwayId={peat.id} />);
    await expect.element(choice('Plastisol')).toHaveValue(plastisol.id);
    await choice('Add').selectOptions('Pearl powder');
    await choice('Add').selectOptions('Brown');
    await save();
    const [mix] = await versionsOf(shop.book, peat.id);
    const [side] = mix?.sides ?? [];
    expect(side?.plastisolId).toBe(plastisol.id);
    expect(side?.doses.map(({ amount, unit }) => [amount, unit])).toEqual([
      [0.125, 'tsp'],
      [1, 'drop'],
    ]);
  });

  test('a core and a tail are sides of their own', async () => {
    await written();
    show(shop, <MixFactsScreen colourwayId={peat.id} />);
    await key('Add a tail').click();
    await choice('Add to Tail').selectOptions('Brown');
    await save();
    const [mix] = await versionsOf(shop.book, peat.id);
    expect(mix?.sides.map(({ role, doses: own }) => [role, own.length])).toEqual([
      ['only', 3],
      ['tail', 1],
    ]);
  });
});

describe('a mix without a name', () => {
  test('waits on the wall and becomes a colour when it is named', async () => {
    const mixId = freshId<Mix['id']>(seven);
    await keepImprovised(shop.book, mixId, aDraft([[black, 7]]), seven);
    show(shop, <ColoursScreen />);
    await expect
      .element(page.getByRole('link', { name: /^Made up Tue 24 Nov/ }))
      .toHaveAttribute('href', `#/nameless/${mixId}`);
    show(shop, <NamelessScreen mixId={mixId} />);
    await key('Keep it as a colour').click();
    await expect.element(page.getByRole('alert')).toHaveTextContent('Give it a name.');
    await field('Name').fill('Mud');
    await key('Keep it as a colour').click();
    await expect.poll(() => window.location.hash).toMatch(/^#\/colour\//);
    const mud = (await headsOf(shop.book, 'colourways')).find(({ name }) => name === 'Mud');
    expect(mud && (await versionsOf(shop.book, mud.id))).toMatchObject([{ id: mixId }]);
  });
});

test('no fault that axe knows, in either palette, and nothing wider than 320 px', async () => {
  await page.viewport(320, 568);
  await aMould(shop.book, 'Grub 50');
  const pair = await aColourway(shop.book, 'Chartreuse pearl over ink', '#d7e04a', '#1c2733');
  const long = 'Aquickbrownfoxjumpsoverthelazydogwithoutasinglespaceanywhere';
  const name = await aMaterial(shop.book, long);
  const sides = [
    aSide([...doses(), aDose(name.id, 40, 'drop', { name: long })], { role: 'a', name: 'Ink' }),
    aSide(doses(), { role: 'b', name: long }),
    aSide(doses(), { role: 'tail', name: 'Tail' }),
  ];
  await keepMix(shop.book, pair.id, { baseMl: cupMl, sides, nextTime: long }, seven);
  const mixId = freshId<Mix['id']>(seven);
  await keepImprovised(shop.book, mixId, aDraft([[name, 7]]), seven);
  const screens = [
    <ColourScreen key="colour" colourwayId={pair.id} />,
    <ColourScreen key="none" colourwayId={peat.id} />,
    <MixFactsScreen key="facts" colourwayId={pair.id} />,
    <NamelessScreen key="nameless" mixId={mixId} />,
    <ColoursScreen key="wall" />,
  ];
  for (const screen of screens) {
    const root = show(shop, screen);
    await expect.element(page.getByRole('heading', { level: 1 })).toBeVisible();
    for (const palette of ['chalk', 'lamp']) {
      document.documentElement.dataset.theme = palette;
      expect(await faults(root), String(screen.key)).toEqual([]);
    }
    document.documentElement.dataset.theme = 'chalk';
    expect(isNoWider(), String(screen.key)).toBe(true);
    for (const one of root.querySelectorAll('button, a, input, select, textarea, summary')) {
      const { width, height } = one.getBoundingClientRect();
      expect(Math.min(width, height), one.outerHTML.slice(0, 120)).toBeGreaterThanOrEqual(48);
    }
  }
});
