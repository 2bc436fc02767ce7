import { useState } from 'preact/hooks';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { page } from 'vitest/browser';
import { Stepper } from '#ui/Stepper.tsx';
import { drawn } from '../hands/drawn.ts';
import { aShop, show } from '../hands/show.tsx';

const most = 10;

/** A number from 0 to 10 that is kept a moment later, as a setting is. */
function Number0to10() {
  const [value, setValue] = useState(0);
  const step = (by: number) =>
    setTimeout(() => setValue((now) => Math.min(most, Math.max(0, now + by))), 40);
  return (
    <Stepper
      label="Number"
      value={`${value} heats`}
      small={value === most ? 'the most' : value === 0 ? 'the least' : 'between'}
      lessName="One less"
      moreName="One more"
      onLess={() => step(-1)}
      onMore={() => step(1)}
    />
  );
}

const key = (name: string) => page.getByRole('button', { name }).element();
const shown = () => page.getByRole('status').element().textContent;

function say(kind: string, name: string): void {
  key(name).dispatchEvent(new PointerEvent(kind, { button: 0, bubbles: true, pointerId: 1 }));
}
function lift(name: string): void {
  say('pointerup', name);
  key(name).dispatchEvent(new MouseEvent('click', { bubbles: true, detail: 1 }));
}
const pass = (ms: number) => vi.advanceTimersByTimeAsync(ms);

beforeEach(async () => {
  show(await aShop(), <Number0to10 />);
  await expect.poll(shown).toBe('0 heatsthe least');
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
});
afterEach(() => vi.useRealTimers());

/** Waits until the page has drawn what was set. */
async function reads(words: string): Promise<void> {
  await pass(60);
  await expect.poll(shown).toBe(words);
}

test('checklist 66: a short press steps once, held or not for half a second', async () => {
  say('pointerdown', 'One more');
  await pass(499);
  lift('One more');
  await reads('1 heatsbetween');
  await pass(2_000);
  await reads('1 heatsbetween');
});

test('checklist 66: held for 750 ms it repeats, and the lift is no further step', async () => {
  say('pointerdown', 'One more');
  await pass(499);
  await reads('0 heatsthe least');
  await pass(191);
  await reads('2 heatsbetween');
  lift('One more');
  await pass(1_000);
  await reads('2 heatsbetween');
});

test('checklist 66: at the limit it stops with words', async () => {
  say('pointerdown', 'One more');
  for (let step = 0; step < 40; step += 1) {
    await pass(120);
    await drawn();
  }
  await reads('10 heatsthe most');
  lift('One more');
  await reads('10 heatsthe most');
});

test('checklist 66: a finger that slides off stops it; a click without a finger steps once', async () => {
  say('pointerdown', 'One more');
  say('pointerleave', 'One more');
  key('One more').dispatchEvent(new PointerEvent('pointerout', { bubbles: true, pointerId: 1 }));
  await pass(3_000);
  await reads('0 heatsthe least');
  key('One more').dispatchEvent(new MouseEvent('click', { bubbles: true, detail: 0 }));
  await reads('1 heatsbetween');
});
