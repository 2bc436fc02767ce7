import { afterEach, expect, test } from 'vitest';
import { ColoursScreen } from '#screens/colours/ColoursScreen.tsx';
import { IdeasScreen } from '#screens/colours/IdeasScreen.tsx';
import { MouldsScreen } from '#screens/moulds/MouldsScreen.tsx';
import { ShelfScreen } from '#screens/shelf/ShelfScreen.tsx';
import { addHead } from '#store/heads.ts';
import { aColourway, aMould, seven } from '../hands/evening.ts';
import { figure } from '../hands/figure.ts';
import { scriptStrings } from '../hands/hostile.ts';
import { aShop, show } from '../hands/show.tsx';
import { aMaterial } from '../hands/stock.ts';

afterEach(() => {
  Reflect.deleteProperty(window, 'ran');
});

test(`${scriptStrings.length} texts that would run as code are shown letter by letter, in names and ideas`, async () => {
  expect(new Set(scriptStrings).size).toBe(60);
  const shop = await aShop();
  const { book } = shop;
  for (const text of scriptStrings) {
    await aMould(book, text);
    await aColourway(book, text, '#5b4029');
    await addHead(book, 'materials', aMaterial({ name: text }), seven);
    const about = { colourwayId: null, mouldId: null, doneAt: null };
    await addHead(book, 'ideas', { text, ...about }, seven);
  }
  const plain = (text: string) => text.replace(/\s+/g, ' ').trim();
  const missing: string[] = [];
  const screens = {
    moulds: <MouldsScreen />,
    colours: <ColoursScreen />,
    materials: <ShelfScreen />,
    ideas: <IdeasScreen />,
  };
  for (const [name, screen] of Object.entries(screens)) {
    const root = show(shop, screen);
    const last = plain(scriptStrings.at(-1) ?? '');
    await expect
      .poll(() => plain(root.textContent ?? '').includes(last), { timeout: 20_000 })
      .toBe(true);
    const seen = plain(root.textContent ?? '');
    missing.push(
      ...scriptStrings
        .filter((text) => !seen.includes(plain(text)))
        .map((text) => `${name}: ${text}`),
    );
    const made = [
      ...root.querySelectorAll('script, iframe, object, embed, base, form[action], math, svg *'),
    ];
    missing.push(
      ...made
        .filter(
          ({ namespaceURI, localName }) =>
            !namespaceURI?.endsWith('svg') || /script|animate|foreign/i.test(localName),
        )
        .map(({ outerHTML }) => `${name}: made ${outerHTML}`),
      ...[...root.querySelectorAll('[onerror], [onload], [onclick], a[href^="javascript" i]')].map(
        ({ outerHTML }) => `${name}: made ${outerHTML}`,
      ),
    );
  }
  // Anything that was only delayed has had its turn.
  await new Promise((resolve) => setTimeout(resolve, 100));
  const hasRun = 'ran' in window;
  figure({
    drill: 'Texts that would run as code',
    required: '60 texts, 0 run, each shown as it is',
    reached: `${scriptStrings.length} texts on ${Object.keys(screens).length} pages: ${hasRun ? 'one ran' : '0 run'}, ${missing.length} not shown as they are`,
    isMet: !hasRun && missing.length === 0,
  });
  expect(hasRun).toBe(false);
  expect(missing).toEqual([]);
}, 120_000);
