import { render } from 'preact';
import { expect, test } from 'vitest';
import { cdp, page } from 'vitest/browser';
import type { Said, SessionId } from '#model/entry.ts';
import { YieldsScreen } from '#screens/yields/YieldsScreen.tsx';
import { freshId } from '#store/book.ts';
import { logEntry } from '#store/entries.ts';
import { addShots } from '../../bench/shots.ts';
import { quantile, sideBySide } from '../../bench/timing.ts';
import { figure } from '../../hands/figure.ts';
import { aShop, show } from '../../hands/show.tsx';

const shots = 100_000;
const presses = 60;
const mostTimes = 3;
const mostMb = 150;
const said: Said = { kind: 'noted', text: 'A note as long as a shot is.' };

async function heapMb(): Promise<number> {
  const session = cdp() as unknown as {
    send(method: string): Promise<{ usedSize: number }>;
  };
  await session.send('HeapProfiler.collectGarbage');
  return (await session.send('Runtime.getHeapUsage')).usedSize / 1_000_000;
}

test('after five years a press is stored as fast as on the first day, and the page of yields answers', async () => {
  const [empty, full] = [await aShop(), await aShop()];
  await addShots(full.book, shots);
  const before = await heapMb();
  const pressIn = ({ book }: typeof full) => {
    const sessionId = freshId<SessionId>(Date.now());
    return () => logEntry(book, sessionId, said, Date.now());
  };
  // In turn, so that a machine that slows down slows both.
  const [inFull, inEmpty] = [pressIn(full), pressIn(empty)];
  await sideBySide(10, inFull, inEmpty);
  const { ours, other } = await sideBySide(presses, inFull, inEmpty);
  const times = quantile(ours, 0.5) / quantile(other, 0.5);

  show(full, <YieldsScreen />);
  await expect
    .element(page.getByRole('heading', { name: 'Mould by mould' }), { timeout: 60_000 })
    .toBeVisible();
  await page.getByRole('button', { name: 'Days' }).click();
  await expect
    .element(page.getByRole('heading', { name: 'Day by day' }), { timeout: 60_000 })
    .toBeVisible();
  const grownMb = (await heapMb()) - before;
  render(null, document.body);
  figure({
    drill: 'Five years of data',
    required: `${shots} shots: a press within ${mostTimes} times one in an empty shop, yields by mould and by day, heap +${mostMb} MB at most`,
    reached: `a press ${times.toFixed(2)} times, both lists, heap +${grownMb.toFixed(1)} MB`,
    isMet: times <= mostTimes && grownMb <= mostMb,
  });
  expect(times).toBeLessThanOrEqual(mostTimes);
  expect(grownMb).toBeLessThanOrEqual(mostMb);
}, 180_000);
