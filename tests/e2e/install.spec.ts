import { join } from 'node:path';
import { type Browser, expect, type Page, test } from '@playwright/test';
import { type CuttingHost, cuttingHost, type Failing } from './cutting-host.ts';
import { figure } from './figure.ts';

const shares = [0.1, 0.25, 0.5, 0.75, 0.95];
const ways: Failing[] = ['breaks off', 'answers 500'];
const slow = { timeout: 90_000 };

const yes = () => true;
const no = () => false;

const welcome = (page: Page) => page.getByRole('button', { name: 'Log a pour now' });

/** What the worker of the page is at: it stores, has stored, or there is none. */
function stateOf(page: Page): Promise<'stored' | 'busy' | 'nothing'> {
  return page.evaluate(async () => {
    const found = await navigator.serviceWorker.getRegistration();
    if (found?.active) return 'stored';
    return found?.installing || found?.waiting ? 'busy' : 'nothing';
  });
}

/** Waits until the worker has either stored everything or given up; true: stored. */
async function isStored(page: Page, host: CuttingHost): Promise<boolean> {
  // A page asks for its worker soon after it is drawn, so before the host has failed nothing is no answer.
  const state = async () => {
    const wasCut = host.hasFailed();
    const now = await stateOf(page);
    return now === 'nothing' && !wasCut ? 'busy' : now;
  };
  await expect.poll(state, slow).not.toBe('busy');
  return (await stateOf(page)) === 'stored';
}

/** Waits until the worker has stored everything: what a visit before left behind may still be cleared away meanwhile. */
async function isStoredAtLast(page: Page): Promise<boolean> {
  return await expect
    .poll(() => stateOf(page), slow)
    .toBe('stored')
    .then(yes, no);
}

/** Whether a walk to the next screens meets the words that it works with no network, given so long on each. */
async function isClaimed(page: Page, timeout: number): Promise<boolean> {
  for (const hash of ['#/workshop', '#/moulds']) {
    await page.evaluate((to) => location.assign(to), hash);
    const words = page.getByText('It works with no network.');
    if (await words.waitFor({ timeout }).then(yes, no)) return true;
  }
  return false;
}

/** Whether a new window opens the app while the host answers nothing. */
async function startsCold(page: Page, host: CuttingHost): Promise<boolean> {
  host.failAfter(0);
  const next = await page.context().newPage();
  await page.close();
  const isUp = await next.goto(host.url).then(
    () =>
      welcome(next)
        .waitFor({ timeout: 45_000 })
        .then(() => true),
    () => false,
  );
  await next.close();
  return isUp;
}

async function run(browser: Browser, host: CuttingHost, share: number, how: Failing) {
  const context = await browser.newContext();
  host.failAfter(Math.floor(host.total * share), how);
  const first = await context.newPage();
  await first.goto(host.url);
  const wasStored = await isStored(first, host);
  const wasClaimed = await isClaimed(first, 400);
  const holder = await context.newPage();
  const doesStart = await startsCold(first, host);

  host.failAfter(Number.POSITIVE_INFINITY);
  const second = await context.newPage();
  await holder.close();
  await second.goto(host.url);
  await expect(welcome(second)).toBeVisible(slow);
  const isWhole = (await isStoredAtLast(second)) && (await isClaimed(second, 30_000));
  const doesStartNow = await startsCold(second, host);
  await context.close();
  return { wasStored, isFalse: wasClaimed && !doesStart, isComplete: isWhole && doesStartNow };
}

/** Each share and way so often (three times for a closer look), and so many first visits at once, each to a host of its own. */
const times = 1;
const lanes = 2;

test('a first visit that breaks off never claims to work with no network, and the next one completes it', async ({
  browser,
}) => {
  test.setTimeout(480_000);
  const cases = Array.from({ length: times }, () =>
    ways.flatMap((how) => shares.map((share) => ({ how, share }))),
  ).flat();
  const found: Awaited<ReturnType<typeof run>>[] = [];
  const lane = async () => {
    const host = await cuttingHost(join(import.meta.dirname, '../../dist'));
    for (let next = cases.shift(); next; next = cases.shift()) {
      found.push(await run(browser, host, next.share, next.how));
    }
    host.close();
  };
  await Promise.all(Array.from({ length: lanes }, lane));
  const broken = found.filter(({ wasStored }) => !wasStored).length;
  const falsely = found.filter(({ isFalse }) => isFalse).length;
  const complete = found.filter(({ isComplete }) => isComplete).length;
  const runs = found.length;
  figure({
    drill: 'First visit cut at 10, 25, 50, 75 and 95 % of the files',
    required: `${runs} runs: 0 false words that it works with no network; next visit completes ${runs}/${runs}`,
    reached: `${broken} of ${runs} broke off: ${falsely} false words; next visit completes ${complete}/${runs}`,
    isMet: broken === runs && falsely === 0 && complete === runs,
  });
  expect({ broken, falsely, complete }).toEqual({ broken: runs, falsely: 0, complete: runs });
});
