import { afterEach, beforeAll, expect, test } from 'vitest';
import { type Book, openBook } from '#store/book.ts';
import { broughtIn } from '#store/copy/bring.ts';
import { differenceOf, isNothing } from '#store/copy/difference.ts';
import { openedFile, writtenFile } from '#store/copy/file.ts';
import { type Header, headerBytes, readHeader } from '#store/copy/header.ts';
import { noCounts } from '#store/copy/lines.ts';
import { joined, type Place, plainGuard } from '#store/copy/lock.ts';
import { whyOf } from '#store/copy/refusal.ts';
import { takenCopy } from '#store/copy/take.ts';
import { ladder } from '#store/ladder.ts';
import { from, sourceOf, type Written } from '../../hands/copies.ts';
import { morning } from '../../hands/evening.ts';
import { figure } from '../../hands/figure.ts';
import { dumpOf, fillShop } from '../../hands/full-shop.ts';
import { withHeap } from '../../hands/heap.ts';
import { seeded } from '../../hands/seeded.ts';

/**
 * Files by a hand that knows the format and signs each chunk as it should be: only what is inside
 * can give it away.
 */
let book: Book;
let dump: string;
let good: Written[];

beforeAll(async () => {
  book = await openBook(`hostile-${crypto.randomUUID()}`);
  await fillShop(book, false);
  dump = JSON.stringify(await dumpOf(book));
  const { file } = await takenCopy(book, { withPhotos: true, words: null, version: '1' }, morning);
  good = [];
  for await (const { table, record } of (await openedFile(file, null)).records()) {
    good.push({ table, record });
  }
});

afterEach(async () => {
  expect(JSON.stringify(await dumpOf(book)), 'the logbook is as it was').toBe(dump);
  expect(({} as { polluted?: unknown }).polluted).toBeUndefined();
});

/** A file with a text of one's own inside, in one chunk of any size, with any header. */
async function forged(
  text: string | Uint8Array<ArrayBuffer>,
  changes: Partial<Header> = {},
  chunkOf: (bytes: Uint8Array<ArrayBuffer>) => Uint8Array<ArrayBuffer> = (bytes) => bytes,
): Promise<Blob> {
  const packed = new Blob([text]).stream().pipeThrough(new CompressionStream('gzip'));
  return await signed(chunkOf(new Uint8Array(await new Response(packed).arrayBuffer())), changes);
}

async function signed(
  contents: Uint8Array<ArrayBuffer>,
  changes: Partial<Header> = {},
): Promise<Blob> {
  const header = headerBytes({
    copy: '0'.repeat(32),
    version: ladder.length,
    ...from,
    counts: noCounts(),
    lock: null,
    ...changes,
  } as Header);
  const headerHash = new Uint8Array(await crypto.subtle.digest('SHA-256', header));
  const pieces: Uint8Array<ArrayBuffer>[] = [];
  const size = 1_048_576;
  for (let index = 0; index * size < contents.length || index === 0; index += 1) {
    const isLast = (index + 1) * size >= contents.length;
    const place: Place = { index, isLast, headerHash };
    const part = contents.slice(index * size, (index + 1) * size);
    const closed = await plainGuard.close(part, place);
    const lead = new Uint8Array(4);
    new DataView(lead.buffer).setUint32(0, closed.length + (isLast ? 0x80000000 : 0));
    pieces.push(lead, closed);
  }
  return new Blob([header, ...pieces]);
}

/** The text of some lines with its end, as the format wants it. */
function text(lines: readonly string[], end: object = {}): string {
  return [...lines, JSON.stringify({ end }), ''].join('\n');
}

/** Why a file is refused. */
async function verdict(file: Blob, words: string | null = null): Promise<string> {
  try {
    const { faults } = await differenceOf(book, await openedFile(file, words));
    return faults.length > 0 ? 'left out' : 'taken';
  } catch (error) {
    return whyOf(error) ?? `broken: ${String(error)}`;
  }
}

const mould = (json: string) => `{"table":"moulds","record":${json}}`;
const oneMould = { counts: { ...noCounts(), moulds: 1 } };
const onePicture = { counts: { ...noCounts(), 'photo-bytes': 1 } };
const nested = (depth: number) => `${'['.repeat(depth)}1${']'.repeat(depth)}`;

const forgeries: readonly [string, () => Promise<Blob> | Blob, string][] = [
  ['an empty file', () => new Blob([]), 'not-a-copy'],
  ['one byte', () => new Blob(['W']), 'not-a-copy'],
  ['the magic alone', () => new Blob(['WARMSHOT']), 'cut-short'],
  ['UTF-16 text', () => new Blob([Uint8Array.of(0xff, 0xfe, 0x57, 0, 0x41, 0)]), 'not-a-copy'],
  ['a byte order mark before it', () => new Blob(['\ufeffWARMSHOT']), 'not-a-copy'],
  ['a picture', () => new Blob([Uint8Array.of(0xff, 0xd8, 0xff, 0xe0)]), 'not-a-copy'],
  ['a zip archive', () => new Blob(['PK\u0003\u0004']), 'not-a-copy'],
  [
    'a head of 4 GB',
    () => new Blob(['WARMSHOT', Uint8Array.of(1, 255, 255, 255, 255), 'x'.repeat(100)]),
    'damaged',
  ],
  ['a format of later', () => new Blob(['WARMSHOT', Uint8Array.of(2, 0, 0, 0, 2), '{}']), 'newer'],
  ['a shape of later', () => forged(text([]), { version: ladder.length + 1 }), 'newer'],
  [
    'a shape of later whose head has other fields',
    () => forged(text([]), { version: 9_999, lock: 'in blood' } as never),
    'newer',
  ],
  ['a shape of before', () => forged(text([]), { version: 1 }), 'taken'],
  ['a shape of before the first', () => forged(text([]), { version: 0 }), 'not-allowed'],
  [
    'a lock that is no lock',
    () =>
      forged(text([]), {
        lock: {
          by: 'PBKDF2-SHA256',
          rounds: 1,
          salt: '0'.repeat(32),
          check: '0'.repeat(32),
          cipher: 'AES-256-GCM',
          nonce: '0'.repeat(14),
        },
      }),
    'not-allowed',
  ],
  [
    'a lock that would hang the phone',
    () =>
      forged(text([]), {
        lock: {
          by: 'PBKDF2-SHA256',
          rounds: 4_000_000_000,
          salt: '0'.repeat(32),
          check: '0'.repeat(32),
          cipher: 'AES-256-GCM',
          nonce: '0'.repeat(14),
        },
      }),
    'not-allowed',
  ],
  ['contents that are not packed', () => signed(new TextEncoder().encode(text([]))), 'damaged'],
  ['no contents', () => signed(new Uint8Array(0)), 'damaged'],
  [
    'a text without its end',
    () => forged('{"table":"moulds","record":{}}\n', oneMould),
    'cut-short',
  ],
  ['a text that stops in a line', () => forged('{"table":"moulds","rec'), 'cut-short'],
  ['bytes that are no text', () => forged(Uint8Array.of(0xc3, 0x28, 0x0a)), 'not-allowed'],
  ['a line that is no JSON', () => forged(text(['{"table":'])), 'not-allowed'],
  ['a line that is null', () => forged(text(['null'])), 'not-allowed'],
  ['a line that is a list', () => forged(text(['[]'])), 'not-allowed'],
  ['a table of the device', () => forged(text(['{"table":"meta","record":{}}'])), 'not-allowed'],
  [
    'a table called __proto__',
    () => forged(text(['{"table":"__proto__","record":{}}'])),
    'not-allowed',
  ],
  [
    'a record that is a list',
    () => forged(text(['{"table":"moulds","record":[]}'])),
    'not-allowed',
  ],
  [
    'a record that is a number',
    () => forged(text(['{"table":"moulds","record":7}'])),
    'not-allowed',
  ],
  ['lists 10,000 deep', () => forged(text([mould(nested(10_000))])), 'not-allowed'],
  ['lists 2,000,000 deep', () => forged(text([mould(nested(2_000_000))])), 'not-allowed'],
  [
    'a field called __proto__',
    () => forged(text([mould('{"id":"x","__proto__":{"polluted":true}}')])),
    'not-allowed',
  ],
  [
    'a field called __proto__ in hiding',
    () => forged(text([mould('{"id":"x","a":[{"\\u005f_proto__":{"polluted":true}}]}')])),
    'not-allowed',
  ],
  [
    'a field called constructor',
    () => forged(text([mould('{"constructor":{"prototype":{"polluted":true}}}')])),
    'not-allowed',
  ],
  ['a number beyond numbers', () => forged(text([mould('{"massG":1e999}')])), 'not-allowed'],
  ['a text of 10 MB', () => forged(text([mould(`{"name":"${'a'.repeat(1e7)}"}`)])), 'not-allowed'],
  ['a line of 60 MB', () => forged(text([mould(`{"name":"${'a'.repeat(6e7)}"}`)])), 'too-big'],
  ['a bomb of 200 MB', bomb, 'too-big'],
  ['300,001 records, none of them promised', manyRecords, 'damaged'],
  [
    'a picture of 4 GB',
    () =>
      forged(text(['{"table":"photo-bytes","record":{"id":"x"},"size":4000000000}']), onePicture),
    'not-allowed',
  ],
  [
    'a picture of less than nothing',
    () => forged(text(['{"table":"photo-bytes","record":{"id":"x"},"size":-1}']), onePicture),
    'not-allowed',
  ],
  [
    'a picture longer than the file',
    () => forged(text(['{"table":"photo-bytes","record":{"id":"x"},"size":90000}']), onePicture),
    'cut-short',
  ],
  ['another count than it says', () => forged(text([mould('{}')]), oneMould), 'damaged'],
  ['another count than the head', () => forged(text([mould('{}')], { moulds: 1 })), 'damaged'],
  ['a line after the end', () => forged(`${text([])}{"end":{}}\n`), 'not-allowed'],
  ['a mould that is none', () => forged(text([mould('{}')], { moulds: 1 }), oneMould), 'left out'],
];

function manyRecords(): Promise<Blob> {
  return forged(`${mould('{}')}\n`.repeat(300_001));
}

/** 200 MB of nothing, packed to about 200 kB. */
async function bomb(): Promise<Blob> {
  const zeros = new Uint8Array(1_000_000);
  let left = 200;
  const plain = new ReadableStream<Uint8Array<ArrayBuffer>>({
    pull(controller) {
      left -= 1;
      if (left < 0) controller.close();
      else controller.enqueue(zeros);
    },
  });
  const packed = await new Response(plain.pipeThrough(new CompressionStream('gzip'))).arrayBuffer();
  return await signed(new Uint8Array(packed));
}

/** The longest that one file took, and the most that scripts held meanwhile. */
const most = { sec: 0, mb: 0 };

test.each(forgeries)('%s: nothing changes', async (_, fileOf, expected) => {
  const file = await fileOf();
  const start = performance.now();
  const { made, risenMb } = await withHeap(() => verdict(file));
  most.sec = Math.max(most.sec, (performance.now() - start) / 1_000);
  most.mb = Math.max(most.mb, risenMb);
  expect(made).toBe(expected);
});

/** A good record of the table with some of it changed. */
function wrong(table: Written['table'], changes: Record<string, unknown>): Written {
  const found = good.find((one) => one.table === table);
  if (!found) throw new Error(`The shop has no ${table}.`);
  return { table, record: { ...found.record, ...changes } };
}

/** Tables of the shop, each with a field that must be an instant. */
const tables = [
  ['moulds', 'createdAt'],
  ['injectors', 'createdAt'],
  ['colourways', 'createdAt'],
  ['materials', 'createdAt'],
  ['mixes', 'createdAt'],
  ['photos', 'createdAt'],
  ['remarks', 'createdAt'],
  ['ideas', 'createdAt'],
  ['changes', 'createdAt'],
  ['movements', 'at'],
  ['sealed', 'startedAt'],
] as const;

const strange: readonly [string, () => Written][] = [
  ['an id that is no id', () => wrong('moulds', { id: '../../etc' })],
  ['a mould of minus one gram', () => wrong('moulds', { massG: -1 })],
  ['a mould as heavy as the moon', () => wrong('moulds', { massG: 1e308 })],
  ['a time before clocks', () => wrong('moulds', { createdAt: -1e15 })],
  ['a time after clocks', () => wrong('moulds', { deletedAt: 9e15 })],
  ['a device that is no device', () => wrong('moulds', { device: '<script>' })],
  ['a stamp that is none', () => wrong('moulds', { stamps: { name: 'zzzz' } })],
  [
    'a stamp from the end of time',
    () => wrong('moulds', { stamps: { name: 'ffffffffffff-ffff-ffffffff' } }),
  ],
  ['settings under another name', () => wrong('settings', { id: 'other' })],
  ['a palette that is none', () => wrong('settings', { palette: 'url(javascript:1)' })],
  ['a colour that is code', () => wrong('colourways', { sides: [{ name: 'x', swatch: 'red;}' }] })],
  ['a session without lines', () => wrong('sealed', { entries: [] })],
  [
    'a session with lines of another',
    () => wrong('sealed', { id: '0193a000-0000-7000-8000-000000000001' }),
  ],
  ['a stock line of an unknown kind', () => wrong('movements', { says: { kind: 'stolen' } })],
  [
    'a picture that is a script',
    () => ({
      table: 'photo-bytes',
      record: {
        id: '0193a000-0000-7000-8000-000000000001',
        bytes: new TextEncoder().encode('<svg onload="alert(1)"/>').buffer,
      },
    }),
  ],
  ['a photo of another kind', () => wrong('photos', { mediaType: 'image/svg+xml' })],
  ...tables.flatMap(([table, time]): [string, () => Written][] => [
    [`a line of ${table} whose id is a number`, () => wrong(table, { id: 7 })],
    [`a line of ${table} that is of yesterday`, () => wrong(table, { [time]: 'yesterday' })],
  ]),
];

test.each(strange)('%s is left out with a reason, and the rest would come', async (_, recordOf) => {
  const file = await writtenFile(sourceOf([...good, recordOf()]), from, null);
  const empty = await openBook(`hostile-${crypto.randomUUID()}`);
  const difference = await broughtIn(empty, await openedFile(file, null), {
    name: 'x',
    at: morning,
    version: '1',
  });
  expect(difference.faults).toHaveLength(1);
  expect(difference.faults[0]?.reason).toMatch(/[.]$/);
  expect(JSON.stringify(await dumpOf(empty))).toBe(dump);
});

test('a session whose lines contradict each other does no harm', async () => {
  const session = good.find(({ table }) => table === 'sealed') as Written;
  const entries = session.record.entries as { said: { kind: string } }[];
  const chance = seeded(4);
  for (let turn = 0; turn < 40; turn += 1) {
    const some = entries.filter(() => chance() < 0.6).sort(() => chance() - 0.5);
    const record = { ...session.record, entries: some.length > 0 ? some : entries.slice(0, 1) };
    const file = await writtenFile(sourceOf([{ table: 'sealed', record }]), from, null);
    const empty = await openBook(`hostile-${crypto.randomUUID()}`);
    const about = { name: 'x', at: morning, version: '1' };
    await broughtIn(empty, await openedFile(file, null), about);
    expect(isNothing(await broughtIn(empty, await openedFile(file, null), about))).toBe(true);
    empty.db.close();
  }
});

/** How often one byte is changed. */
const mutations = 1_000;
const mostMb = 100;

test(`a good text with a byte changed, ${mutations} times, signed anew each time, never breaks anything`, async () => {
  const chance = seeded(mutations);
  const { file } = await takenCopy(book, { withPhotos: false, words: null, version: '1' }, morning);
  const { header } = await readHeader(file);
  const lines = good
    .filter(({ table }) => table !== 'photo-bytes')
    .map((one) => JSON.stringify(one));
  const plain = new TextEncoder().encode(text(lines, header.counts));
  const seen = new Set<string>();
  for (let turn = 0; turn < mutations; turn += 1) {
    const changed = joined(plain);
    const at = Math.floor(chance() * changed.length);
    changed[at] = Math.floor(chance() * 256);
    seen.add(await verdict(await forged(changed, { counts: header.counts })));
  }
  const broken = [...seen].filter((said) => said.startsWith('broken'));
  const kinds = forgeries.length + strange.length;
  figure({
    drill: 'Hostile files',
    required: `80 kinds (size, depth, count, time) and 1,000 changed bytes: refused or left out with a reason, heap +${mostMb} MB at most`,
    reached: `${kinds} kinds of copy, ${mutations} changed bytes: ${broken.length} break anything; the slowest ${most.sec.toFixed(1)} s, heap +${most.mb.toFixed(0)} MB`,
    isMet: broken.length === 0 && kinds >= 80 && most.mb <= mostMb,
  });
  expect(kinds).toBeGreaterThanOrEqual(80);
  expect(most.mb).toBeLessThanOrEqual(mostMb);
  expect(broken).toEqual([]);
  expect(seen).toContain('left out');
  expect(seen).toContain('not-allowed');
}, 120_000);
