import { expect, test } from 'vitest';
import { toBase64 } from '#store/copy/base64.ts';
import { closedChunks } from '#store/copy/chunks.ts';
import { openedFile, writtenFile } from '#store/copy/file.ts';
import { type Header, headerBytes } from '#store/copy/header.ts';
import { limits } from '#store/copy/limits.ts';
import { noCounts } from '#store/copy/lines.ts';
import { plainGuard } from '#store/copy/lock.ts';
import { packedBytes } from '#store/copy/packing.ts';
import { ladder } from '#store/ladder.ts';
import { all, from, sourceOf, type Written } from '../hands/copies.ts';
import { seeded } from '../hands/seeded.ts';

/** A file of so many records of no size, its text in one piece; its head says no more than it may. */
async function fileOf(count: number): Promise<Blob> {
  const counts = { ...noCounts(), moulds: Math.min(count, limits.records) };
  const header = headerBytes({
    ...{ copy: '0'.repeat(32), version: ladder.length, lock: null, counts },
    ...from,
  } as Header);
  const line = '{"table":"moulds","record":{}}\n';
  const text = `${line.repeat(count)}${JSON.stringify({ end: counts })}\n`;
  async function* whole() {
    yield new TextEncoder().encode(text);
  }
  return new Blob([header, ...(await all(closedChunks(packedBytes(whole()), plainGuard, header)))]);
}

/** How many records of a file are read before it ends. */
async function readOf(file: Blob): Promise<number> {
  let read = 0;
  for await (const _ of (await openedFile(file, null)).records()) read += 1;
  return read;
}

test('a file of as many records as a logbook may have is read to its end, one of one more is refused', {
  timeout: 180_000,
}, async () => {
  expect(await readOf(await fileOf(limits.records))).toBe(300_000);
  await expect(readOf(await fileOf(limits.records + 1))).rejects.toMatchObject({ why: 'too-big' });
});

test('a file that takes longer than it may is given up as too long, one that is stopped as stopped', async () => {
  const chance = seeded(4);
  const picture = () => Uint8Array.from({ length: 300_000 }, () => Math.floor(chance() * 256));
  const records = Array.from(
    { length: 12 },
    (): Written => ({ table: 'photo-bytes', record: { id: 'p', bytes: picture().buffer } }),
  );
  const file = await openedFile(await writtenFile(sourceOf(records), from, null), null);
  expect(await all(file.records({ signal: AbortSignal.timeout(600_000) }))).toHaveLength(12);
  let read = 0;
  const slowly = async () => {
    const signal = AbortSignal.timeout(5);
    for await (const _ of file.records({ signal })) {
      read += 1;
      while (!signal.aborted) await new Promise((done) => setTimeout(done, 1));
    }
  };
  await expect(slowly()).rejects.toMatchObject({ why: 'too-long' });
  expect(read).toBeLessThan(12);
  await expect(all(file.records({ signal: AbortSignal.abort() }))).rejects.toMatchObject({
    why: 'stopped',
  });
});

test('base64 is what RFC 4648, section 10, says it is, at any length', () => {
  const vectors = {
    '': '',
    f: 'Zg==',
    fo: 'Zm8=',
    foo: 'Zm9v',
    foob: 'Zm9vYg==',
    fooba: 'Zm9vYmE=',
    foobar: 'Zm9vYmFy',
  };
  for (const [plain, packed] of Object.entries(vectors)) {
    expect(toBase64(new TextEncoder().encode(plain))).toBe(packed);
  }
  const chance = seeded(7);
  for (const length of [24_575, 24_576, 24_577, 100_001]) {
    const bytes = Uint8Array.from({ length }, () => Math.floor(chance() * 256));
    expect(toBase64(bytes)).toBe(Buffer.from(bytes).toString('base64'));
  }
});
