import { describe, expect, test } from 'vitest';
import type { ColourwayId } from '#model/gear.ts';
import { type Book, openBook } from '#store/book.ts';
import type { Table } from '#store/db.ts';
import { changeHead, headOf, headsOf } from '#store/heads.ts';
import { allColumns } from '#store/history.ts';
import { type KeeperNews, keepUp } from '#store/keep-up.ts';
import { entriesOf, putRight, runningEntries, sealedSessions } from '#store/sessions.ts';
import { changeSettings, settingsOf } from '#store/settings.ts';
import { aDrawer, type MemoryDrawer } from '../hands/drawer.ts';
import { aColourway, aMould, morning, pourEvening, seven } from '../hands/evening.ts';
import { textOf } from '../hands/second-copy.ts';

type Checked = Extract<KeeperNews, { news: 'checked' }>;
const none = { sessions: 0, moulds: 0, colourways: 0, injectors: 0, others: 0 };

/** A logbook with two moulds, a colour, two ended sessions and one that runs. */
async function aShopOf(drawer: MemoryDrawer | null = aDrawer()) {
  const name = `check-${crypto.randomUUID()}`;
  const book = await openBook(name);
  const grub = await aMould(book, 'Grub 50');
  const shad = await aMould(book, 'Shad 7');
  const peat = await aColourway(book, 'Peat brown', '#5b4029');
  await changeSettings(book, { palette: 'lamp' }, seven);
  const fills = [
    { mould: grub, gave: 'ggsg' },
    { mould: shad, gave: 'gggg' },
  ];
  const old = await pourEvening(book, { fills, at: seven - 2 * 86_400_000 });
  await pourEvening(book, { fills, colourway: peat, at: seven - 86_400_000 });
  const running = await pourEvening(book, { fills, endMin: null });
  if (drawer) await startAt(book, drawer);
  return { book, drawer, grub, shad, peat, old, running, before: await textOf(book) };
}

/** One start of the app: everything is looked through. */
async function startAt(book: Book, drawer: MemoryDrawer | null): Promise<Checked> {
  const heard: KeeperNews[] = [];
  const means = {
    openDrawer: async () => {
      if (!drawer) throw new DOMException('None.', 'SecurityError');
      return drawer;
    },
    inTurn: async <T>(_name: string, act: () => Promise<T>) => await act(),
    now: () => morning,
  };
  const keeper = keepUp(book.db.name, means, (news) => heard.push(news));
  await keeper.check();
  keeper.stop();
  const [news] = heard;
  if (news?.news !== 'checked') throw new Error(JSON.stringify(news));
  return news;
}

/** Changes a stored value behind the back of the app, as a failing disk does. */
async function damage(book: Book, table: Table, change: (value: never) => unknown): Promise<void> {
  const tx = book.db.transaction(table, 'readwrite');
  const values = await tx.store.getAll();
  await tx.store.clear?.();
  for (const value of values) {
    const next = change(structuredClone(value) as never);
    if (next !== undefined) await tx.store.put?.(next as never);
  }
  await tx.done;
}

describe('nothing wrong', () => {
  test('nothing is touched and nothing is told', async () => {
    const { book, drawer, before } = await aShopOf();
    const news = await startAt(book, drawer);
    expect(news.findings).toMatchObject({ putBack: none, putRight: none, setAside: 0 });
    expect(news.isFresh).toBe(false);
    expect(news.held).toMatchObject({ sessions: 3, moulds: 2 });
    expect(news.copy).toEqual(news.held);
    expect(await textOf(book)).toBe(before);
  });

  test('what the copy did not hear of before a kill is kept, not turned back', async () => {
    const { book, drawer, grub, old } = await aShopOf();
    await changeHead(book, 'moulds', grub.id, { name: 'Grub 60' }, morning);
    await changeSettings(book, { potMl: 500 }, morning);
    const [target] = await entriesOf(book, old);
    if (!target) throw new Error('No entry.');
    const says = target.said as never;
    await putRight(book, old, { target: target.id, says, happenedAt: target.at }, morning);
    const before = await textOf(book);
    const { findings } = await startAt(book, drawer);
    expect(findings).toMatchObject({ putBack: none, putRight: none, setAside: 0 });
    expect(await textOf(book)).toBe(before);
  });
});

describe('what is gone comes back', () => {
  const losses: [what: string, table: Table, keep: (value: never) => unknown, counts: object][] = [
    ['one mould', 'moulds', ({ name }: { name: string }) => name !== 'Shad 7', { moulds: 1 }],
    ['every mould', 'moulds', () => false, { moulds: 2 }],
    ['the settings', 'settings', () => false, { others: 1 }],
    ['the colours', 'colourways', () => false, { colourways: 1 }],
    ['the ended sessions', 'sealed', () => false, { sessions: 2 }],
    ['the running session', 'entries', () => false, { sessions: 1 }],
    ['the digests', 'columns', () => false, {}],
  ];
  test.each(losses)('%s', async (_what, table, keep, counts) => {
    const { book, drawer, before } = await aShopOf();
    await damage(book, table, (value) => (keep(value) ? value : undefined));
    expect(await textOf(book)).not.toBe(before);
    const { findings } = await startAt(book, drawer);
    expect(await textOf(book)).toBe(before);
    if (Object.keys(counts).length > 0) expect(findings.putBack).toEqual({ ...none, ...counts });
    expect(findings.putRight).toEqual(none);
  });

  test('the last presses of a running session', async () => {
    const { book, drawer, before } = await aShopOf();
    const all = (await runningEntries(book)) ?? [];
    const lost = new Set(all.slice(-3).map(({ id }) => id));
    await damage(book, 'entries', (entry: { id: never }) =>
      lost.has(entry.id) ? undefined : entry,
    );
    const { findings, before: had } = await startAt(book, drawer);
    expect(had.entries).toBe(findings ? (await startAt(book, drawer)).held.entries - 3 : 0);
    expect(findings.putBack).toEqual({ ...none, sessions: 1 });
    expect(await textOf(book)).toBe(before);
  });

  test('a session that was ended in the copy and runs in the database is ended', async () => {
    const { book, drawer, before, old } = await aShopOf();
    const whole = await entriesOf(book, old);
    // The transaction that ended it is gone: its entries run again, without the end.
    await damage(book, 'sealed', (sealed: { id: string }) =>
      sealed.id === old ? undefined : sealed,
    );
    await damage(book, 'columns', (digest: { sessionId: string }) =>
      digest.sessionId === old ? undefined : digest,
    );
    for (const entry of whole.slice(0, -1)) await book.db.put('entries', entry);
    await startAt(book, drawer);
    expect(await textOf(book)).toBe(before);
  });

  test('new stamps are later than all that came back', async () => {
    const { book, drawer } = await aShopOf();
    const { findings } = await startAt(book, drawer);
    const stamps = (await sealedSessions(book)).flatMap(({ entries }) => entries);
    const newest = [...stamps, ...((await runningEntries(book)) ?? [])].map(({ stamp }) => stamp);
    expect((findings.newestStamp ?? '') >= (newest.sort().at(-1) ?? 'x')).toBe(true);
  });
});

describe('what changed by itself is put right', () => {
  test('a fact of a mould', async () => {
    const { book, drawer, before } = await aShopOf();
    await damage(book, 'moulds', (mould: { name: string }) =>
      mould.name === 'Grub 50' ? { ...mould, name: 'Grub 70' } : mould,
    );
    const { findings } = await startAt(book, drawer);
    expect(findings.putRight).toEqual({ ...none, moulds: 1 });
    expect(await textOf(book)).toBe(before);
  });

  test('and a fact that was set since then stays as it was set', async () => {
    const { book, drawer, grub } = await aShopOf();
    await changeHead(book, 'moulds', grub.id, { massG: 900 }, morning);
    await damage(book, 'moulds', (mould: { name: string }) =>
      mould.name === 'Grub 50' ? { ...mould, name: 'Grub 70' } : mould,
    );
    await startAt(book, drawer);
    expect(await headOf(book, 'moulds', grub.id)).toMatchObject({ name: 'Grub 50', massG: 900 });
  });

  test.each(['entries', 'sealed'] as const)('a result in %s', async (table) => {
    const { book, drawer, before } = await aShopOf();
    await damage(book, table, (value) =>
      JSON.parse(JSON.stringify(value).replace('"short"', '"flash"')),
    );
    expect(await textOf(book)).not.toBe(before);
    const { findings } = await startAt(book, drawer);
    expect(findings.putRight.sessions).toBeGreaterThan(0);
    expect(await textOf(book)).toBe(before);
  });

  test('a digest, whose session is as it was', async () => {
    const { book, drawer, before } = await aShopOf();
    await damage(book, 'columns', (digest: { cells: Uint8Array }) => {
      digest.cells[0] = 3;
      return digest;
    });
    const { findings } = await startAt(book, drawer);
    expect(findings.putRight).toEqual(none);
    expect(await textOf(book)).toBe(before);
  });

  test('a key: the record stands once, where it was', async () => {
    const { book, drawer, before } = await aShopOf();
    await damage(book, 'columns', (digest: { startedAt: number }) => ({
      ...digest,
      startedAt: digest.startedAt + 1,
    }));
    await startAt(book, drawer);
    expect(await allColumns(book)).toHaveLength(2);
    expect(await textOf(book)).toBe(before);
  });
});

describe('what cannot be read', () => {
  test('is taken from the copy', async () => {
    const { book, drawer, before } = await aShopOf();
    await damage(book, 'colourways', (colourway: object) => ({ ...colourway, sides: 'x' }));
    const { findings } = await startAt(book, drawer);
    expect(findings).toMatchObject({ setAside: 0, putRight: { colourways: 1 } });
    expect(await textOf(book)).toBe(before);
  });

  test('and is in no copy is set aside whole, not wiped, and the rest is used on', async () => {
    const { book, grub, peat } = await aShopOf(null);
    await damage(book, 'colourways', (colourway: object) => ({ ...colourway, sides: 'x' }));
    const { findings, copy } = await startAt(book, null);
    expect(copy).toBeNull();
    expect(findings.setAside).toBe(1);
    expect(await headsOf(book, 'colourways')).toEqual([]);
    expect(await headOf(book, 'moulds', grub.id)).toEqual(grub);
    expect(await book.db.get('meta', `aside colourways ${peat.id}`)).toMatchObject({
      table: 'colourways',
      key: peat.id,
      record: { ...peat, sides: 'x' },
      foundAt: morning,
    });
    expect((await startAt(book, null)).findings.setAside).toBe(0);
  });

  test('in a session takes out that line alone, ended or running', async () => {
    const { book, old, running } = await aShopOf(null);
    const counts = async () => [
      (await entriesOf(book, old)).length,
      (await entriesOf(book, running)).length,
    ];
    const [ended = 0, open = 0] = await counts();
    const spoil = (entry: { said: { kind: string } }) =>
      entry.said.kind === 'opened' ? { ...entry, said: { kind: 'opened', shots: 7 } } : entry;
    await damage(book, 'entries', spoil as never);
    await damage(book, 'sealed', (session: { id: string; entries: [] }) =>
      session.id === old ? { ...session, entries: session.entries.map(spoil as never) } : session,
    );
    const { findings } = await startAt(book, null);
    expect(findings.setAside).toBe(4);
    expect(await counts()).toEqual([ended - 2, open - 2]);
    expect(await allColumns(book)).toHaveLength(2);
    expect(await book.db.count('meta')).toBe(5);
  });

  test('is put back where it was once the copy has it', async () => {
    const { book, drawer, before } = await aShopOf();
    await damage(book, 'moulds', () => ({ id: 'x', nonsense: true }));
    const { findings } = await startAt(book, drawer);
    expect(findings.putBack.moulds).toBe(2);
    expect(findings.setAside).toBe(1);
    expect(await textOf(book)).toBe(before);
  });
});

test('a damaged line of the copy is written again from the database', async () => {
  const { book, drawer, before } = await aShopOf();
  const bytes = drawer?.files.get('1.log') ?? new Uint8Array(1);
  bytes[400] = (bytes[400] ?? 0) ^ 4;
  const { findings, copy, held } = await startAt(book, drawer);
  expect(findings.damagedLines).toBe(1);
  expect(copy).toEqual(held);
  expect((await startAt(book, drawer)).findings).toMatchObject({ putBack: none, putRight: none });
  expect(await textOf(book)).toBe(before);
});

test('a lost copy is written anew, and that is known', async () => {
  const { book, drawer, before } = await aShopOf();
  drawer?.files.clear();
  const { isFresh, copy, held } = await startAt(book, drawer);
  expect(isFresh).toBe(true);
  expect(copy).toEqual(held);
  expect(await textOf(book)).toBe(before);
});

test('a copy of a newer app is left as it is', async () => {
  const { book, drawer } = await aShopOf();
  const { lineBytes } = await import('#store/journal-line.ts');
  const old = drawer?.files.get('1.log') ?? new Uint8Array(0);
  const line = lineBytes({ version: 99, table: 'moulds', key: 'm', record: { id: 'm' } });
  drawer?.files.set('1.log', Uint8Array.from([...old, ...line]));
  const size = drawer?.files.get('1.log')?.length;
  await expect(startAt(book, drawer)).rejects.toThrow('newer');
  expect(drawer?.files.get('1.log')?.length).toBe(size);
  expect((await settingsOf(book)).palette).toBe('lamp');
  expect(({} as { id?: ColourwayId }).id).toBeUndefined();
});
