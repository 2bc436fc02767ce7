import { beforeAll, describe, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import type { Mould } from '#model/mould.ts';
import { MouldScreen } from '#screens/moulds/MouldScreen.tsx';
import { MouldsScreen } from '#screens/moulds/MouldsScreen.tsx';
import { fillDemo } from '#store/demo.ts';
import { headsOf } from '#store/heads.ts';
import { aShop, show, type TestShop } from '../../hands/show.tsx';

/*
 * The outside truth of these tests is what was planted in the demo shop: demo/truths.ts, in the
 * words of demo/README.md.
 */
let shop: TestShop;
let moulds: Mould[];

beforeAll(async () => {
  shop = await aShop();
  const bytes = await (await fetch('/demo-shop.bin')).arrayBuffer();
  await fillDemo(shop.book, bytes, { at: shop.clock.now(), zone: 'Europe/Berlin' });
  moulds = await headsOf(shop.book, 'moulds');
});

const key = (name: string | RegExp) => page.getByRole('button', { name });
const says = (words: string | RegExp) => expect.element(page.getByText(words)).toBeVisible();
function open(name: string): HTMLElement {
  const mould = moulds.find((each) => each.name === name);
  if (!mould) throw new Error(`There is no ${name}.`);
  return show(shop, <MouldScreen mouldId={mould.id} />);
}

const unfold = () => page.getByText('What bad ones go with').click();

/** Every claim that a page could make and that was not planted for every mould. */
const claims = /fails more|more in cavit|It helped|got worse|Something changed/;

describe('Grub 50', () => {
  test('the opened vent helped cavity 6, and no cavity stands out since', async () => {
    await page.viewport(360, 740);
    open('Grub 50');
    await says('Did opening the vent help?');
    await says('It helped');
    await says(/^Cavity 6: 40 of 103 short before, 6 of 124 after\./);
    await says(/^Better by \d+ points more than the others\./);
    await says(/^(All cavities look alike|No cavity stands out)/);
    await says(/^Counted since the last mending: cavity 6 from /);
  });

  test('taken back, the choked cavity is found, and comes with its next steps', async () => {
    open('Grub 50');
    await key('Take it back: Vent opened, cavity 6').click();
    await says('Cavity 6 fails more than its neighbours.');
    await says(
      /Bad in 51 of the 108 shots that tell cavities apart\. By luck alone we'd expect 20 or 21\./,
    );
    await says('Short: more in cavity 6 than in its neighbours');
    await expect.element(key('Close off 6')).toBeVisible();
    await page.getByRole('button', { name: 'Vent opened, cavity 6', exact: true }).click();
    await expect
      .element(page.getByRole('button', { name: 'Cavity 6', exact: true }))
      .toHaveAttribute('aria-pressed', 'true');
    await key('Leave it').click();
    await key('Bring back: Vent opened, cavity 6').click();
    await says('It helped');
  });
});

describe('the wall', () => {
  test('names the cavity that stands out, and after its vent was opened none', async () => {
    const root = show(shop, <MouldsScreen />);
    await says('227 shots so far');
    expect(root.textContent).not.toContain('fails more');
    open('Grub 50');
    await key('Take it back: Vent opened, cavity 6').click();
    await expect.element(key('Bring back: Vent opened, cavity 6')).toBeVisible();
    show(shop, <MouldsScreen />);
    await says(/^Cavity 6 fails more than its neighbours: \d+ bad of \d+$/);
    open('Grub 50');
    await key('Bring back: Vent opened, cavity 6').click();
    await says('It helped');
  });
});

describe('every mould', () => {
  test.each([
    ['Grub 50', 'Good from shot 3.'],
    ['Shad 7', 'Good from shot 3.'],
    ['Leaf tail', 'Good from shot 3.'],
    ['Reed stick 90', 'Good from shot 3.'],
    ['Bank craw 60', 'Good from shot 3.'],
    ['Fin insert', 'Good from shot 3.'],
    ['Toad 45', 'Good from shot 1.'],
  ])('%s: %s', async (name, words) => {
    open(name);
    await says(words);
  });

  test.each(['Shad 7', 'Leaf tail', 'Reed stick 90', 'Bank craw 60', 'Toad 45', 'Fin insert'])(
    '%s claims nothing that was not planted',
    async (name) => {
      const root = open(name);
      await unfold();
      await says('To go with something is not to be caused by it.');
      await expect.poll(() => root.textContent).toMatch(/Running as usual|Too few bad ones/);
      expect(root.textContent).not.toMatch(claims);
    },
  );

  test('shows dents by time shut as a picture with its table, and claims no more than 10 dents allow', async () => {
    open('Grub 50');
    const picture = page.getByRole('img', {
      name: /^Dents of 100 baits by time shut: under 1:30, /,
    });
    await expect.element(picture).toBeVisible();
    await says(/^Too early to tell whether dents go with time shut\. \d of 10 dents that count\./);
    const sheet = page.getByRole('heading', { name: 'Time shut and dents' });
    await expect.element(sheet).toBeVisible();
  });

  test('shorts go with a colder mould where it is of aluminium', async () => {
    open('Leaf tail');
    await unfold();
    await says('Short fills go with a colder mould.');
    const root = open('Toad 45');
    await unfold();
    await says('No sign that short fills go with anything noted.');
    expect(root.textContent).not.toContain('colder mould.');
  });
});
