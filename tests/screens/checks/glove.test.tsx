import { beforeEach, describe, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import { GloveCheckScreen } from '#screens/checks/GloveCheckScreen.tsx';
import { changeSettings, settingsOf } from '#store/settings.ts';
import { seven } from '../../hands/evening.ts';
import { aShop, show, type TestShop } from '../../hands/show.tsx';
import { ticking } from '../../hands/ticking.ts';

let shop: TestShop;
let pass: (ms: number) => number;

beforeEach(async () => {
  shop = await aShop();
  pass = ticking(shop);
  await page.viewport(360, 740);
});

const key = (name: string | RegExp, how = {}) => page.getByRole('button', { name, ...how });
const heading = () => page.getByRole('heading', { level: 1 });
const keySize = async () => (await settingsOf(shop.book)).keySize;

/** Opens the check and begins to tap. */
async function begin(): Promise<HTMLElement> {
  const root = show(shop, <GloveCheckScreen />);
  await key(/^Tap six dots/).click();
  await expect.element(heading()).toHaveTextContent('Tap the dot: 1 of 6');
  return root;
}

/** The check looks at the clock once it is drawn. */
async function untilTicking(): Promise<void> {
  await expect.poll(() => pass(0)).toBeGreaterThan(0);
}

/** Comes down this far from the middle of the dot that is shown. */
function tap(root: HTMLElement, dxPx: number, dyPx: number): void {
  const dot = root.querySelector('main i');
  const box = dot?.getBoundingClientRect() ?? new DOMRect();
  dot?.parentElement?.dispatchEvent(
    new PointerEvent('pointerdown', {
      clientX: box.left + box.width / 2 + dxPx,
      clientY: box.top + box.height / 2 + dyPx,
      isPrimary: true,
      bubbles: true,
    }),
  );
}

async function tapAll(root: HTMLElement, offPx: number): Promise<void> {
  for (let dot = 1; dot <= 6; dot += 1) {
    await expect.element(heading()).toHaveTextContent(`Tap the dot: ${dot} of 6`);
    tap(root, dot % 2 === 0 ? offPx : -offPx, 0);
  }
  await expect.element(heading()).toHaveTextContent('Glove check');
}

describe('six taps', () => {
  test.each([
    [3, 'usual', 'Usual'],
    [20, 'large', 'Large'],
    [40, 'largest', 'Largest'],
  ] as const)('that are %i px off set the keys to %s, and say so', async (offPx, size, word) => {
    await tapAll(await begin(), offPx);
    await expect
      .element(page.getByRole('status'))
      .toHaveTextContent(`Your gloves work. Keys set to ${word}.`);
    await expect.poll(keySize).toBe(size);
    const misses = page.getByText('6 taps of 6 would have missed a usual key.');
    expect(misses.query() !== null).toBe(offPx > 36);
  });

  test('can be done again in other gloves', async () => {
    const root = await begin();
    await tapAll(root, 40);
    await expect.poll(keySize).toBe('largest');
    await key('Tap six dots again').click();
    await tapAll(root, 2);
    await expect.poll(keySize).toBe('usual');
  });
});

describe('gloves that the glass does not feel', () => {
  const deaf =
    "This screen can't feel those gloves. Try a bare knuckle, a touch-tip glove, thin nitrile, or a foot pedal.";

  test('are told after twenty seconds without a touch, and change no setting', async () => {
    await changeSettings(shop.book, { keySize: 'large' }, seven);
    await begin();
    await untilTicking();
    pass(19_900);
    await expect.element(heading()).toHaveTextContent('Tap the dot: 1 of 6');
    pass(200);
    await expect.element(page.getByRole('status')).toHaveTextContent(deaf);
    expect(await keySize()).toBe('large');
  });

  test('are told too when the glass stops feeling them half way', async () => {
    const root = await begin();
    await untilTicking();
    pass(15_000);
    tap(root, 0, 0);
    await expect.element(heading()).toHaveTextContent('Tap the dot: 2 of 6');
    pass(15_000);
    await expect.element(heading()).toHaveTextContent('Tap the dot: 2 of 6');
    pass(5_500);
    await expect.element(page.getByRole('status')).toHaveTextContent(deaf);
  });
});

test('it can be left out, and a second finger does not count', async () => {
  const root = await begin();
  const dot = root.querySelector('main i');
  dot?.parentElement?.dispatchEvent(new PointerEvent('pointerdown', { isPrimary: false }));
  await expect.element(heading()).toHaveTextContent('Tap the dot: 1 of 6');
  await key('Leave it out').click();
  await expect.element(heading()).toHaveTextContent('Glove check');
  expect(await keySize()).toBe('usual');
  await expect
    .element(page.getByRole('link', { name: 'Workshop' }))
    .toHaveAttribute('href', '#/workshop');
});

test('the size can be chosen without any tapping', async () => {
  show(shop, <GloveCheckScreen />);
  await key('Largest').click();
  await expect.poll(keySize).toBe('largest');
  await expect.element(key('Largest')).toHaveAttribute('aria-pressed', 'true');
});

test.each([
  [320, 568, true],
  [667, 375, true],
  [360, 740, false],
  [740, 360, false],
])(
  'a glass of %i by %i says whether larger keys fit its panels',
  async (width, height, isSmall) => {
    await page.viewport(width, height);
    show(shop, <GloveCheckScreen />);
    await key('Large', { exact: true }).click();
    await expect.poll(keySize).toBe('large');
    const words = page.getByText(/^This glass is small/);
    if (isSmall) await expect.element(words).toBeVisible();
    else await expect.element(words).not.toBeInTheDocument();
  },
);
