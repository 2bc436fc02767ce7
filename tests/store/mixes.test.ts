import fc from 'fast-check';
import { beforeEach, describe, expect, test, vi } from 'vitest';
import type { Colourway } from '#model/gear.ts';
import type { Material } from '#model/material.ts';
import type { Mix } from '#model/mix.ts';
import { type Book, freshId, openBook } from '#store/book.ts';
import { undoEntry } from '#store/entries.ts';
import { headOf, headsOf } from '#store/heads.ts';
import { keepImprovised } from '#store/improvised.ts';
import { draftOf, keepMix, noteNextTime, poursOf, versionsOf } from '#store/mixes.ts';
import { namelessMixes } from '#store/nameless.ts';
import { nameMix } from '#store/naming.ts';
import { newestMixes } from '#store/newest-mixes.ts';
import { entriesOf, takeBack } from '#store/sessions.ts';
import { wasPoured } from '#store/told-versions.ts';
import { aColourway, seven } from '../hands/evening.ts';
import { aDraft, aMaterial, pourMix } from '../hands/mixes.ts';

let book: Book;
let peat: Colourway;
let black: Material;
let green: Material;

beforeEach(async () => {
  book = await openBook(`mixes-${crypto.randomUUID()}`);
  peat = await aColourway(book, 'Peat', '#5b4029');
  black = await aMaterial(book, 'Black');
  green = await aMaterial(book, 'Green');
});

const drops = (count: number) => aDraft([[black, count]]);

const pour = (mix: Mix, at: number, isEnded = true) => pourMix(book, mix, at, isEnded);

/** What may never change of a version. */
const written = ({ id, version, baseMl, sides }: Mix) => ({ id, version, baseMl, sides });

describe('versions of a mix', () => {
  test('the newest is changed where it stands until it is poured; then the next one is written', async () => {
    const first = await keepMix(book, peat.id, drops(12), seven);
    const mended = await keepMix(book, peat.id, drops(11), seven + 1_000);
    expect(mended).toMatchObject({ id: first.id, version: 1 });
    await pour(mended, seven + 2_000);
    const second = await keepMix(book, peat.id, drops(9), seven + 1_000_000);
    expect(second.version).toBe(2);
    const all = await versionsOf(book, peat.id);
    expect(all.map(({ version, sides }) => [version, sides[0]?.doses[0]?.amount])).toEqual([
      [2, 9],
      [1, 11],
    ]);
    expect((await newestMixes(book)).get(peat.id)?.id).toBe(second.id);
  });

  test('a poured version never changes, whatever is written and poured after it', async () => {
    const step = fc.oneof(
      fc.record({ act: fc.constant('write' as const), drops: fc.integer({ min: 1, max: 40 }) }),
      fc.record({ act: fc.constant('pour' as const), isEnded: fc.boolean() }),
      fc.record({ act: fc.constant('note' as const), words: fc.string({ maxLength: 20 }) }),
    );
    await fc.assert(
      fc.asyncProperty(fc.array(step, { minLength: 3, maxLength: 12 }), async (steps) => {
        const colour = await aColourway(book, 'Another', '#5e6a72');
        const frozen = new Map<string, ReturnType<typeof written>>();
        let at = seven;
        for (const one of steps) {
          at += 10 * 60_000;
          const [newest] = await versionsOf(book, colour.id);
          if (one.act === 'write') await keepMix(book, colour.id, drops(one.drops), at);
          else if (newest && one.act === 'note') await noteNextTime(book, newest.id, one.words, at);
          else if (newest && one.act === 'pour') {
            frozen.set(newest.id, structuredClone(written(newest)));
            await pour(newest, at, one.isEnded);
          }
          const now = await versionsOf(book, colour.id);
          for (const [id, was] of frozen) {
            const mix = now.find((each) => each.id === id);
            expect(mix && written(mix)).toEqual(was);
          }
          expect(now.map(({ version }) => version)).toEqual(
            now.map((_, index) => now.length - index),
          );
        }
      }),
      { numRuns: 15, seed: 20_261 },
    );
  }, 60_000);

  test('the session keeps the doses it was poured with, as they were', async () => {
    const first = await keepMix(book, peat.id, drops(12), seven);
    const { sessionId, entry } = await pour(first, seven + 1_000);
    const before = structuredClone(entry);
    await keepMix(book, peat.id, aDraft([[green, 2]]), seven + 1_000_000);
    const after = (await entriesOf(book, sessionId)).find(({ id }) => id === entry.id);
    expect(after).toEqual(before);
  });

  test('a pour that was taken back still keeps its version as it was', async () => {
    const first = await keepMix(book, peat.id, drops(12), seven);
    const { sessionId, entry } = await pour(first, seven + 1_000, false);
    await undoEntry(book, sessionId, entry.id, seven + 100_000);
    expect(await wasPoured(book, first.id)).toBe(true);
    expect((await keepMix(book, peat.id, drops(9), seven + 200_000)).version).toBe(2);
    expect(await poursOf(book, [first.id])).toEqual(new Map());
  });

  test('the same doses make no version, also when they are written for another volume', async () => {
    const first = await keepMix(book, peat.id, drops(12), seven);
    await pour(first, seven + 1_000);
    const twice = drops(24);
    const same = { ...twice, baseMl: twice.baseMl * 2, nextTime: 'Hotter.' };
    const kept = await keepMix(book, peat.id, same, seven + 1_000_000);
    expect(kept).toMatchObject({ ...written(first), nextTime: 'Hotter.' });
    expect(await headsOf(book, 'mixes')).toHaveLength(1);
  });

  test('a note for next time stands in the draft of the next version', async () => {
    const first = await keepMix(book, peat.id, drops(12), seven);
    await pour(first, seven + 1_000);
    const noted = await noteNextTime(book, first.id, 'Two drops less black.', seven + 900_000);
    expect(written(noted)).toEqual(written(first));
    const draft = draftOf(noted);
    expect(draft.nextTime).toBe('Two drops less black.');
    const next = await keepMix(
      book,
      peat.id,
      { ...draft, ...drops(10), nextTime: draft.nextTime },
      seven + 1_000_000,
    );
    expect(next).toMatchObject({ version: 2, nextTime: 'Two drops less black.' });
  });

  test('what may not exist is refused and nothing is written', async () => {
    await expect(keepMix(book, peat.id, drops(-1), seven)).rejects.toThrow();
    await expect(keepMix(book, peat.id, { ...drops(1), baseMl: 0 }, seven)).rejects.toThrow();
    expect(await headsOf(book, 'mixes')).toEqual([]);
  });
});

describe('a mix made up at the table', () => {
  test('is kept without a name until the person names it', async () => {
    const mixId = freshId<Mix['id']>(seven);
    await keepImprovised(book, mixId, drops(7), seven);
    expect(await namelessMixes(book)).toMatchObject([{ id: mixId, colourwayId: null, version: 1 }]);
    const mud = { name: 'Mud', sides: [{ name: 'Mud', swatch: '#5b4029' }] };
    const named = await nameMix(book, mixId, mud, seven + 1_000);
    expect(await headOf(book, 'colourways', named.id)).toMatchObject({ name: 'Mud' });
    expect(await namelessMixes(book)).toEqual([]);
    expect(await versionsOf(book, named.id)).toMatchObject([{ id: mixId, version: 1 }]);
    await expect(nameMix(book, mixId, { ...mud, name: 'Other' }, seven + 2_000)).rejects.toThrow(
      'named already',
    );
  });
});

describe('where a version was poured', () => {
  test('every session is told once, the newest first, running or ended', async () => {
    const first = await keepMix(book, peat.id, drops(12), seven);
    const old = await pour(first, seven + 1_000);
    const running = await pour(first, seven + 86_400_000, false);
    const pours = (await poursOf(book, [first.id])).get(first.id);
    expect(pours?.map(({ sessionId }) => sessionId)).toEqual([running.sessionId, old.sessionId]);
    expect(pours?.[0]).toMatchObject({ zone: 'Europe/Berlin', moulds: ['Grub 50'] });
    expect(pours?.[1]).toMatchObject({ at: seven + 61_000, volumeMl: first.baseMl });
  });

  test('an ended evening is told by its digest, and one of an older digest by its lines', async () => {
    const first = await keepMix(book, peat.id, drops(12), seven);
    const { sessionId, entry } = await pour(first, seven + 1_000);
    const told = await poursOf(book, [first.id]);
    const { get } = IDBObjectStore.prototype;
    let read = 0;
    vi.spyOn(IDBObjectStore.prototype, 'get').mockImplementation(function (
      this: IDBObjectStore,
      ...args
    ) {
      if (this.name === 'sealed') read += 1;
      return get.apply(this, args);
    });
    expect(await poursOf(book, [first.id])).toEqual(told);
    expect(read).toBe(0);
    const [digest] = await book.db.getAll('columns');
    if (!digest) throw new Error('There is no digest.');
    const { mixed: _, ...older } = digest;
    await book.db.put('columns', older);
    expect(await poursOf(book, [first.id])).toEqual(told);
    expect(read).toBe(1);
    vi.restoreAllMocks();
    // Taken back at the desk, it was poured nowhere.
    await takeBack(book, sessionId, entry.id, seven + 1_000_000);
    expect(await poursOf(book, [first.id])).toEqual(new Map());
  });
});
