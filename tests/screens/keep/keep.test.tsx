import { beforeEach, describe, expect, test } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import type { Entry } from '#model/entry.ts';
import { KeepScreen } from '#screens/keep/KeepScreen.tsx';
import { OpenCopyScreen } from '#screens/keep/OpenCopyScreen.tsx';
import { PourScreen } from '#screens/pour/PourScreen.tsx';
import { WorkshopScreen } from '#screens/workshop/WorkshopScreen.tsx';
import { keptAside } from '#store/copy/aside.ts';
import { broughtIn, newestStamp } from '#store/copy/bring.ts';
import { openedFile } from '#store/copy/file.ts';
import { noteCopy, sinceCopy } from '#store/copy/since.ts';
import { takenCopy } from '#store/copy/take.ts';
import { changeHead, headsOf } from '#store/heads.ts';
import { addToSession, takeBack } from '#store/sessions.ts';
import { changeSettings } from '#store/settings.ts';
import { aMould, morning, pourEvening } from '../../hands/evening.ts';
import { faults, isNoWider } from '../../hands/faults.ts';
import { dumpOf, fillShop, stockLine } from '../../hands/full-shop.ts';
import { aSafety, aShop, show, type TestShop } from '../../hands/show.tsx';

const key = (name: string | RegExp) => page.getByRole('button', { name });
const dayMs = 86_400_000;
let shop: TestShop;

beforeEach(async () => {
  shop = await aShop();
  await fillShop(shop.book, false);
});

/** A copy of this shop as a person would find it. */
async function aFile(of: TestShop, words: string | null = null): Promise<File> {
  const wish = { withPhotos: true, words, version: '1.2.3' };
  const { file } = await takenCopy(of.book, wish, morning);
  return new File([file], 'warmshot-2026-11-25.warmshot');
}

async function choose(file: File): Promise<void> {
  await userEvent.upload(page.getByLabelText('The file'), file);
}

describe('taking a copy', () => {
  test('it is read back before it is called good, and its age begins when it has left', async () => {
    show(shop, <KeepScreen />);
    await expect.element(page.getByText('No copy has left this phone yet.')).toBeVisible();
    await expect
      .element(
        page.getByText(/Only on this phone: 2 sessions, 1 photo, 2 stock lines and 10 changes/),
      )
      .toBeVisible();
    await key('Make the copy').click();
    await expect.element(page.getByRole('heading', { name: 'The copy is good' })).toBeVisible();
    await expect.element(page.getByText(/It holds 2 sessions, 2 moulds, 1 injector/)).toBeVisible();
    expect(await keptAside(shop.book, 'last')).toBeUndefined();
    await key('Save it').click();
    // A download says nothing of where it went: it counts once a person has seen it.
    await expect.element(page.getByText(/^Look where this browser puts/)).toBeVisible();
    expect(await keptAside(shop.book, 'last')).toBeUndefined();
    await key('It is not').click();
    await expect.element(page.getByText(/^Then it does not count as a copy/)).toBeVisible();
    await expect.element(page.getByText('No copy has left this phone yet.')).toBeVisible();
    await key('Save it').click();
    await key('It is there').click();
    await expect.element(page.getByText(/^Handed over/)).toBeVisible();
    await expect.element(page.getByText('Last copy: today.')).toBeVisible();
    await expect.element(page.getByText('Everything here is in it.')).toBeVisible();
    const [file] = shop.handed;
    expect(file?.name).toBe('warmshot-2026-11-25.warmshot');
    expect((await openedFile(file as File, null)).header.counts.sealed).toBe(2);

    shop.set(morning + 12 * dayMs);
    const [mould] = await headsOf(shop.book, 'moulds');
    if (!mould) throw new Error('The shop is empty.');
    const at = morning + 2 * dayMs;
    await changeHead(shop.book, 'moulds', mould.id, { massG: 900 }, at);
    await pourEvening(shop.book, { fills: [{ mould, gave: 'gggg' }], at });
    show(shop, <WorkshopScreen />);
    await expect
      .element(
        page.getByText('Last copy: 12 days ago. Only here: 1 session and 1 change of the shop.'),
      )
      .toBeVisible();
  });

  test('of a shop that is empty says so, and claims nothing of a copy that there is not', async () => {
    show(await aShop(), <KeepScreen />);
    await expect.element(page.getByText('No copy has left this phone yet.')).toBeVisible();
    await expect.element(page.getByText('Nothing is here to copy yet.')).toBeVisible();
    await expect.element(page.getByText('Everything here is in it.')).not.toBeInTheDocument();
  });

  test('six words lock it, and the words shown are the words that open it', async () => {
    show(shop, <KeepScreen />);
    await key('Six words').click();
    const words = page.getByText(/^[a-z]+( [a-z]+){5}$/);
    const first = words.element().textContent ?? '';
    await key('Other words').click();
    await expect.poll(() => words.element().textContent).not.toBe(first);
    const shown = words.element().textContent ?? '';
    await key('Make the copy').click();
    await key('Save it').click();
    await key('It is there').click();
    await expect.element(page.getByText('Last copy: today, locked.')).toBeVisible();
    const file = shop.handed[0] as File;
    await expect(openedFile(file, first)).rejects.toMatchObject({ why: 'wrong-words' });
    expect((await openedFile(file, shown)).header.lock).not.toBeNull();
  });

  test('own words that are too short are refused in a sentence, and nothing is made', async () => {
    show(shop, <KeepScreen />);
    await key('My words').click();
    await page.getByLabelText('Your words').fill('short');
    await key('Make the copy').click();
    await expect.element(page.getByRole('alert')).toHaveTextContent('Use 12 letters or more');
    expect(shop.handed).toEqual([]);
  });

  test('pictures may be left out', async () => {
    show(shop, <KeepScreen />);
    await key('Without').click();
    await key('Make the copy').click();
    await key('Save it').click();
    await expect.poll(() => shop.handed.length).toBe(1);
    const { header } = await openedFile(shop.handed[0] as File, null);
    expect([header.counts.photos, header.counts['photo-bytes']]).toEqual([1, 0]);
  });

  test('where the device shares files, the share sheet comes first, and turning back is no copy', async () => {
    let answer = false;
    const shared: File[] = [];
    shop.files = {
      ...shop.files,
      canShare: () => true,
      share: async (file) => {
        shared.push(file);
        return answer;
      },
    };
    show(shop, <KeepScreen />);
    await key('Make the copy').click();
    await key('Share it').click();
    await expect.poll(() => shared.length).toBe(1);
    await expect.element(page.getByText('No copy has left this phone yet.')).toBeVisible();
    answer = true;
    await key('Share it').click();
    await expect.element(page.getByText('Last copy: today.')).toBeVisible();
  });

  test('one line asks for a copy when three sessions are on this phone only, and not before', async () => {
    show(shop, <PourScreen />);
    await expect.element(page.getByRole('heading', { level: 1, name: 'Pour' })).toBeVisible();
    const line = page.getByText(/only on this phone/);
    expect(line.elements()).toEqual([]);
    const mould = await aMould(shop.book, 'Craw 40');
    await pourEvening(shop.book, { fills: [{ mould, gave: 'gggg' }], at: morning - dayMs / 2 });
    await expect.element(line).toHaveTextContent(/^3 sessions, 1 photo, 2 stock lines and 11/);
    // One press makes it, reads it back and hands it over.
    await key('Copy now').click();
    await expect.element(page.getByText(/^Look where this browser puts/)).toBeVisible();
    expect((await openedFile(shop.handed[0] as File, null)).header.counts.sealed).toBe(3);
    await key('It is there').click();
    await expect.element(page.getByText(/^Handed over/)).toBeVisible();
    show(shop, <PourScreen />);
    await expect.element(page.getByRole('heading', { level: 1, name: 'Pour' })).toBeVisible();
    expect((await sinceCopy(shop.book)).sessions).toBe(0);
    expect(line.elements()).toEqual([]);
  });

  test('one press reaches the share sheet; where the press is over by then, its key stays', async () => {
    let isOver = false;
    const shared: string[] = [];
    shop.files = {
      ...shop.files,
      canShare: () => true,
      share: async ({ name }) => {
        if (isOver) throw new DOMException('No press.', 'NotAllowedError');
        return shared.push(name) > 0;
      },
    };
    shop.safety = aSafety({ copy: null });
    show(shop, <PourScreen />);
    isOver = true;
    await key('Copy now').click();
    await expect.element(key('Share it')).toBeVisible();
    expect(page.getByRole('alert').elements()).toEqual([]);
    isOver = false;
    await key('Share it').click();
    await expect.element(page.getByText(/^Handed over/)).toBeVisible();
    const mould = await aMould(shop.book, 'Craw 40');
    shop.set(morning + dayMs);
    await pourEvening(shop.book, { fills: [{ mould, gave: 'gggg' }], at: morning + dayMs / 2 });
    show(shop, <PourScreen />);
    await key('Copy now').click();
    await expect.element(page.getByText(/^Handed over/)).toBeVisible();
    expect(shared).toEqual(['warmshot-2026-11-25.warmshot', 'warmshot-2026-11-26.warmshot']);
  });

  test('without a second copy on the device one session is enough, and a lock asks for its words', async () => {
    const copy = await takenCopy(
      shop.book,
      { withPhotos: true, words: null, version: '1' },
      morning,
    );
    const newest = await newestStamp(shop.book);
    await noteCopy(shop.book, copy, { at: morning, newest, isLocked: true });
    const mould = await aMould(shop.book, 'Craw 40');
    await pourEvening(shop.book, { fills: [{ mould, gave: 'gggg' }], at: morning + dayMs / 2 });
    show(shop, <PourScreen />);
    await expect.element(page.getByRole('heading', { level: 1, name: 'Pour' })).toBeVisible();
    shop.safety = aSafety({ copy: null });
    const root = show(shop, <PourScreen />);
    await expect
      .element(page.getByText('1 session and 1 change of the shop only on this phone.'))
      .toBeVisible();
    await expect
      .element(page.getByRole('link', { name: 'Copy now' }))
      .toHaveAttribute('href', '#/keep');
    expect(await faults(root)).toEqual([]);
    expect(isNoWider()).toBe(true);
  });

  test('what is put right, photographed, bought or set since a copy is only on this phone', async () => {
    const copy = await takenCopy(
      shop.book,
      { withPhotos: true, words: null, version: '1' },
      morning,
    );
    const note = async () =>
      noteCopy(shop.book, copy, {
        at: morning,
        newest: await newestStamp(shop.book),
        isLocked: false,
      });
    const none = { sessions: 0, putRight: 0, photos: 0, movements: 0, things: 0 };
    const [sealed] = await shop.book.db.getAll('sealed');
    const [photo] = await headsOf(shop.book, 'photos');
    const [material] = await headsOf(shop.book, 'materials');
    if (!sealed || !photo || !material) throw new Error('The shop is empty.');
    const at = morning + 60_000;
    const acts: [object, () => Promise<unknown>][] = [
      [{ putRight: 1 }, () => addToSession(shop.book, sealed.id, { kind: 'noted', text: 'x' }, at)],
      [{ photos: 1 }, () => changeHead(shop.book, 'photos', photo.id, { rating: 5 }, at)],
      [{ movements: 1 }, () => stockLine(shop.book, material.id, { kind: 'lost', qty: 1 }, at)],
      [{ things: 1 }, () => changeSettings(shop.book, { potMl: 500 }, at)],
    ];
    for (const [told, act] of acts) {
      await note();
      expect(await sinceCopy(shop.book)).toMatchObject(none);
      await act();
      expect(await sinceCopy(shop.book)).toMatchObject({ ...none, ...told });
    }
  });
});

describe('opening a copy', () => {
  test('a clean phone sees what comes, brings it in, and can undo it', async () => {
    const clean = await aShop();
    const empty = await dumpOf(clean.book);
    show(clean, <OpenCopyScreen />);
    await choose(await aFile(shop));
    await expect
      .element(page.getByText(/^Brings 2 sessions, 1 set of settings, 1 mould,/))
      .toBeVisible();
    await page.getByText('Thing by thing').click();
    await expect
      .element(page.getByText('Session: Tue 24 Nov, 3 shots, 10 new lines'))
      .toBeVisible();
    await expect.element(page.getByText('Mould: Grub 50')).toBeVisible();
    expect(await dumpOf(clean.book)).toEqual(empty);
    await key('Bring it in').click();
    await expect.element(page.getByRole('heading', { name: 'It is in' })).toBeVisible();
    await expect.element(page.getByText(/^Came in: 2 sessions/)).toBeVisible();
    expect(await dumpOf(clean.book)).toEqual(await dumpOf(shop.book));
    // After another visit the list can be opened again, and the Workshop leads there.
    show(clean, <WorkshopScreen />);
    await expect
      .element(page.getByText(/^Came in last, today: warmshot-2026-11-25.warmshot/))
      .toBeVisible();
    show(clean, <OpenCopyScreen />);
    await page.getByText('What came in').click();
    await expect.element(page.getByText(/^Came in: 2 sessions/)).toBeVisible();
    await page.getByText('Thing by thing').click();
    await page.getByText('Session: Tue 24 Nov, 3 shots, 10 new lines').click();
    await expect.element(page.getByText(/All good|3 good, 1 bad/).first()).toBeVisible();
    await key('Undo this').click();
    await expect.element(page.getByText(/^Undone/)).toBeVisible();
    expect(await dumpOf(clean.book)).toEqual(empty);
  });

  test('a change is told fact by fact and event by event, before it comes in', async () => {
    const other = await aShop();
    await broughtIn(other.book, await openedFile(await aFile(shop), null), {
      name: 'first',
      at: morning,
      version: '1',
    });
    const [mould] = await headsOf(shop.book, 'moulds');
    const [sealed] = await shop.book.db.getAll('sealed');
    if (!mould || !sealed) throw new Error('The shop is empty.');
    const changes = { name: 'Grub 60', massG: 900, setSec: 95, closed: [2] };
    await changeHead(shop.book, 'moulds', mould.id, changes, morning);
    await addToSession(shop.book, sealed.id, { kind: 'noted', text: 'Tails were thin' }, morning);
    const opened = sealed.entries.findLast(({ said }) => said.kind === 'opened') as Entry;
    await takeBack(shop.book, sealed.id, opened.id, morning);
    const root = show(other, <OpenCopyScreen />);
    await choose(await aFile(shop));
    await page.getByText('Thing by thing').click();
    await page.getByText('Mould: Grub 60').click();
    await expect.element(page.getByText('Name: was Grub 50, now Grub 60')).toBeVisible();
    await expect.element(page.getByText('Weight: was not set, now 900 g')).toBeVisible();
    await expect.element(page.getByText('Set time: was not set, now 1:35')).toBeVisible();
    await expect.element(page.getByText('Closed cavities: was none, now 2')).toBeVisible();
    await page.getByText(/^Session: .*2 new lines/).click();
    await expect.element(page.getByText('Tails were thin. Note')).toBeVisible();
    await expect.element(page.getByText(/Taken back: /)).toBeVisible();
    expect(await faults(root)).toEqual([]);
    expect(isNoWider()).toBe(true);
  });

  test('a locked copy asks for its words, keeps what was typed wrong, and opens', async () => {
    const clean = await aShop();
    show(clean, <OpenCopyScreen />);
    await choose(await aFile(shop, 'lamp river stone apple tiny frog'));
    const words = page.getByLabelText('Its words');
    await words.fill('lamp river stone apple tiny fog');
    await key('Unlock').click();
    await expect.element(page.getByRole('alert')).toHaveTextContent('These are not its words.');
    await expect.element(words).toHaveValue('lamp river stone apple tiny fog');
    await words.fill('lamp river stone apple tiny frog');
    await key('Unlock').click();
    await expect.element(key('Bring it in')).toBeVisible();
  });

  test('a copy of what is here already says that nothing is new', async () => {
    show(shop, <OpenCopyScreen />);
    await choose(await aFile(shop));
    await expect.element(page.getByText('Nothing new: all of it is here already.')).toBeVisible();
    expect(key('Bring it in').elements()).toEqual([]);
  });

  test.each([
    ['a text', () => new File(['hello'], 'x.warmshot'), 'This is no Warmshot copy.'],
    ['nothing', () => new File([], 'x.warmshot'), 'This is no Warmshot copy.'],
    [
      'a copy that was cut',
      async () => new File([(await aFile(shop)).slice(0, 900)], 'x.warmshot'),
      'This file is cut short',
    ],
  ] as const)('%s is refused in a sentence by its field, and nothing changes', async (...by) => {
    const [, fileOf, sentence] = by;
    const before = await dumpOf(shop.book);
    show(shop, <OpenCopyScreen />);
    await choose(await fileOf());
    await expect.element(page.getByRole('alert')).toHaveTextContent(sentence);
    await expect.element(page.getByLabelText('The file')).toHaveAttribute('aria-invalid', 'true');
    expect(await dumpOf(shop.book)).toEqual(before);
  });

  test('while a session runs nothing is brought in', async () => {
    const mould = await aMould(shop.book, 'Craw 40');
    await pourEvening(shop.book, { fills: [{ mould, gave: null }], at: morning, endMin: null });
    show(shop, <OpenCopyScreen />);
    await expect.element(page.getByText(/^A session runs here/)).toBeVisible();
    expect(page.getByLabelText('The file').elements()).toEqual([]);
  });

  test('what was logged since is not undone, and the copy from before can be saved', async () => {
    const clean = await aShop();
    await aMould(clean.book, 'Mine');
    show(clean, <OpenCopyScreen />);
    await choose(await aFile(shop));
    await key('Bring it in').click();
    await expect.element(key('Undo this')).toBeVisible();
    await aMould(clean.book, 'Since');
    await expect.element(page.getByText(/^You have logged since/)).toBeVisible();
    await key('Save the copy from before').click();
    await expect.poll(() => clean.handed.length).toBe(1);
    const { header } = await openedFile(clean.handed[0] as File, null);
    expect([header.counts.moulds, header.counts.sealed]).toEqual([1, 0]);
    // Where the device has a share sheet it is offered, within a press of its own.
    const shared: string[] = [];
    clean.files = {
      ...clean.files,
      canShare: () => true,
      share: async ({ name }) => shared.push(name) > 0,
    };
    show(clean, <OpenCopyScreen />);
    await key('Save the copy from before').click();
    await key('Share it').click();
    await expect.poll(() => shared).toEqual(['warmshot-2026-11-25-before.warmshot']);
  });
});

describe('the pages', () => {
  const pages = [
    ['take a copy', () => <KeepScreen />, ['Six words']],
    ['take a copy with own words, refused', () => <KeepScreen />, ['My words', 'Make the copy']],
    ['a copy that is good', () => <KeepScreen />, ['Make the copy', 'Save it']],
    ['open a copy', () => <OpenCopyScreen />, []],
  ] as const;

  test.each(pages)(
    '%s: no fault that axe knows, 320 px, keys of 48 px',
    async (_, screen, presses) => {
      await page.viewport(320, 568);
      const root = show(shop, screen());
      for (const name of presses) await key(name).click();
      await expect.element(page.getByRole('heading', { level: 1 })).toBeVisible();
      for (const palette of ['chalk', 'lamp']) {
        document.documentElement.dataset.theme = palette;
        expect(await faults(root), palette).toEqual([]);
      }
      document.documentElement.dataset.theme = 'chalk';
      expect(isNoWider()).toBe(true);
      for (const one of root.querySelectorAll('button, a, input, summary')) {
        const { width, height } = one.getBoundingClientRect();
        expect(Math.min(width, height), one.textContent ?? '').toBeGreaterThanOrEqual(48);
      }
    },
  );

  test('what comes in, opened list and all, has no fault that axe knows', async () => {
    await page.viewport(320, 568);
    const clean = await aShop();
    const root = show(clean, <OpenCopyScreen />);
    await choose(await aFile(shop));
    await page.getByText('Thing by thing').click();
    expect(await faults(root)).toEqual([]);
    expect(isNoWider()).toBe(true);
  });
});
