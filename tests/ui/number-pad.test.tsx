import { render } from 'preact';
import { useState } from 'preact/hooks';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { NumberPad } from '#ui/NumberPad.tsx';
import '#styles/base.css';
import '#styles/tokens.css';
import { faults } from '../hands/faults.ts';

let isFinger = true;

beforeEach(() => {
  isFinger = true;
  vi.spyOn(window, 'matchMedia').mockImplementation(
    (query) => ({ matches: query.includes('coarse') && isFinger, media: query }) as MediaQueryList,
  );
});

afterEach(() => {
  render(null, document.body);
  vi.restoreAllMocks();
});

function Form() {
  const [price, setPrice] = useState('');
  return (
    <main>
      <h1>Form</h1>
      <label>
        Price
        <input
          inputMode="decimal"
          value={price}
          onInput={({ currentTarget }) => setPrice(currentTarget.value)}
        />
      </label>
      <label>
        Name <input />
      </label>
      <p>Costs {price || 'nothing'}</p>
      <NumberPad />
    </main>
  );
}

const pad = () => page.getByRole('group', { name: 'Digits' });
const price = () => page.getByRole('textbox', { name: 'Price' });
const press = (name: string) => pad().getByRole('button', { name, exact: true }).click();

test('a number field gets large digits in place of the keyboard, and keeps the focus', async () => {
  render(<Form />, document.body);
  await expect.element(pad()).not.toBeInTheDocument();
  await price().click();
  await expect.element(pad()).toBeVisible();
  expect(price().element()).toHaveProperty('inputMode', 'none');
  const mark = (1.5).toLocaleString().charAt(1);
  for (const digit of ['4', '2', mark, '5', '0']) await press(digit);
  await expect.element(page.getByText(`Costs 42${mark}50`)).toBeVisible();
  await press('Delete');
  await press('Delete');
  await expect.element(page.getByText(`Costs 42${mark}`)).toBeVisible();
  expect(document.activeElement).toBe(price().element());
  for (const key of pad().getByRole('button').elements()) {
    expect(key.getBoundingClientRect().height).toBeGreaterThanOrEqual(48);
  }
  expect(await faults(document.body)).toEqual([]);
  await press('Done');
  await expect.element(pad()).not.toBeInTheDocument();
});

test('digits go where the cursor is, over what is chosen', async () => {
  render(<Form />, document.body);
  await price().click();
  await press('1');
  await press('9');
  (price().element() as HTMLInputElement).setSelectionRange(1, 1);
  await press('5');
  await expect.element(page.getByText('Costs 159')).toBeVisible();
  (price().element() as HTMLInputElement).select();
  await press('7');
  await expect.element(page.getByText('Costs 7', { exact: true })).toBeVisible();
});

test('one key brings the keyboard of the phone; text fields and a mouse have it from the beginning', async () => {
  render(<Form />, document.body);
  await page.getByRole('textbox', { name: 'Name' }).click();
  await expect.element(pad()).not.toBeInTheDocument();
  await price().click();
  await press('Keyboard');
  await expect.element(pad()).not.toBeInTheDocument();
  expect(price().element()).toHaveProperty('inputMode', 'decimal');
  expect(document.activeElement).toBe(price().element());
  render(null, document.body);
  isFinger = false;
  render(<Form />, document.body);
  await price().click();
  await userEvent.keyboard('8');
  await expect.element(page.getByText('Costs 8')).toBeVisible();
  await expect.element(pad()).not.toBeInTheDocument();
});

test('what lies under the pad can be scrolled up, and the page is as it was once it is gone', async () => {
  function Long() {
    return (
      <>
        <Form />
        <p style={{ height: '900px' }} />
        <button type="button">Save</button>
      </>
    );
  }
  render(<Long />, document.body);
  const highBefore = document.documentElement.scrollHeight;
  await price().click();
  await expect.element(pad()).toBeVisible();
  const save = page.getByRole('button', { name: 'Save' }).element();
  window.scrollTo(0, document.documentElement.scrollHeight);
  const padTop = pad().element().getBoundingClientRect().top;
  expect(save.getBoundingClientRect().bottom).toBeLessThanOrEqual(padTop);
  await press('Done');
  await expect.element(pad()).not.toBeInTheDocument();
  expect(document.documentElement.scrollHeight).toBe(highBefore);
});
