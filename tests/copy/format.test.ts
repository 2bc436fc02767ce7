import { execFileSync } from 'node:child_process';
import { createCipheriv } from 'node:crypto';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { beforeAll, describe, expect, onTestFinished, test } from 'vitest';
import { crc32 } from '#calc/crc32.ts';
import { openedFile, writtenFile } from '#store/copy/file.ts';
import { readHeader } from '#store/copy/header.ts';
import { hexOf, stretchedWords } from '#store/copy/lock.ts';
import { whyOf } from '#store/copy/refusal.ts';
import { all, changedFile, from, sourceOf, type Written } from '../hands/copies.ts';
import { figure } from '../hands/figure.ts';
import { seeded } from '../hands/seeded.ts';

const words = 'lamp river stone  apple\ttiny frog';
const bytesOf = (hex: string) => Uint8Array.from(Buffer.from(hex, 'hex'));

describe('what the file is built on is what the standards say', () => {
  test('CRC-32 gives the check value of its catalogue entry (ITU-T V.42; Williams 1993)', () => {
    expect(crc32(new TextEncoder().encode('123456789'))).toBe(0xcbf43926);
    expect(crc32(new Uint8Array(0))).toBe(0);
  });

  test('PBKDF2-HMAC-SHA-256 gives the vectors of RFC 7914, section 11', async () => {
    const hex = (text: string) => Buffer.from(text).toString('hex');
    expect(hexOf(new Uint8Array(await stretchedWords('passwd', hex('salt'), 1)))).toBe(
      '55ac046e56e3089fec1691c22544b605f94185216dde0465e68b9d57c20dacbc',
    );
    expect(hexOf(new Uint8Array(await stretchedWords('Password', hex('NaCl'), 80_000)))).toBe(
      '4ddcd8f60b98be21830cee5ef22701f9641a4418d04c0414aeff08876b34ab56',
    );
  });

  test("AES-256-GCM of this platform gives test case 16 of McGrew and Viega's GCM paper", async () => {
    const key = 'feffe9928665731c6d6a8f9467308308'.repeat(2);
    const iv = 'cafebabefacedbaddecaf888';
    const plain =
      'd9313225f88406e5a55909c5aff5269a86a7a9531534f7da2e4c303d8a318a72' +
      '1c3c0c95956809532fcf0e2449a6b525b16aedf5aa0de657ba637b39';
    const also = 'feedfacedeadbeeffeedfacedeadbeefabaddad2';
    const closed =
      '522dc1f099567d07f47f37a32a84427d643a8cdcbfe5c0c97598a2bd2555d1aa' +
      '8cb08e48590dbb3da7b08b1056828838c5f61e6393ba7a0abcc9f662' +
      '76fc6ece0f4e1768cddf8853bb2d551b';
    const made = await crypto.subtle.importKey('raw', bytesOf(key), 'AES-GCM', false, ['encrypt']);
    const by = { name: 'AES-GCM', iv: bytesOf(iv), additionalData: bytesOf(also) };
    const found = await crypto.subtle.encrypt(by, made, bytesOf(plain));
    expect(hexOf(new Uint8Array(found))).toBe(closed);
    const other = createCipheriv('aes-256-gcm', bytesOf(key), bytesOf(iv));
    other.setAAD(bytesOf(also));
    const twin = Buffer.concat([other.update(bytesOf(plain)), other.final(), other.getAuthTag()]);
    expect(twin.toString('hex')).toBe(closed);
  });
});

const tables = ['moulds', 'sealed', 'movements', 'remarks'] as const;
/** A name that no file may carry at any depth: it is refused (below), so none is drawn. */
const aForbiddenName = /"(__proto__|constructor|prototype)":/;
const aRecord = fc
  .tuple(
    fc.constantFrom(...tables),
    fc.dictionary(fc.string(), fc.jsonValue({ maxDepth: 5 })).map((drawn) => JSON.stringify(drawn)),
  )
  .filter(([, text]) => !aForbiddenName.test(text))
  .map(([table, text]): Written => ({ table, record: JSON.parse(text) }));
const aPhoto = fc.uint8Array({ maxLength: 3_000 }).map(
  (bytes): Written => ({
    table: 'photo-bytes',
    record: { id: 'p', bytes: bytes.slice().buffer },
  }),
);

/** Records without the numbers of their lines. */
async function read(file: Blob, phrase: string | null = null): Promise<Written[]> {
  const { records } = await openedFile(file, phrase);
  return (await all(records())).map(({ table, record }) => ({ table, record }));
}

test('what is written is read again, whatever it is', async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(fc.oneof(aRecord, aPhoto), { maxLength: 30 }), async (records) => {
      const file = await writtenFile(sourceOf(records), from, null);
      expect(await read(file)).toEqual(records);
    }),
    { numRuns: 100 },
  );
});

/** Bytes that do not pack, so that a file has several chunks. */
function noise(bytes: number, seed: number): Uint8Array<ArrayBuffer> {
  const chance = seeded(seed);
  return Uint8Array.from({ length: bytes }, () => Math.floor(chance() * 256));
}

const records: Written[] = [
  { table: 'moulds', record: { id: 'm', name: 'Gummifisch ø 50 “日本” \ud83d\udc1f' } },
  ...[1, 2, 3].map(
    (number): Written => ({
      table: 'photo-bytes',
      record: { id: `p${number}`, bytes: noise(900_000, number).buffer },
    }),
  ),
];
const someRecords: Written[] = Array.from({ length: 200 }, (_, number) => ({
  table: 'remarks',
  record: { id: `r${number}`, text: hexOf(noise(40, number)) },
}));

let open: Blob;
let locked: Blob;
beforeAll(async () => {
  open = await writtenFile(sourceOf(records), from, null);
  locked = await writtenFile(sourceOf(records), from, words);
});

test('a locked file opens with its words, spaced as one likes, and with no others', async () => {
  expect(await read(locked, 'lamp river stone apple tiny frog ')).toEqual(records);
  await expect(read(locked, 'lamp river stone apple tiny fr0g')).rejects.toMatchObject({
    why: 'wrong-words',
  });
  await expect(read(locked)).rejects.toMatchObject({ why: 'needs-words' });
  expect(Buffer.from(await locked.arrayBuffer()).includes('Gummifisch')).toBe(false);
});

test('two files of one logbook share neither salt nor nonce nor contents', async () => {
  const again = await writtenFile(sourceOf(records), from, words);
  const [one, other] = [await readHeader(locked), await readHeader(again)];
  expect(one.header.lock?.salt).not.toBe(other.header.lock?.salt);
  expect(one.header.lock?.nonce).not.toBe(other.header.lock?.nonce);
  expect(one.header.copy).not.toBe(other.header.copy);
  expect(one.header.lock?.rounds).toBeGreaterThanOrEqual(600_000);
});

/** Where each chunk of a file begins and ends. */
async function chunksOf(file: Blob): Promise<[number, number][]> {
  const bytes = Buffer.from(await file.arrayBuffer());
  const found: [number, number][] = [];
  let at = (await readHeader(file)).bytes.length;
  while (at < bytes.length) {
    const end = at + 4 + (bytes.readUInt32BE(at) % 0x80000000);
    found.push([at, end]);
    at = end;
  }
  return found;
}

describe.each([
  ['an open file', () => open, null],
  ['a locked file', () => locked, words],
] as const)('%s', (_, fileOf, phrase) => {
  test('has several chunks, and any two that change places are noticed', async () => {
    const chunks = await chunksOf(fileOf());
    expect(chunks.length).toBeGreaterThanOrEqual(3);
    const [a, b] = [chunks[0] ?? [0, 0], chunks[1] ?? [0, 0]];
    const swapped = await changedFile(fileOf(), (bytes) => {
      const parts = [
        bytes.slice(0, a[0]),
        bytes.slice(b[0], b[1]),
        bytes.slice(a[0], a[1]),
        bytes.slice(b[1]),
      ];
      return Uint8Array.from(Buffer.concat(parts));
    });
    await expect(read(swapped, phrase)).rejects.toMatchObject({ why: 'damaged' });
  });

  test('that ends after a whole chunk is noticed, and so is one that goes on', async () => {
    const chunks = await chunksOf(fileOf());
    const end = chunks.at(-2)?.[1] ?? 0;
    const cut = await changedFile(fileOf(), (bytes) => bytes.slice(0, end));
    await expect(read(cut, phrase)).rejects.toMatchObject({ why: 'cut-short' });
    // The last flag moved to the chunk before: still not the file that was written.
    const start = chunks.at(-2)?.[0] ?? 0;
    const feigned = await changedFile(cut, (bytes) => {
      bytes[start] = (bytes[start] ?? 0) | 0x80;
      return bytes;
    });
    await expect(read(feigned, phrase)).rejects.toMatchObject({ why: 'damaged' });
    const longer = new Blob([fileOf(), 'x']);
    await expect(read(longer, phrase)).rejects.toMatchObject({ why: 'damaged' });
  });

  test('takes no chunk of another file', async () => {
    const other = await writtenFile(sourceOf(records), from, phrase);
    const [mine, theirs] = [await chunksOf(fileOf()), await chunksOf(other)];
    const foreign = new Uint8Array(await other.arrayBuffer());
    const mixed = await changedFile(fileOf(), (bytes) => {
      bytes.set(foreign.slice(theirs[0]?.[0], theirs[0]?.[1]), mine[0]?.[0]);
      return bytes;
    });
    await expect(read(mixed, phrase)).rejects.toMatchObject({ why: 'damaged' });
  });

  test('with one bit flipped anywhere, or cut anywhere, is refused', async () => {
    const small = await writtenFile(sourceOf(someRecords), from, phrase);
    const { records: readRecords } = await openedFile(small, phrase);
    expect(await all(readRecords())).toHaveLength(someRecords.length);
    const chance = seeded(320);
    const count = { tried: 0, refused: 0 };
    const refused = async (file: Blob) => {
      count.tried += 1;
      const why = await read(file, phrase).then(
        () => null,
        (error: unknown) => whyOf(error) ?? `not refused but broken: ${String(error)}`,
      );
      if (/^(damaged|cut-short|not-a-copy|newer)$/.test(why ?? '')) count.refused += 1;
      else expect.soft(why).toBe('refused');
    };
    // The derivation of the key is slow by design: a locked file is flipped more sparsely.
    const flips = phrase === null ? 256 : 24;
    for (let turn = 0; turn < flips; turn += 1) {
      const at = Math.floor(chance() * small.size);
      const bit = 1 << Math.floor(chance() * 8);
      await refused(
        await changedFile(small, (bytes) => {
          bytes[at] = (bytes[at] ?? 0) ^ bit;
          return bytes;
        }),
      );
    }
    const cuts = phrase === null ? 64 : 12;
    for (let turn = 0; turn < cuts; turn += 1) {
      const end = Math.floor(chance() * small.size);
      await refused(await changedFile(small, (bytes) => bytes.slice(0, end)));
    }
    figure({
      drill: 'A copy file with one bit flipped, or cut, anywhere',
      required: 'open 320/320 refused, locked 36/36',
      reached: `${phrase === null ? 'open' : 'locked'} ${count.refused}/${count.tried}`,
      isMet: count.refused === count.tried && count.tried === flips + cuts,
    });
  }, 120_000);

  test('is read by a program that shares no line with this one', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'copy-'));
    onTestFinished(() => rmSync(folder, { recursive: true }));
    const path = join(folder, 'shop.warmshot');
    writeFileSync(path, Buffer.from(await fileOf().arrayBuffer()));
    const reader = (...more: string[]) =>
      execFileSync(process.execPath, ['demo/read-backup.mjs', path, ...more], {
        encoding: 'utf8',
        stdio: 'pipe',
      });
    expect(reader(phrase ?? '')).toContain('{"moulds":1,"photo-bytes":3}');
    expect(reader(phrase ?? '', '--records')).toContain('Gummifisch ø 50 “日本” \ud83d\udc1f');
    if (phrase !== null) expect(() => reader('other words')).toThrow('not its words');
  });
});
