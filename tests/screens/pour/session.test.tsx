import { beforeEach, describe, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import { tableOf } from '#calc/table.ts';
import { countOf } from '#calc/tonight.ts';
import type { SessionId } from '#model/entry.ts';
import type { Mould } from '#model/mould.ts';
import { SessionScreen } from '#screens/pour/SessionScreen.tsx';
import { addToSession, entriesOf } from '#store/sessions.ts';
import { aMould, morning, pourEvening } from '../../hands/evening.ts';
import { aShop, show, type TestShop } from '../../hands/show.tsx';
import { key, openSession, row } from './session-page.tsx';

let shop: TestShop;
let grub: Mould;

beforeEach(async () => {
  shop = await aShop();
  grub = await aMould(shop.book, 'Grub 50', { rows: 2, cols: 2 }, { partMl: 10 });
});

const opened = (gave: readonly (string | null)[], more: { endMin?: number | null } = {}) =>
  openSession(shop, grub, gave, more);

async function loggedNow(sessionId: SessionId) {
  return countOf(tableOf(await entriesOf(shop.book, sessionId)).shots.flatMap((s) => s.results));
}

describe('the counts of a session', () => {
  test('are those that were logged, and what was not checked stands beside them', async () => {
    await opened(['gsgg', 'gggg', 'ggnn', 'gdgc']);
    await expect.element(page.getByText('11 of 13 good')).toBeVisible();
    await expect.element(page.getByText('Not checked', { exact: true })).toBeVisible();
    await expect.element(page.getByRole('definition').nth(2)).toHaveTextContent('2');
    // Two bad baits of 10 mL at 1.05 g/mL.
    await expect.element(page.getByText(/^21 g/)).toBeVisible();
  });

  test('say that it is too early instead of a range while there are two shots', async () => {
    await opened(['gggg', 'gggg']);
    await expect.element(page.getByText('too early to tell')).toBeVisible();
    await expect.element(page.getByRole('img', { name: /^\d+ of \d+/ })).not.toBeInTheDocument();
  });

  test('show a range once twenty shots were good', async () => {
    await opened(Array.from({ length: 20 }, () => 'gggg'));
    await expect.element(page.getByRole('img', { name: /^100 of 100 .*to 100$/ })).toBeVisible();
    await expect
      .element(page.getByText(/days like this, expect \d+ to 100 of 100\./))
      .toBeVisible();
  });
});

describe('putting right', () => {
  test('changes the count and keeps what it was in sight', async () => {
    const sessionId = await opened(['gggg', 'gggg', 'gggg']);
    await expect.element(page.getByText('12 of 12 good')).toBeVisible();
    await key('Put right: All good, Grub 50, shot 2').click();
    await key('Short').click();
    await key('Cavity 3, good').click();
    await key('Save 3 good, 1 bad').click();
    await expect.element(page.getByText('11 of 12 good')).toBeVisible();
    await expect
      .element(row('shot 2'))
      .toHaveTextContent(
        '3 good, 1 bad: 3 shortGrub 50, shot 2. Was all good, put right Wed 25 Nov 09:00',
      );
    expect(await loggedNow(sessionId)).toEqual({ good: 11, bad: 1, notChecked: 0 });
    const entries = await entriesOf(shop.book, sessionId);
    expect(entries.filter(({ said }) => said.kind === 'opened')).toHaveLength(3);
    await expect.poll(() => shop.felt).toEqual(['confirm']);
  });

  test('left alone changes nothing', async () => {
    const sessionId = await opened(['gggg']);
    const before = await entriesOf(shop.book, sessionId);
    await key(/^Put right: All good/).click();
    await key('Cavity 1, good').click();
    await key('Leave it').click();
    await expect.element(key('Leave it')).not.toBeInTheDocument();
    expect(await entriesOf(shop.book, sessionId)).toEqual(before);
  });

  test('reaches a pot reading, and refuses a heat that cannot be beside its field', async () => {
    const sessionId = await pourEvening(shop.book, {
      fills: [{ mould: grub, gave: 'gggg' }],
      also: [{ said: { kind: 'ambient-read', ambientC: 21 }, atMin: 20 }],
    });
    show(shop, <SessionScreen sessionId={sessionId} />);
    await key('Put right: Shop 21 °C, Reading').click();
    const field = page.getByLabelText('Shop, °C');
    await field.fill('2100');
    await key('Save').click();
    await expect.element(field).toHaveAccessibleDescription('Hotter than 400 °C cannot be.');
    await field.fill('24');
    await key('Save').click();
    await expect.element(row('Shop 24 °C')).toHaveTextContent('Was shop 21 °C');
    expect(tableOf(await entriesOf(shop.book, sessionId)).ambientC).toBe(24);
  });
});

describe('taking back', () => {
  test('leaves the line in sight, struck through, and brings it again', async () => {
    const sessionId = await opened(['gggg', 'gssg', 'gggg']);
    await key(/^Put right: 2 good, 2 bad/).click();
    await key('Take back').click();
    await expect.element(page.getByText('8 of 8 good')).toBeVisible();
    const struck = page.getByRole('deletion');
    await expect.element(struck).toHaveTextContent('2 good, 2 bad: 2, 3 short');
    await expect.element(row('Taken back Wed 25 Nov 09:00')).toBeVisible();
    expect(await loggedNow(sessionId)).toEqual({ good: 8, bad: 0, notChecked: 4 });

    await key(/^Bring back/).click();
    await expect.element(page.getByText('10 of 12 good')).toBeVisible();
    await expect.element(struck).not.toBeInTheDocument();
    expect(await loggedNow(sessionId)).toEqual({ good: 10, bad: 2, notChecked: 0 });
  });

  test('is not offered for what the session stands on', async () => {
    await opened(['gggg']);
    await key('Put right: Session finished').click();
    await expect.element(key('Leave it')).toBeVisible();
    await expect.element(key('Take back')).not.toBeInTheDocument();
  });
});

describe('the time of an entry', () => {
  test('moves earlier by the minutes of the key', async () => {
    await opened(['gggg']);
    await key('Grub 50, shot 1: 0 bad of 4, cold').click();
    await expect.element(row('All good')).toHaveTextContent('19:10');
    await key('Earlier').click();
    await key('−2 min').click();
    await expect.element(row('All good')).toHaveTextContent(/^19:08.*Was at 19:10/);
  });

  test('can be typed, also from a number pad', async () => {
    await opened(['gggg']);
    await key('Grub 50, shot 1: 0 bad of 4, cold').click();
    await key('Earlier').click();
    await page.getByLabelText('Time').fill('1909');
    await key('Save').click();
    await expect.element(row('All good')).toHaveTextContent(/^19:09/);
  });

  test.each([
    ['25:70', 'Write a time from 0:00 to 23:59, such as 20:46.'],
    ['soon', 'Write a time from 0:00 to 23:59, such as 20:46.'],
    ['19:06', 'The mould was filled at 19:07. It cannot open before.'],
  ])('%s is refused in a sentence and nothing is written', async (typed, sentence) => {
    const sessionId = await opened(['gggg']);
    const before = await entriesOf(shop.book, sessionId);
    await key('Grub 50, shot 1: 0 bad of 4, cold').click();
    await key('Earlier').click();
    await page.getByLabelText('Time').fill(typed);
    await key('Save').click();
    await expect.element(page.getByLabelText('Time')).toHaveAccessibleDescription(sentence);
    expect(await entriesOf(shop.book, sessionId)).toEqual(before);
  });

  test('that is still to come is refused with what time it is', async () => {
    await opened(['gggg'], { endMin: null });
    shop.set(morning - 13 * 3_600_000);
    await key('Put right: All good, Grub 50, shot 1').click();
    await key('Earlier').click();
    await page.getByLabelText('Time').fill('20:30');
    await key('Save').click();
    await expect
      .element(page.getByLabelText('Time'))
      .toHaveAccessibleDescription('That is still to come. It is 20:00 now.');
  });
});

describe('what nobody looked at', () => {
  test('stays not checked until a hand says otherwise', async () => {
    const sessionId = await opened(['ggnn']);
    await expect.element(page.getByText('2 of 2 good')).toBeVisible();
    await key('Check now: 2 good, 2 not checked, Grub 50, shot 1').click();
    await key('Dent').click();
    await key('Cavity 3, not checked').click();
    await key('Save 2 good, 1 bad, 1 not checked').click();
    await expect.element(page.getByText('2 of 3 good')).toBeVisible();
    expect(await loggedNow(sessionId)).toEqual({ good: 2, bad: 1, notChecked: 1 });
  });

  test('a fill that was never logged counts nowhere, and can be checked later', async () => {
    const sessionId = await opened(['gggg', null]);
    await expect.element(page.getByText('4 of 4 good')).toBeVisible();
    await key('Check now: Filled, not checked, Grub 50, round 2').click();
    await key('The rest was good').click();
    await key('Save 4 good').click();
    await expect.element(page.getByText('8 of 8 good')).toBeVisible();
    expect(await loggedNow(sessionId)).toEqual({ good: 8, bad: 0, notChecked: 0 });
  });
});

test('a session that still runs leads back to the table', async () => {
  await opened(['gggg'], { endMin: null });
  await expect
    .element(page.getByRole('link', { name: /^Back to the table/ }))
    .toHaveAttribute('href', '#/table');
});

test('a session that is not in the logbook says so', async () => {
  show(shop, <SessionScreen sessionId={'0193a000-0000-7000-8000-00000000ffff' as SessionId} />);
  await expect.element(page.getByText('This session is not in this logbook.')).toBeVisible();
});

test('what the scale showed is a line of the log that can be put right', async () => {
  const sessionId = await opened(['gsgg', 'gsgg']);
  await addToSession(shop.book, sessionId, { kind: 'scrap-weighed', massG: 90 }, morning);
  await key('Put right: Bad baits weighed: 90 g, On the scale').click();
  await page.getByLabelText('Bad baits, g').fill('heavy');
  await key('Save').click();
  await expect
    .element(page.getByLabelText('Bad baits, g'))
    .toHaveAccessibleDescription('Write a number, such as 210.');
  await page.getByLabelText('Bad baits, g').fill('17,5');
  await key('Save').click();
  await expect.element(page.getByText('Bad baits weighed: 18 g')).toBeVisible();
  expect(tableOf(await entriesOf(shop.book, sessionId)).scrapG).toBe(17.5);
});
