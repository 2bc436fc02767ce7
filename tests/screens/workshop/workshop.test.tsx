import { beforeEach, describe, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import { cautions, whoDecides } from '#screens/cautions.ts';
import { WorkshopScreen } from '#screens/workshop/WorkshopScreen.tsx';
import { addHead, headOf, headsOf, setDeleted } from '#store/heads.ts';
import { changeSettings, type SettingsFacts, settingsOf } from '#store/settings.ts';
import { aColourway, aMould, morning, pourEvening, seven } from '../../hands/evening.ts';
import { fillDevice } from '../../hands/full-device.ts';
import { fillShop } from '../../hands/full-shop.ts';
import { aShop, show, type TestShop } from '../../hands/show.tsx';
import { expectWithin } from '../../hands/within.ts';

let shop: TestShop;

beforeEach(async () => {
  shop = await aShop();
});

const key = (name: string | RegExp) => page.getByRole('button', { name, exact: true });
const group = (name: string) => page.getByRole('group', { name, exact: true });
const settings = () => settingsOf(shop.book);

async function open(first: Partial<SettingsFacts> = {}) {
  await changeSettings(shop.book, first, seven);
  show(shop, <WorkshopScreen />);
  await expect.element(page.getByRole('heading', { level: 1 })).toHaveTextContent('Workshop');
  await page.getByText('What a session begins with').click();
}

async function press(name: string, times: number) {
  for (let press = 0; press < times; press += 1) await key(name).click();
}

describe('what is saved', () => {
  test('is counted: ended sessions, and the one that runs', async () => {
    const mould = await aMould(shop.book, 'Shad 7');
    const fills = ['gggg', 'gsgg', 'gggg'].map((gave) => ({ mould, gave }));
    await pourEvening(shop.book, { fills, at: seven - 86_400_000 });
    await pourEvening(shop.book, { fills: fills.slice(1) });
    await open();
    await expect.element(page.getByText('Saved on this phone: 2 sessions, 5 shots.')).toBeVisible();
    await pourEvening(shop.book, {
      fills: [{ mould, gave: null }],
      at: morning,
      endMin: null,
    });
    await expect.element(page.getByText('Saved on this phone: 3 sessions, 6 shots.')).toBeVisible();
  });

  test('of the demo shop has no second copy, and says why', async () => {
    shop.leaveDemo = () => {};
    await open();
    await expect.element(page.getByText('Made-up numbers need no second copy')).toBeVisible();
    await expect.element(page.getByText('is being looked at')).not.toBeInTheDocument();
  });

  test('of an empty shop is nothing', async () => {
    await open();
    await expect.element(page.getByText('Saved on this phone: 0 sessions, 0 shots.')).toBeVisible();
  });
});

test('the cautions are always here', async () => {
  await open({ cautionsReadAt: seven });
  for (const line of [...cautions, whoDecides]) {
    await expect.element(page.getByText(line)).toBeVisible();
  }
});

describe('the table', () => {
  test('changes its light and the side of its main key', async () => {
    await open();
    await key('Use Lamp').click();
    await expect.element(key('Use Chalk')).toBeVisible();
    await key('Swap sides').click();
    await expect.element(page.getByText('Main key on the left.')).toBeVisible();
    expect(await settings()).toMatchObject({ palette: 'lamp', mainKeySide: 'left' });
  });

  test('has no limit for heats until the person sets one, and never calls one safe', async () => {
    await open();
    const limit = group('Your limit for heats');
    await expect.element(limit).toHaveTextContent('noneno limit of your own');
    await press('One heat more', 2);
    await expect.element(limit).toHaveTextContent('2heats of one pot');
    expect((await settings()).heatLimit).toBe(2);
    await press('One heat less', 4);
    await expect.element(limit).toHaveTextContent('none');
    expect((await settings()).heatLimit).toBeNull();
    await expect
      .element(page.getByText(/It never stops you and does not say what is safe\.$/))
      .toBeVisible();
  });

  test('loses no step, however fast a key is pressed', async () => {
    await open();
    for (let press = 0; press < 5; press += 1) {
      (key('1 degree more').element() as HTMLElement).click();
    }
    await expect.element(group('Shop temperature')).toHaveTextContent('25 °C');
  });

  test('says so when a change could not be stored', async () => {
    await open();
    const giveRoom = fillDevice();
    await key('Use Lamp').click();
    await expect
      .element(page.getByRole('alert'))
      .toHaveTextContent('Not saved. Free some space and press again.');
    giveRoom();
  });

  test.each([
    [{ heatLimit: 50 }, 'One heat more', 'Your limit for heats', '50the most'],
    [{ ambientC: 60 }, '1 degree more', 'Shop temperature', '60 °Cthe most'],
    [{ ambientC: -40 }, '1 degree less', 'Shop temperature', '-40 °Cthe least'],
    [{ pourC: 250 }, '5 degrees more', 'Pour temperature', '250 °Cthe most'],
    [{ pourC: 100 }, '5 degrees less', 'Pour temperature', '100 °Cthe least'],
  ])('%j stops at %s and says so', async (first, name, label, words) => {
    await open(first);
    await press(name, 2);
    await expect.element(group(label)).toHaveTextContent(words);
    expect(await settings()).toMatchObject(first);
  });

  test('steps in the person’s own units, whole degrees of Fahrenheit and ounces', async () => {
    await open({ tempUnit: 'F', volumeUnit: 'floz' });
    // 20 °C are 68 °F, 165 °C are 329 °F, two cups are 16 fl oz.
    await press('1 degree more', 2);
    await expect.element(group('Shop temperature')).toHaveTextContent('70 °F');
    await press('5 degrees less', 1);
    await expect.element(group('Pour temperature')).toHaveTextContent('324 °F');
    await press('1 fl oz more', 1);
    await expect.element(group('A new mix')).toHaveTextContent('17 fl oz');
    const { ambientC, pourC, potMl } = await settings();
    expectWithin(ambientC, 21.111, 0.001);
    expectWithin(pourC, 162.222, 0.001);
    expectWithin(potMl, 502.75, 0.01);
  });
});

describe('the shop', () => {
  test('is counted, with ways to add to it', async () => {
    await aMould(shop.book, 'Shad 7');
    await aMould(shop.book, 'Grub 50');
    await aColourway(shop.book, 'Peat', '#5b4029');
    await open();
    await expect.element(page.getByText('2 moulds', { exact: true })).toBeVisible();
    await expect.element(page.getByText('1 colour', { exact: true })).toBeVisible();
    await expect.element(page.getByText('0 injectors', { exact: true })).toBeVisible();
    for (const [name, href] of [
      ['Add a mould', '#/mould-facts/new'],
      ['Add a colour', '#/colour-facts/new'],
      ['Add an injector', '#/injector-facts/new'],
    ] as const) {
      await expect.element(page.getByRole('link', { name })).toHaveAttribute('href', href);
    }
  });

  test('names every injector with its facts, in the unit that is chosen', async () => {
    const facts = { name: 'Long <one>', capacityMl: 118.294, boreMm: 38, isTwin: true };
    const { id } = await addHead(shop.book, 'injectors', facts, seven);
    await open();
    await expect.element(page.getByText('½ cup, bore 38 mm, twin')).toBeVisible();
    await key('fl oz').click();
    await expect.element(page.getByText('4 fl oz, bore 38 mm, twin')).toBeVisible();
    const inches = group('Lengths').getByRole('button', { name: 'inches' });
    await expect.element(inches).toHaveAttribute('aria-pressed', 'false');
    await inches.click();
    await expect.element(inches).toHaveAttribute('aria-pressed', 'true');
    expect((await settings()).lengthUnit).toBe('in');
    await expect
      .element(page.getByRole('link', { name: 'Change Long <one>' }))
      .toHaveAttribute('href', `#/injector-facts/${id}`);
    await key('°F').click();
    await expect.poll(settings).toMatchObject({ volumeUnit: 'floz', tempUnit: 'F' });
  });

  test('brings back what was taken off, of every kind', async () => {
    const mould = await aMould(shop.book, 'Shad 7');
    const colourway = await aColourway(shop.book, 'Peat', '#5b4029');
    const facts = { name: 'Long one', capacityMl: 118, boreMm: null, isTwin: false };
    const injector = await addHead(shop.book, 'injectors', facts, seven);
    await setDeleted(shop.book, 'moulds', mould.id, seven, seven);
    await setDeleted(shop.book, 'colourways', colourway.id, seven, seven);
    await setDeleted(shop.book, 'injectors', injector.id, seven, seven);
    await open();
    for (const name of ['Shad 7', 'Peat', 'Long one']) await key(`Bring back ${name}`).click();
    await expect
      .element(page.getByRole('heading', { name: 'Taken off the list' }))
      .not.toBeInTheDocument();
    expect(await headsOf(shop.book, 'moulds')).toHaveLength(1);
    expect(await headsOf(shop.book, 'colourways')).toHaveLength(1);
    expect(await headsOf(shop.book, 'injectors')).toHaveLength(1);
  });

  test('checklist 32: a note, an idea, a photo and a nameless mix can be brought back for 30 days', async () => {
    await fillShop(shop.book, false);
    const [mix] = await headsOf(shop.book, 'mixes');
    if (!mix) throw new Error('The shop has no mix.');
    const { version, baseMl, sides, nextTime } = mix;
    const nameless = { colourwayId: null, version, baseMl, sides, nextTime };
    const small = [
      ...(await headsOf(shop.book, 'remarks')).map(({ id }) => ['remarks', id] as const),
      ...(await headsOf(shop.book, 'ideas')).map(({ id }) => ['ideas', id] as const),
      ...(await headsOf(shop.book, 'photos')).map(({ id }) => ['photos', id] as const),
      ['mixes', (await addHead(shop.book, 'mixes', nameless, seven)).id] as const,
    ];
    for (const [kind, id] of small) await setDeleted(shop.book, kind, id, seven, seven);
    const names = [/^Bring back Swims well/, /^Bring back Two tails/, /^Bring back Ink\/rust, /];

    shop.set(seven + 29 * 86_400_000);
    await open();
    for (const name of [...names, /^Bring back Mixed /]) await key(name).click();
    for (const [kind, id] of small) {
      await expect.poll(async () => (await headOf(shop.book, kind, id))?.deletedAt).toBeNull();
    }
  });

  test('checklist 32: after 30 days only what has a list of its own is left there', async () => {
    await fillShop(shop.book, false);
    for (const { id } of await headsOf(shop.book, 'remarks')) {
      await setDeleted(shop.book, 'remarks', id, seven, seven);
    }
    shop.set(seven + 31 * 86_400_000);
    await open();
    await expect.element(page.getByRole('heading', { name: 'Taken off the list' })).toBeVisible();
    expect(key(/^Bring back/).elements()).toHaveLength(1);
  });
});

test('the version is the one of the app', async () => {
  await open();
  await expect.element(page.getByText('Warmshot 1.2.3')).toBeVisible();
});
