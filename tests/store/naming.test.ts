import { unwrap } from 'idb';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { verdictOf } from '#calc/balance.ts';
import { standingOf } from '#calc/log.ts';
import { pouredIn } from '#calc/poured-bait.ts';
import { all } from '#calc/said.ts';
import { tableOf } from '#calc/table.ts';
import { usesOf } from '#calc/used.ts';
import type { PotId, Said, SessionId, ShotId } from '#model/entry.ts';
import type { ColourwayId } from '#model/gear.ts';
import type { Mix, MixId } from '#model/mix.ts';
import type { Photo } from '#model/photo.ts';
import { verdictsOn } from '#store/balance.ts';
import { type Book, freshId, openBook } from '#store/book.ts';
import { colourShopOf } from '#store/colour-shop.ts';
import { broughtIn } from '#store/copy/bring.ts';
import { openedFile } from '#store/copy/file.ts';
import { takenCopy } from '#store/copy/take.ts';
import { addHead, changeHead, headOf, headsOf } from '#store/heads.ts';
import { keepImprovised } from '#store/improvised.ts';
import { keptTables } from '#store/keeping.ts';
import { namelessMixes } from '#store/nameless.ts';
import { nameMix } from '#store/naming.ts';
import { addPhoto, photosOfColourway, photosOfMix } from '#store/photos.ts';
import { remarksThat } from '#store/remarks.ts';
import { addToSession, beginSession, endSession, entriesOf } from '#store/sessions.ts';
import { seven } from '../hands/evening.ts';
import { jpegBytes } from '../hands/full-shop.ts';
import { aFrozenMould, id } from '../hands/log.ts';
import { aDose, aSide, cupMl } from '../hands/mixes.ts';
import { type Fault, failNth, type NthCall } from '../hands/nth-call.ts';

const pair = {
  name: 'Ink and reed',
  sides: [
    { name: 'Ink', swatch: '#1c2733' },
    { name: 'Reed', swatch: '#2f7d3b' },
  ],
};
const hour = 3_600_000;
const [potA, potB] = [id<PotId>('pot', 1), id<PotId>('pot', 2)];
/** Side A was made up alone, then side B beside it: from there on both are one mix. */
const [alone, laminate] = [id<MixId>('mix', 1), id<MixId>('mix', 2)];
const [soot, moss] = [aDose(id('material', 1), 3), aDose(id('material', 2), 2)];

let book: Book;
let sessionId: SessionId;
let nth: NthCall | null = null;

beforeEach(async () => {
  book = await openBook(`naming-${crypto.randomUUID()}`);
  nth = null;
});
afterEach(() => {
  nth?.restore();
  vi.restoreAllMocks();
});

function pot(potId: PotId, slot: number, mix: object, besidePotId?: PotId): Said {
  const filled = { volumeMl: cupMl, meanHeats: 0, maxHeats: 0 };
  const own = { potId, slot, name: `Side ${'AB'[slot]}`, swatch: '#d8d2c2', ...filled, mix };
  const pots = [{ ...own, ...(besidePotId ? { besidePotId } : {}) }] as never;
  return { kind: 'pot-mixed', colourwayId: null, name: 'Pot 2', isAlone: slot === 0, pots };
}
const mixed = (mixId: MixId, role: string, dose: object) => ({
  mixId,
  version: 1,
  role,
  plastisolId: null,
  doses: [dose],
});
const shot = (number: number, potIds: PotId[]): Said => ({
  kind: 'filled',
  shots: [
    {
      shotId: id<ShotId>('shot', number),
      mouldId: id('mould', 1),
      volumeMl: 42,
      closed: [],
      setSec: 180,
    },
  ],
  potIds,
  injectorId: null,
});

/** An evening at the table: a shot of side A alone, then laminates, and what the person kept of them. */
async function anEvening(isEnded: boolean): Promise<{ photos: Photo[] }> {
  sessionId = await beginSession(
    book,
    [
      { kind: 'session-begun', zone: 'Europe/Berlin', ambientC: 20, pourC: 165 },
      { kind: 'lined-up', moulds: [aFrozenMould(1)], injector: null },
      pot(potA, 0, mixed(alone, 'only', soot)),
      shot(1, [potA]),
      pot(potB, 1, mixed(laminate, 'b', moss), potA),
      shot(2, [potA, potB]),
      {
        kind: 'pot-topped-up',
        potId: potA,
        volumeMl: 100,
        meanHeats: 0,
        maxHeats: 0,
        mix: mixed(alone, 'only', { ...soot, amount: 1 }) as never,
      },
      { kind: 'laminate-judged', colourwayId: null, mixId: laminate, verdict: 'b-won' },
    ],
    seven,
  );
  const a = aSide([soot], { role: 'a', name: 'Side A' });
  await keepImprovised(book, alone, { baseMl: cupMl, sides: [{ ...a, role: 'only' }] }, seven);
  const b = aSide([moss], { role: 'b', name: 'Side B' });
  await keepImprovised(book, laminate, { baseMl: cupMl, sides: [a, b] }, seven + 1);
  const table = tableOf(await entriesOf(book, sessionId));
  const photos: Photo[] = [];
  for (const each of table.shots) {
    const { colourwayId, ...poured } = pouredIn(table, sessionId, each);
    photos.push(await aPhoto({ colourwayId, poured }));
  }
  photos.push(await aPhoto({ colourwayId: null, mixId: laminate }));
  photos.push(await aPhoto({ colourwayId: null }));
  const reading = { part: 'b', lab: [40, -20, 20], fault: null, forecast: [42, -18, 22] } as const;
  const facts = { rating: 4, readings: [reading], thicknessMm: 10 };
  await changeHead(book, 'photos', photos[1]?.id as Photo['id'], facts as never, seven + 2);
  for (const mixId of [laminate, null]) {
    const about = { colourwayId: null, mixId, mouldId: null, sessionId: null };
    await addHead(book, 'remarks', { ...about, kind: 'water', text: 'Took at dusk.' }, seven);
  }
  if (isEnded) await endSession(book, sessionId, seven + hour);
  return { photos };
}

async function aPhoto(of: Omit<Parameters<typeof addPhoto>[1], 'shows'>): Promise<Photo> {
  const bytes = jpegBytes.slice().buffer;
  const picture = { bytes, mediaType: 'image/jpeg', widthPx: 4, heightPx: 3 } as const;
  return await addPhoto(book, { shows: 'bait', ...of } as never, picture, seven);
}

/** All that is kept, as text. */
async function everything(): Promise<string> {
  const tables = await Promise.all(keptTables.map((table) => book.db.getAll(table)));
  return JSON.stringify(tables);
}

test.each([true, false])(
  'a name takes along photos, ratings, readings, notes, top-ups and the word on the balance (ended: %s)',
  async (isEnded) => {
    const { photos } = await anEvening(isEnded);
    const [single, both, loose, other] = photos;
    // Before: the laminate's photo is of the laminate, not of the side that was made up first.
    expect([single?.mixId, both?.mixId]).toEqual([alone, laminate]);
    const usesBefore = usesOf(standingOf(await entriesOf(book, sessionId)));
    const { id: colourwayId } = await nameMix(book, laminate, pair, seven + 2 * hour);

    const own = await photosOfColourway(book, colourwayId);
    expect(own.map((photo) => photo.id).sort()).toEqual(
      [single, both, loose].map((photo) => photo?.id ?? '').sort(),
    );
    expect(new Set(own.map(({ mixId }) => mixId))).toEqual(new Set([laminate]));
    expect(own.find((photo) => photo.id === both?.id)).toMatchObject({
      rating: 4,
      thicknessMm: 10,
      readings: [{ part: 'b', forecast: [42, -18, 22] }],
    });
    expect(await headOf(book, 'photos', other?.id as Photo['id'])).toMatchObject({
      colourwayId: null,
    });
    const remarks = await headsOf(book, 'remarks');
    expect(remarks.map((one) => one.colourwayId).sort()).toEqual([colourwayId, null].sort());

    const entries = await entriesOf(book, sessionId);
    const lines = standingOf(entries);
    expect(verdictOf(entries, colourwayId)?.verdict).toBe('b-won');
    expect(verdictOf(entries, laminate)).toBeNull();
    const pots = all(lines, 'pot-mixed').flatMap(({ said }) => said.pots);
    expect(pots.map(({ name, mix }) => [name, mix?.mixId, mix?.role])).toEqual([
      ['Ink', laminate, 'a'],
      ['Reed', laminate, 'b'],
    ]);
    const [topUp] = all(lines, 'pot-topped-up');
    expect(topUp?.said.mix).toMatchObject({ mixId: laminate, role: 'a', doses: [{ amount: 1 }] });
    // What went in is what went in: the shelf is the same to the drop.
    expect(usesOf(lines)).toEqual(usesBefore);
    expect(await namelessMixes(book)).toEqual([]);
    expect(await headOf(book, 'mixes', laminate)).toMatchObject({ colourwayId, version: 1 });
  },
);

test.each([true, false])('a name is one transaction (ended: %s)', async (isEnded) => {
  await anEvening(isEnded);
  const { transaction } = IDBDatabase.prototype;
  let writing = 0;
  vi.spyOn(IDBDatabase.prototype, 'transaction').mockImplementation(function (
    this: IDBDatabase,
    ...args
  ) {
    if (args[1] === 'readwrite') writing += 1;
    return transaction.apply(this, args);
  });
  await nameMix(book, laminate, pair, seven + 2 * hour);
  expect(writing).toBe(1);
});

test.each(['UnknownError', 'AbortError', 'QuotaExceededError'] as const satisfies Fault[])(
  'each storage call of a name fails once, %s: nothing of it is kept, and a second press keeps all',
  async (fault) => {
    await anEvening(true);
    const before = await everything();
    const ours = unwrap(book.db);
    let number = 1;
    for (; ; number += 1) {
      nth = failNth('put', number, fault, (db) => db === ours);
      const outcome = await nameMix(book, laminate, pair, seven + 2 * hour).then(
        () => 'kept',
        () => 'refused',
      );
      const isDone = nth.isDone();
      nth.restore();
      nth = null;
      if (!isDone) {
        expect(outcome).toBe('kept');
        break;
      }
      expect(outcome).toBe('refused');
      expect(await everything()).toBe(before);
    }
    // Colour, mix, three photos, a note, the session, its digest, the pen.
    expect(number - 1).toBe(9);
    expect(await namelessMixes(book)).toEqual([]);
  },
);

test('what another window writes meanwhile is taken along as well', async () => {
  const { photos } = await anEvening(true);
  const id = photos[1]?.id as Photo['id'];
  const [colourway] = await Promise.all([
    nameMix(book, laminate, pair, seven + 2 * hour),
    aPhoto({ colourwayId: null, mixId: laminate }),
    changeHead(book, 'photos', id, { rating: 5 }, seven + 3 * hour),
    addHead(
      book,
      'remarks',
      {
        kind: 'cure',
        text: 'Bled a little.',
        colourwayId: null,
        mixId: laminate,
        mouldId: null,
        sessionId: null,
      },
      seven,
    ),
  ]);
  const own = await photosOfColourway(book, colourway.id);
  expect(own).toHaveLength(4);
  expect(own.find((photo) => photo.id === id)?.rating).toBe(5);
});

test('a name that is there already is refused, and nothing is written', async () => {
  await anEvening(false);
  await nameMix(book, laminate, pair, seven + 2 * hour);
  const before = await everything();
  await expect(nameMix(book, laminate, pair, seven + 3 * hour)).rejects.toThrow('named already');
  await expect(nameMix(book, freshId<Mix['id']>(seven), pair, seven + 3 * hour)).rejects.toThrow();
  expect(await everything()).toBe(before);
});

/** What the pages of a colour show of its baits. */
async function pagesOf(of: Book, colourwayId: ColourwayId) {
  const photos = await photosOfColourway(of, colourwayId);
  const { remarks } = await remarksThat(of, (one) => one.colourwayId === colourwayId);
  const taught = (await colourShopOf(of)).photos.filter((one) => one.colourwayId === colourwayId);
  return {
    photos: photos.map(({ id, mixId, rating }) => [id, mixId, rating]),
    remarks: remarks.map(({ text, mixId }) => [text, mixId]).sort(),
    taught: taught.map(({ id, mixId }) => [id, mixId]).sort(),
    balance: await verdictsOn(of, colourwayId),
    ofTheSide: (await photosOfMix(of, alone)).length,
    nameless: (await namelessMixes(of)).length,
  };
}

const fileOf = async (from: Book, at: number): Promise<Blob> =>
  (await takenCopy(from, { withPhotos: true, words: null, version: '1.2.3' }, at)).file;

async function bring(into: Book, file: Blob) {
  const about = { name: 'shop.warmshot', at: seven + 9 * hour, version: '1.2.3' };
  await broughtIn(into, await openedFile(file, null), about);
}

test('what another phone has of a side, or of the mix, from before the name is on the page of the colour, in whatever order files come', async () => {
  const { photos } = await anEvening(true);
  const own = book;
  const other = await openBook(`naming-${crypto.randomUUID()}`);
  await bring(other, await fileOf(own, seven + hour));
  const { id: colourwayId } = await nameMix(own, laminate, pair, seven + 2 * hour);
  // Over there it has no name yet.
  book = other;
  const table = tableOf(await entriesOf(book, sessionId));
  for (const each of table.shots) {
    const poured = pouredIn(table, sessionId, each);
    await aPhoto({ colourwayId: null, poured });
  }
  await aPhoto({ colourwayId: null, mixId: alone });
  await changeHead(book, 'photos', photos[0]?.id as Photo['id'], { rating: 5 }, seven + 3 * hour);
  for (const mixId of [alone, laminate, null]) {
    const about = { colourwayId: null, mixId, mouldId: null, sessionId: null };
    const words = mixId === null ? 'Of nothing.' : `Late, of ${mixId}.`;
    await addHead(book, 'remarks', { ...about, kind: 'cure', text: words }, seven + 3 * hour);
  }
  const said = { colourwayId: null, mixId: laminate, verdict: 'a-won' } as const;
  await addToSession(book, sessionId, { kind: 'laminate-judged', ...said }, seven + 3 * hour);

  const [ours, theirs] = [
    await fileOf(own, seven + 4 * hour),
    await fileOf(other, seven + 4 * hour),
  ];
  const pages: Awaited<ReturnType<typeof pagesOf>>[] = [];
  for (const files of [
    [ours, theirs],
    [theirs, ours],
    [theirs, ours, theirs, ours],
  ]) {
    const third = await openBook(`naming-${crypto.randomUUID()}`);
    for (const file of files) await bring(third, file);
    pages.push(await pagesOf(third, colourwayId));
  }
  await bring(own, theirs);
  await bring(other, ours);
  pages.push(await pagesOf(own, colourwayId), await pagesOf(other, colourwayId));
  const [first] = pages;
  for (const page of pages) expect(page).toEqual(first);
  // Three of before, and three that came.
  expect(first?.photos).toHaveLength(6);
  expect(first?.photos.find(([id]) => id === photos[0]?.id)).toEqual([photos[0]?.id, laminate, 5]);
  expect(
    new Set([...(first?.photos ?? []), ...(first?.taught ?? [])].map((one) => one[1])),
  ).toEqual(new Set([laminate]));
  expect(first?.remarks).toEqual(
    [
      ['Took at dusk.', laminate],
      [`Late, of ${alone}.`, laminate],
      [`Late, of ${laminate}.`, laminate],
    ].sort(),
  );
  // The newest word counts.
  expect(first?.balance).toEqual(['a-won']);
  expect(first).toMatchObject({ ofTheSide: 0, nameless: 0 });
});
