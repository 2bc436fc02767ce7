import { beforeEach, describe, expect, test } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { KeptNotice } from '#app/KeptNotice.tsx';
import { Lost } from '#app/Lost.tsx';
import type { SafetyState } from '#live/safety.ts';
import { heldWords, untoldWords } from '#screens/kept-words.ts';
import { SafeSheet } from '#screens/workshop/SafeSheet.tsx';
import { SetAside } from '#screens/workshop/SetAside.tsx';
import type { Untold } from '#store/canary.ts';
import { noteCopy } from '#store/copy/since.ts';
import { takenCopy } from '#store/copy/take.ts';
import { headOf, headsOf } from '#store/heads.ts';
import type { Held } from '#store/held.ts';
import { aColourway, aMould, morning } from '../../hands/evening.ts';
import { faults, isNoWider } from '../../hands/faults.ts';
import { dumpOf, fillShop } from '../../hands/full-shop.ts';
import { aSafety, aShop, show, type TestShop } from '../../hands/show.tsx';

const none = { sessions: 0, moulds: 0, colourways: 0, injectors: 0, others: 0 };
const nothing: Untold = {
  putBack: none,
  putRight: none,
  setAside: 0,
  missingEntries: 0,
  missingMoulds: 0,
  missingOthers: 0,
  missingPictures: 0,
  copyAgain: false,
};
const held: Held = {
  sessions: 3,
  entries: 60,
  moulds: 2,
  others: 8,
  pictures: 4,
  bare: 0,
  records: 71,
};
const key = (name: string) => page.getByRole('button', { name, exact: true });
let shop: TestShop;
let asked: string[];

beforeEach(async () => {
  asked = [];
  shop = await aShop();
});

function withSafety(changes: Partial<SafetyState>): TestShop {
  return { ...shop, safety: aSafety(changes, asked) };
}

describe('what was found is told in plain words', () => {
  const found: [Partial<Untold>, string][] = [
    [
      { putBack: { ...none, sessions: 3, moulds: 2 } },
      '3 sessions and 2 moulds were put back from the second copy.',
    ],
    [{ putBack: { ...none, sessions: 1 } }, '1 session was put back from the second copy.'],
    [
      { putBack: { sessions: 1, moulds: 1, colourways: 2, injectors: 1, others: 4 } },
      '1 session, 1 mould, 2 colours, 1 injector and 4 other records were put back from the second copy.',
    ],
    [
      { putRight: { ...none, moulds: 1 } },
      '1 mould had changed by itself: put right from the second copy.',
    ],
    [{ setAside: 1 }, '1 record could not be read. It is kept in the Workshop, under Set aside.'],
    [
      { setAside: 2 },
      '2 records could not be read. They are kept in the Workshop, under Set aside.',
    ],
    [
      { missingEntries: 21, missingMoulds: 1 },
      'The phone lost 21 lines of the log and 1 mould. The second copy does not have them.',
    ],
    [
      { missingOthers: 3, missingMoulds: 1 },
      'The phone lost 1 mould and 3 other records. The second copy does not have them.',
    ],
    [
      { missingPictures: 2 },
      'The phone lost 2 pictures. Pictures are in no second copy. Open a copy that you took with photos.',
    ],
    [{ copyAgain: true }, 'The second copy was damaged or gone. It is written again.'],
  ];
  test.each(found)('%j', (changes, words) => {
    expect(untoldWords({ ...nothing, ...changes })).toEqual([words]);
  });

  test('and one press notes it', async () => {
    const untold = { ...nothing, putBack: { ...none, moulds: 2 }, copyAgain: true };
    show(withSafety({ untold }), <KeptNotice isQuiet />);
    await expect.element(page.getByRole('status')).toHaveTextContent(/2 moulds were put back/);
    await expect.element(page.getByRole('status')).toHaveTextContent(/written again/);
    await key('Noted').click();
    expect(asked).toEqual(['noted']);
  });
});

describe('the notice', () => {
  test('says nothing while all is well', () => {
    expect(show(withSafety({}), <KeptNotice isQuiet />).textContent).toBe('');
  });

  test('says that the phone is full, and promises no shot', async () => {
    show(withSafety({ trouble: 'full' }), <KeptNotice isQuiet />);
    await expect
      .element(page.getByRole('status'))
      .toHaveTextContent(
        /^This phone is full. Free some space before you pour. The table says so when a shot cannot be saved.$/,
      );
  });

  test('asks with the reason, and takes no for an answer', async () => {
    show(withSafety({ shouldAsk: true, isPromised: false }), <KeptNotice isQuiet />);
    await expect.element(page.getByRole('status')).toHaveTextContent(/Phones may clear web data/);
    await key('Not now').click();
    await key('Ask it').click();
    expect(asked).toEqual(['skip', 'ask']);
  });
});

describe('what a logbook holds is named', () => {
  test.each([
    [held, '3 sessions, 2 moulds and 8 other records'],
    [{ ...held, others: 0 }, '3 sessions and 2 moulds'],
    [{ ...held, sessions: 0, entries: 0, moulds: 0, records: 9 }, '8 records'],
    [{ ...held, sessions: 0, entries: 0, moulds: 0, others: 0, records: 1 }, 'your settings'],
  ])('%j', (what, words) => expect(heldWords(what)).toBe(words));
});

describe('the lost page', () => {
  test('offers the second copy first, and throws it away only on a second page', async () => {
    const root = show(withSafety({}), <Lost held={held} copy={held} onGoOn={() => {}} />);
    await expect
      .element(page.getByRole('alert'))
      .toHaveTextContent(/It held 3 sessions, 2 moulds and 8 other records/);
    await expect.element(page.getByText(/^4 pictures are in no second copy/)).toBeVisible();
    await key('Begin anew').click();
    expect(asked).toEqual([]);
    await expect.element(page.getByText(/There is no undo/)).toBeVisible();
    await key('Back').click();
    await expect.element(key('Put it back from the second copy')).toBeVisible();
    await key('Begin anew').click();
    await key('Throw it away and begin anew').click();
    expect(asked).toEqual(['forget']);
    expect(await faults(root)).toEqual([]);
    expect(isNoWider()).toBe(true);
  });

  test('says so when there is no second copy', async () => {
    show(withSafety({}), <Lost held={held} copy={null} onGoOn={() => {}} />);
    await expect.element(page.getByRole('alert')).toHaveTextContent(/There is no second copy/);
    expect(page.getByRole('button', { name: /Put it back/ }).query()).toBeNull();
    await expect.element(key('Open a copy')).toBeVisible();
  });

  test('stays when nothing came back', async () => {
    let wentOn = false;
    const goOn = () => {
      wentOn = true;
    };
    show(withSafety({}), <Lost held={held} copy={held} onGoOn={goOn} />);
    await key('Put it back from the second copy').click();
    await expect.element(page.getByText(/Nothing came back/)).toBeVisible();
    await aColourway(shop.book, 'Peat brown', '#5b4029');
    await key('Put it back from the second copy').click();
    await expect.poll(() => wentOn).toBe(true);
  });
});

describe('Kept safe', () => {
  const states: [string, Partial<SafetyState>, RegExp][] = [
    ['before the first look', {}, /being looked at/],
    [
      'with a second copy',
      { copy: held },
      /second copy lies beside it: 3 sessions, 2 moulds and 8 other records/,
    ],
    ['without files', { copy: null }, /keeps no second copy. Take a copy/],
    ['on a full phone', { copy: held, trouble: 'full' }, /waits until there is room/],
    ['with a newer copy', { trouble: 'newer' }, /Update the app first/],
    ['when it could not be written', { trouble: 'other' }, /could not be written/],
    ['with the promise', { isPromised: true }, /promised not to clear/],
    ['without it', { isPromised: false }, /may clear the log when it runs out of room/],
    ['when the phone does not say', { isPromised: null }, /does not say/],
    ['with little room', { isCramped: true }, /A private window forgets everything/],
  ];
  test.each(states)('%s', async (_when, changes, words) => {
    show(withSafety(changes), <SafeSheet />);
    await expect.element(page.getByText(words)).toBeVisible();
  });

  test('photos that lost their picture are told', async () => {
    await fillShop(shop.book, false);
    show(withSafety({ copy: held }), <SafeSheet />);
    await expect.element(page.getByText(/second copy lies beside it/)).toBeVisible();
    expect(page.getByText(/no picture here/).query()).toBeNull();
    await shop.book.db.clear('photo-bytes');
    show(withSafety({ copy: held }), <SafeSheet />);
    await expect
      .element(page.getByText(/^1 photo has no picture here. Pictures are in no second copy/))
      .toBeVisible();
  });

  test('the phone can be asked again', async () => {
    const root = show(withSafety({ isPromised: false, copy: held }), <SafeSheet />);
    await key('Ask the phone to keep the log').click();
    expect(asked).toEqual(['ask']);
    expect(await faults(root)).toEqual([]);
  });
});

describe('a copy is tested', () => {
  const wish = { withPhotos: true, version: '1.2.3' };
  const words = 'lamp river stone apple tiny frog';

  async function aCopy(of: TestShop, lock: string | null = null): Promise<File> {
    const copy = await takenCopy(of.book, { ...wish, words: lock }, of.clock.now());
    await noteCopy(of.book, copy, { at: of.clock.now(), newest: null, isLocked: lock !== null });
    return new File([copy.file], 'shop.warmshot');
  }
  const give = (file: File) => userEvent.upload(page.getByLabelText('Test a copy'), file);

  test('it says whether it is whole and what it holds, takes nothing in, and is told in the line', async () => {
    await fillShop(shop.book, false);
    const file = await aCopy(shop);
    shop.set(morning + 3 * 86_400_000);
    await aMould(shop.book, 'Since');
    const before = await dumpOf(shop.book);
    const root = show(withSafety({ isPromised: true }), <SafeSheet />);
    await expect
      .element(page.getByText('Kept by the browser. Last copy 3 days ago, not tested.'))
      .toBeVisible();
    await give(file);
    await expect
      .element(
        page.getByText(
          /^This copy is whole. It was made 3 days ago and holds 2 sessions, 2 moulds/,
        ),
      )
      .toBeVisible();
    await expect
      .element(page.getByText('Kept by the browser. Last copy 3 days ago, tested today.'))
      .toBeVisible();
    expect(await dumpOf(shop.book)).toEqual(before);
    expect(await faults(root)).toEqual([]);
    expect(isNoWider()).toBe(true);
  });

  test('a damaged one is told and is no test; one that is not the last is told apart', async () => {
    await fillShop(shop.book, false);
    const file = await aCopy(shop);
    shop.set(morning + 86_400_000);
    await aCopy(shop);
    show(withSafety({ isPromised: false }), <SafeSheet />);
    await give(new File([file.slice(0, file.size - 40)], 'cut.warmshot'));
    await expect.element(page.getByRole('alert')).toHaveTextContent('This file is cut short');
    await expect
      .element(page.getByText('The browser may clear this. Last copy today, not tested.'))
      .toBeVisible();
    await give(file);
    await expect
      .element(page.getByText(/Last copy today, not tested. Another copy was tested today.$/))
      .toBeVisible();
  });

  test('a locked one asks for its words', async () => {
    await fillShop(shop.book, false);
    const file = await aCopy(shop, words);
    show(withSafety({}), <SafeSheet />);
    await give(file);
    await page.getByLabelText('Its words').fill('lamp river');
    await key('Unlock').click();
    await expect.element(page.getByRole('alert')).toHaveTextContent('These are not its words');
    await page.getByLabelText('Its words').fill(words);
    await key('Unlock').click();
    await expect.element(page.getByText(/^This copy is whole/)).toBeVisible();
  });
});

describe('a record that was set aside', () => {
  const asideOne = async (changes: object) => {
    const mould = await aMould(shop.book, 'Grub 50');
    await shop.book.db.delete('moulds', mould.id);
    const record = { ...mould, ...changes };
    const about = { table: 'moulds', key: mould.id, record, foundAt: morning } as const;
    await shop.book.db.put('meta', { name: `aside moulds ${mould.id}`, ...about });
    return mould;
  };

  test('is shown as it was found, and mended with what cannot be read not set', async () => {
    const mould = await asideOne({ massG: 'heavy', partMl: -4 });
    const root = show(shop, <SetAside />);
    await expect.element(page.getByText(/2 facts of it cannot be read/)).toBeVisible();
    await key('Show Mould: Grub 50').click();
    await expect.element(page.getByText(/"massG": "heavy"/)).toBeVisible();
    expect(await faults(root)).toEqual([]);
    await key('Mend Mould: Grub 50').click();
    await expect.poll(() => headsOf(shop.book, 'moulds')).toHaveLength(1);
    const after = await headOf(shop.book, 'moulds', mould.id);
    expect(after).toMatchObject({ name: 'Grub 50', massG: null, partMl: null });
    // What was mended is newer than what any other copy says of it; the rest is as old as it was.
    expect((after?.stamps.massG ?? '') > (mould.stamps.massG ?? 'x')).toBe(true);
    expect(after?.stamps.name).toBe(mould.stamps.name);
    await expect.poll(() => root.textContent).toBe('');
  });

  test('is kept when it makes no sense without', async () => {
    await asideOne({ layout: 'round' });
    show(shop, <SetAside />);
    await expect.element(page.getByText(/It makes no sense without/)).toBeVisible();
    expect(page.getByRole('button', { name: /^Mend/ }).query()).toBeNull();
    await expect.element(key('Show Mould: Grub 50')).toBeVisible();
  });
});
