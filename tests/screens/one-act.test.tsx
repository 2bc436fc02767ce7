import { describe, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import { IdeasScreen } from '#screens/colours/IdeasScreen.tsx';
import type { Route } from '#screens/routes.ts';
import { useOneAct } from '#screens/use-one-act.ts';
import { headsOf } from '#store/heads.ts';
import { drawn } from '../hands/drawn.ts';
import { aShop, show } from '../hands/show.tsx';

/** Two keys of one part; what they begin ends when it is told to, with a route, nothing or an error. */
async function twoKeys() {
  const begun: string[] = [];
  const ends: { done: (route?: Route) => void; failed: () => void }[] = [];
  function Part() {
    const { act, trouble } = useOneAct();
    const press = (key: string) =>
      void act(() => {
        begun.push(key);
        return new Promise((resolve, reject) => {
          ends.push({ done: (route) => resolve(route ?? null), failed: () => reject(new Error()) });
        });
      }, key);
    return (
      <>
        <button type="button" onClick={() => press('one')}>
          one
        </button>
        <button type="button" onClick={() => press('two')}>
          two
        </button>
        <p>{trouble}</p>
      </>
    );
  }
  show(await aShop(), <Part />);
  const press = (key: string) => page.getByRole('button', { name: key }).click();
  return { begun, ends, press };
}

describe('a key that writes', () => {
  test('pressed again before it is done writes once, and afterwards again', async () => {
    const { begun, ends, press } = await twoKeys();
    await press('one');
    await press('one');
    expect(begun).toEqual(['one']);
    ends[0]?.done();
    await drawn();
    await press('one');
    expect(begun).toEqual(['one', 'one']);
  });

  test('beside one that is being written has its turn, also when that one fails', async () => {
    const { begun, ends, press } = await twoKeys();
    await press('one');
    await press('two');
    expect(begun).toEqual(['one']);
    ends[0]?.failed();
    await expect.element(page.getByText(/^Not saved[.]/)).toBeVisible();
    expect(begun).toEqual(['one', 'two']);
    ends[1]?.done();
    await expect.element(page.getByText(/^Not saved[.]/)).not.toBeInTheDocument();
  });

  test('that leads away has done its work: what was pressed after it is not done', async () => {
    const { begun, ends, press } = await twoKeys();
    await press('one');
    await press('two');
    ends[0]?.done({ at: 'colours' });
    await expect.poll(() => window.location.hash).toBe('#/colours');
    expect(begun).toEqual(['one']);
  });

  test('leads nobody away who has gone elsewhere meanwhile; what was pressed is done all the same', async () => {
    const { begun, ends, press } = await twoKeys();
    await press('one');
    await press('two');
    window.location.hash = '#/moulds';
    show(await aShop(), <p>The moulds</p>);
    ends[0]?.done();
    await expect.poll(() => begun).toEqual(['one', 'two']);
    ends[1]?.done({ at: 'colours' });
    await drawn();
    expect(window.location.hash).toBe('#/moulds');
  });
});

test('what is typed while an idea is being written is the next idea', async () => {
  const shop = await aShop();
  show(shop, <IdeasScreen />);
  const field = page.getByLabelText('An idea');
  await field.fill('Two tails');
  const add = page.getByRole('button', { name: 'Add the idea' }).element() as HTMLElement;
  const input = field.element() as HTMLInputElement;
  // All in one turn: nothing can be on disk before the next letters come.
  add.click();
  input.value = 'A paler one';
  input.dispatchEvent(new InputEvent('input', { bubbles: true }));
  await expect.poll(async () => (await headsOf(shop.book, 'ideas')).length).toBe(1);
  await expect.element(page.getByText('Two tails')).toBeVisible();
  await drawn();
  await expect.element(field).toHaveValue('A paler one');
  await page.getByRole('button', { name: 'Add the idea' }).click();
  await expect
    .poll(async () => (await headsOf(shop.book, 'ideas')).map(({ text }) => text))
    .toEqual(['Two tails', 'A paler one']);
  await expect.element(field).toHaveValue('');
});
