import fc from 'fast-check';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { mentionsIn } from '#calc/told-mixes.ts';
import type { SessionId } from '#model/entry.ts';
import type { Colourway } from '#model/gear.ts';
import type { Material } from '#model/material.ts';
import type { Mix } from '#model/mix.ts';
import { type Book, openBook } from '#store/book.ts';
import { broughtIn, undoBroughtIn } from '#store/copy/bring.ts';
import { openedFile } from '#store/copy/file.ts';
import { takenCopy } from '#store/copy/take.ts';
import { logEntry, undoEntry } from '#store/entries.ts';
import { headsOf } from '#store/heads.ts';
import { keepMix, versionsOf } from '#store/mixes.ts';
import { addToSession, endSession, entriesOf, reopenSession, takeBack } from '#store/sessions.ts';
import { sessionsTelling, wasPoured } from '#store/told-versions.ts';
import { aColourway, seven } from '../hands/evening.ts';
import { repeatSession } from '../hands/many-sessions.ts';
import { aDraft, aMaterial, potOf, pourMix } from '../hands/mixes.ts';

const dayMs = 86_400_000;
let book: Book;
let peat: Colourway;
let black: Material;

beforeEach(async () => {
  book = await openBook(`told-${crypto.randomUUID()}`);
  peat = await aColourway(book, 'Peat', '#5b4029');
  black = await aMaterial(book, 'Black');
});
afterEach(() => {
  vi.restoreAllMocks();
});

const drops = (count: number) => aDraft([[black, count]]);

/** How many records of evenings are handed out while something is done. */
async function recordsRead(act: () => Promise<unknown>): Promise<number> {
  let read = 0;
  const isOfEvenings = ({ name }: IDBObjectStore) => ['sealed', 'columns'].includes(name);
  const { get, getAll, openCursor } = IDBObjectStore.prototype;
  const counted = <T extends IDBRequest>(store: IDBObjectStore, request: T): T => {
    if (!isOfEvenings(store)) return request;
    request.addEventListener('success', () => {
      const { result } = request;
      read += Array.isArray(result) ? result.length : Number(result != null);
    });
    return request;
  };
  vi.spyOn(IDBObjectStore.prototype, 'get').mockImplementation(function (
    this: IDBObjectStore,
    ...args
  ) {
    return counted(this, get.apply(this, args));
  });
  vi.spyOn(IDBObjectStore.prototype, 'getAll').mockImplementation(function (
    this: IDBObjectStore,
    ...args
  ) {
    return counted(this, getAll.apply(this, args));
  });
  vi.spyOn(IDBObjectStore.prototype, 'openCursor').mockImplementation(function (
    this: IDBObjectStore,
    ...args
  ) {
    return counted(this, openCursor.apply(this, args));
  });
  await act();
  vi.restoreAllMocks();
  return read;
}

test('keeping a mix reads no evening, however many there are, and every evening that ends keeps it so', async () => {
  let at = seven;
  const first = await keepMix(book, peat.id, drops(12), at);
  const { sessionId } = await pourMix(book, first, at);
  await repeatSession(book, sessionId, 60);
  // The list of what they speak of is put together once, from their digests.
  expect(await recordsRead(() => wasPoured(book, first.id))).toBe(61);
  for (const count of [11, 10, 9]) {
    at += dayMs;
    const kept: Mix[] = [];
    const read = await recordsRead(async () => {
      kept.push(await keepMix(book, peat.id, drops(count), at));
      // Not poured yet: it is changed where it stands.
      kept.push(await keepMix(book, peat.id, drops(count + 20), at + 1));
    });
    expect(read).toBe(0);
    expect(kept[1]).toMatchObject({ id: kept[0]?.id, version: 13 - count });
    // A pour whose evening has ended, and one that was taken back at the desk.
    const poured = await pourMix(book, kept[1] as Mix, at + 2);
    if (count === 10) await takeBack(book, poured.sessionId, poured.entry.id, at + 3);
  }
  expect(await recordsRead(() => keepMix(book, peat.id, drops(1), at + dayMs))).toBe(0);
  expect((await versionsOf(book, peat.id)).map(({ version }) => version)).toEqual([5, 4, 3, 2, 1]);
});

test('a digest that does not tell, or is not there, is made up for by the evening itself', async () => {
  const first = await keepMix(book, peat.id, drops(12), seven);
  const { sessionId } = await pourMix(book, first, seven);
  const [digest] = await book.db.getAll('columns');
  if (!digest) throw new Error('There is no digest.');
  const { told: _, ...older } = digest;
  await book.db.put('columns', older);
  expect(await recordsRead(() => wasPoured(book, first.id))).toBe(2);
  expect(await wasPoured(book, first.id)).toBe(true);
  expect((await sessionsTelling(book, first.id)).map((one) => one.sessionId)).toEqual([sessionId]);
  await book.db.delete('meta', 'told');
  await book.db.clear('columns');
  expect(await wasPoured(book, first.id)).toBe(true);
  expect((await sessionsTelling(book, first.id)).map((one) => one.sessionId)).toEqual([sessionId]);
});

test('a pot that another phone told of an evening that is here, too, is known once the file is in', async () => {
  const first = await keepMix(book, peat.id, drops(12), seven);
  const reed = await aColourway(book, 'Reed', '#2f7d3b');
  const other = await keepMix(book, reed.id, drops(3), seven);
  const { sessionId } = await pourMix(book, first, seven);
  const elsewhere = await openBook(`told-${crypto.randomUUID()}`);
  await bring(elsewhere, await fileOf(book, seven), seven);
  await addToSession(elsewhere, sessionId, potOf(other, seven), seven + dayMs);
  expect(await wasPoured(book, other.id)).toBe(false);
  await bring(book, await fileOf(elsewhere, seven), seven + dayMs);
  expect(await wasPoured(book, other.id)).toBe(true);
  expect(await undoBroughtIn(book)).toBe('undone');
  expect(await wasPoured(book, other.id)).toBe(false);
});

async function fileOf(from: Book, at: number): Promise<Blob> {
  const wish = { withPhotos: false, words: null, version: '1.2.3' };
  return (await takenCopy(from, wish, at)).file;
}

async function bring(into: Book, file: Blob, at: number) {
  const about = { name: 'shop.warmshot', at, version: '1.2.3' };
  await broughtIn(into, await openedFile(file, null), about);
}

/** What any line of the logbook speaks of, read line by line. */
async function mentioned(): Promise<Set<string>> {
  const sealed = await book.db.getAll('sealed');
  const entries = [...sealed.flatMap((one) => one.entries), ...(await book.db.getAll('entries'))];
  return mentionsIn(entries).mentioned;
}

test('whatever is poured, ended, opened again, corrected, merged and undone: the list says what the log says', async () => {
  const act = fc.constantFrom(
    ...(['pour', 'pour', 'go on', 'end', 'reopen', 'take back', 'late'] as const),
    ...(['undo', 'write', 'give', 'bring', 'undo file', 'older app', 'ask'] as const),
  );
  const step = fc.record({ act, pick: fc.nat(1_000) });
  await fc.assert(
    fc.asyncProperty(fc.array(step, { minLength: 4, maxLength: 14 }), async (steps) => {
      book = await openBook(`told-${crypto.randomUUID()}`);
      peat = await aColourway(book, 'Peat', '#5b4029');
      black = await aMaterial(book, 'Black');
      let at = seven;
      let file: Blob | null = null;
      await keepMix(book, peat.id, drops(1), at);
      for (const name of ['Reed', 'Ink', 'Rust']) {
        await keepMix(book, (await aColourway(book, name, '#2f7d3b')).id, drops(2), at);
      }
      for (const { act: what, pick } of steps) {
        at += dayMs / 24;
        const mixes = await headsOf(book, 'mixes');
        const mix = mixes[pick % mixes.length] as Mix;
        const ended = (await book.db.getAllKeys('sealed')) as SessionId[];
        const running = (await book.db.getAll('entries')).map(({ sessionId }) => sessionId);
        const old = ended[pick % (ended.length || 1)];
        const now = running[pick % (running.length || 1)];
        const lines = old ? await entriesOf(book, old) : [];
        const line = lines.find(({ said }) => said.kind === 'pot-mixed');
        if (what === 'pour') await pourMix(book, mix, at, pick % 2 === 0);
        if (what === 'go on' && now) await logEntry(book, now, potOf(mix, at), at);
        if (what === 'end' && now) await endSession(book, now, at);
        if (what === 'reopen' && old) await reopenSession(book, old, at);
        if (what === 'take back' && old && line) await takeBack(book, old, line.id, at);
        if (what === 'late' && old) await addToSession(book, old, potOf(mix, at), at);
        if (what === 'undo' && now) {
          const last = (await entriesOf(book, now)).at(-1);
          if (last) await undoEntry(book, now, last.id, at);
        }
        if (what === 'write') await keepMix(book, peat.id, drops(1 + (pick % 40)), at);
        if (what === 'give') {
          file = await fileOf(book, at);
          // The other phone knows a session that this one does not.
          if (pick % 2 === 0 && old) await forget(old);
        }
        if (what === 'bring' && file) await bring(book, file, at);
        if (what === 'undo file') await undoBroughtIn(book);
        if (what === 'older app') await oldDigests();
        if (what === 'ask' || pick % 3 === 0) await expectTrue();
      }
      await expectTrue();
    }),
    { numRuns: 30, seed: 4_312 },
  );
}, 120_000);

async function expectTrue() {
  const truth = await mentioned();
  for (const { id } of await headsOf(book, 'mixes')) {
    expect(await wasPoured(book, id)).toBe(truth.has(id));
    const telling = await sessionsTelling(book, id);
    expect(telling.length > 0).toBe(truth.has(id));
  }
}

/** A logbook that never held this session. */
async function forget(id: SessionId) {
  const sealed = await book.db.get('sealed', id);
  if (!sealed) return;
  await book.db.delete('columns', [sealed.startedAt, id]);
  await book.db.delete('sealed', id);
}

/** Digests as they were packed before they told of every version. */
async function oldDigests() {
  for (const { told: _, ...older } of await book.db.getAll('columns')) {
    await book.db.put('columns', older);
  }
}
