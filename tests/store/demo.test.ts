import { expect, test } from 'vitest';
import { cavityCount } from '#calc/cavity-layout.ts';
import { columnsOf } from '#calc/columns.ts';
import { daysBefore } from '#calc/day-count.ts';
import { dayOf } from '#calc/days.ts';
import { tableOf } from '#calc/table.ts';
import { type Book, openBook } from '#store/book.ts';
import { fillDemo, removeDatabase } from '#store/demo.ts';
import { footingOf } from '#store/footing.ts';
import { headsOf } from '#store/heads.ts';
import { allColumns } from '#store/history.ts';
import { poursOf, versionsOf } from '#store/mixes.ts';
import { demoName } from '#store/names.ts';
import { pictureOf } from '#store/photos.ts';
import { entriesOf, putRight, sealedSessions } from '#store/sessions.ts';
import { settingsOf } from '#store/settings.ts';
import { lastTime, lineUpOf, startPouring } from '#store/start.ts';
import { aMould, morning, pourEvening } from '../hands/evening.ts';

const now = { at: morning, zone: 'Europe/Berlin' };
const bytes = await (await fetch('/demo-shop.bin')).arrayBuffer();
const freshName = () => `demo-${crypto.randomUUID()}`;

async function filledBook(name = freshName()): Promise<Book> {
  const book = await openBook(name);
  await fillDemo(book, bytes, now);
  return book;
}

/** Everything a database holds, as text. */
async function textOf(book: Book): Promise<string> {
  const tables = [...book.db.objectStoreNames];
  return JSON.stringify(await Promise.all(tables.map((table) => book.db.getAll(table))));
}

test('its moulds are aluminium of at least three sizes, one of silicone, and one for the parts that another takes', async () => {
  const moulds = await headsOf(await filledBook(), 'moulds');
  const sizesOf = (material: string) =>
    moulds.filter((mould) => mould.material === material).map(({ layout }) => cavityCount(layout));
  expect(new Set(sizesOf('aluminium')).size).toBeGreaterThanOrEqual(3);
  expect(sizesOf('silicone')).toHaveLength(1);
  const [maker, ...others] = moulds.filter(({ makes }) => makes);
  expect(others).toEqual([]);
  const taken = moulds.flatMap(({ needs = [] }) => needs.map(({ mouldId }) => mouldId));
  expect(taken).toEqual([maker?.id]);
});

test('the shop is there, all of it, and its last session was yesterday', async () => {
  const book = await filledBook();
  expect(await headsOf(book, 'moulds')).toHaveLength(7);
  expect(await headsOf(book, 'injectors')).toHaveLength(2);
  expect(await headsOf(book, 'colourways')).toHaveLength(10);
  expect(await headsOf(book, 'materials')).toHaveLength(18);
  for (const { id, sides } of await headsOf(book, 'colourways')) {
    const versions = await versionsOf(book, id);
    expect(versions.length).toBeGreaterThan(1);
    expect(versions.map(({ version }) => version)).toEqual(
      versions.map((_, at) => versions.length - at),
    );
    for (const mix of versions) expect(mix.sides).toHaveLength(sides.length);
  }
  expect((await settingsOf(book)).heatLimit).toBe(6);
  const sessions = await sealedSessions(book);
  expect(sessions).toHaveLength(40);
  const last = sessions.at(-1);
  expect(daysBefore(dayOf(last?.startedAt ?? 0, now.zone), dayOf(now.at, now.zone))).toBe(1);
  expect(await footingOf(book)).toEqual({ hasRunning: false, isEmpty: false });
});

test('every version of a mix has a picture that opens and says that it is drawn', async () => {
  const book = await filledBook();
  const photos = await headsOf(book, 'photos');
  expect(photos).toHaveLength(21);
  const mixes = await headsOf(book, 'mixes');
  expect(new Set(photos.map(({ mixId }) => mixId))).toEqual(new Set(mixes.map(({ id }) => id)));
  for (const { id, isDrawn, takenAt, widthPx, heightPx } of photos) {
    const picture = await pictureOf(book, id);
    const bitmap = await createImageBitmap(new Blob([picture?.bytes ?? '']));
    expect([bitmap.width, bitmap.height, isDrawn]).toEqual([widthPx, heightPx, true]);
    expect(takenAt).toBeLessThan(now.at);
  }
});

test('every pot of the shop was mixed from a version that stood on that day', async () => {
  const book = await filledBook();
  const mixes = await headsOf(book, 'mixes');
  const byId = new Map(mixes.map((mix) => [mix.id, mix]));
  let pots = 0;
  for (const { entries } of await sealedSessions(book)) {
    for (const { at, said } of entries) {
      if (said.kind !== 'pot-mixed') continue;
      for (const { mix } of said.pots) {
        const version = mix && byId.get(mix.mixId);
        expect(version?.colourwayId).toBe(said.colourwayId);
        expect(version?.version).toBe(mix?.version);
        expect(version?.createdAt ?? at).toBeLessThan(at);
        pots += 1;
      }
    }
  }
  expect(pots).toBeGreaterThan(80);
  const pours = await poursOf(book, [...byId.keys()]);
  expect([...pours.values()].flat().length).toBeGreaterThan(40);
});

test('every session opens as a page reads it, and its digest is that of its entries', async () => {
  const book = await filledBook();
  const digests = await allColumns(book);
  expect(digests).toHaveLength(40);
  let shots = 0;
  for (const digest of digests) {
    const entries = await entriesOf(book, digest.sessionId);
    const table = tableOf(entries);
    expect(columnsOf(digest.sessionId, entries)).toEqual(digest);
    expect([table.begunAt, table.endedAt]).toEqual([digest.startedAt, digest.endedAt]);
    shots += table.shots.length;
  }
  expect(Math.abs(shots - 1_200)).toBeLessThan(50);
});

test('a hand can go on from there: begin a session, put a line of an old one right', async () => {
  const book = await filledBook();
  const last = await lastTime(book);
  expect(last?.moulds.map(({ name }) => name)).toEqual(['Grub 50', 'Bank craw 60', 'Fin insert']);
  const [old] = await sealedSessions(book);
  const target = old?.entries.find(({ said }) => said.kind === 'filled');
  if (!old || !target || target.said.kind !== 'filled') throw new Error('No fill was found.');
  const right = { target: target.id, says: target.said, happenedAt: target.at };
  await putRight(book, old.id, right, now.at);
  const entries = await entriesOf(book, old.id);
  expect(entries.at(-1)?.said.kind).toBe('put-right');
  const mouldIds = (last?.moulds ?? []).map(({ id }) => id);
  const beginning = { mouldIds, injectorId: null, colourwayId: null, zone: now.zone };
  const table = tableOf(await entriesOf(book, await startPouring(book, beginning, now.at)));
  expect(table.seats.map(({ mould }) => mould.ownOpensSec.length)).toEqual([20, 20, 20]);
});

test('a logbook with anything in it is refused and left as it was', async () => {
  const book = await openBook(freshName());
  await aMould(book, 'My own');
  const before = await textOf(book);
  await expect(fillDemo(book, bytes, now)).rejects.toThrow('empty logbook');
  expect(await textOf(book)).toBe(before);
  const twice = await filledBook();
  await expect(fillDemo(twice, bytes, now)).rejects.toThrow('empty logbook');
  expect(await allColumns(twice)).toHaveLength(40);
});

test('bytes that are no demo shop, or one of another shape, leave the logbook empty', async () => {
  const book = await openBook(freshName());
  const packed = async (value: unknown) => {
    const text = new Blob([JSON.stringify(value)]).stream();
    return await new Response(text.pipeThrough(new CompressionStream('gzip'))).arrayBuffer();
  };
  const text = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('gzip'));
  const shop = (await new Response(text).json()) as { version: number; moulds: object[] };
  const broken = [{ ...shop.moulds[0], name: '' }, ...shop.moulds.slice(1)];
  await expect(fillDemo(book, new ArrayBuffer(9), now)).rejects.toThrow();
  await expect(fillDemo(book, await packed({ made: 'demo' }), now)).rejects.toThrow();
  await expect(fillDemo(book, await packed({ ...shop, moulds: broken }), now)).rejects.toThrow(
    'Give it a name.',
  );
  const newer = await packed({ ...shop, version: shop.version + 1 });
  await expect(fillDemo(book, newer, now)).rejects.toThrow('version');
  expect((await footingOf(book)).isEmpty).toBe(true);
});

test('left again, another window makes way, and no database and no made-up name is left behind', async () => {
  const realName = freshName();
  const real = await openBook(realName);
  const mould = await aMould(real, 'My own');
  await pourEvening(real, { fills: [{ mould, gave: 'ggsg' }] });
  const before = await textOf(real);

  const demo = await filledBook(demoName);
  const names = [
    ...(await headsOf(demo, 'moulds')),
    ...(await headsOf(demo, 'colourways')),
    ...(await headsOf(demo, 'injectors')),
  ].map(({ name }) => name);
  demo.db.close();
  let hasMadeWay = false;
  await openBook(demoName, {
    onMadeWay: () => {
      hasMadeWay = true;
    },
  });
  await removeDatabase(demoName);
  expect(hasMadeWay).toBe(true);

  const left = (await indexedDB.databases()).map(({ name }) => name);
  expect(left).toContain(realName);
  expect(left).not.toContain(demoName);
  const after = await textOf(real);
  expect(after).toBe(before);
  for (const name of names) expect(after).not.toContain(`"${name}"`);
  expect((await footingOf(await openBook(demoName))).isEmpty).toBe(true);
  await removeDatabase(demoName);
});

test('a mould comes to the table with the cold line that its own shots taught, silicone without', async () => {
  const book = await filledBook();
  const moulds = await headsOf(book, 'moulds');
  const named = ['Shad 7', 'Toad 45'].flatMap(
    (name) => moulds.find((mould) => mould.name === name)?.id ?? [],
  );
  const { moulds: frozen } = await lineUpOf(book, named, null);
  const [shad, toad] = frozen.map(({ warmAboveK }) => warmAboveK);
  // Planted at 15 K: demo/truths.ts.
  expect(Math.abs((shad ?? 0) - 15)).toBeLessThan(3);
  expect(shad).not.toBe(15);
  expect(toad).toBeNull();
  const fresh = await aMould(book, 'New one');
  const first = await lineUpOf(book, [fresh.id], null);
  expect(first.moulds[0]?.warmAboveK).toBe(15);
});
