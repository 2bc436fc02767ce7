import { describe, expect, test } from 'vitest';
import { addLines, blankJournal, keysIn, openJournal, recordIn, rewrite } from '#store/journal.ts';
import { lineBytes, markOf, recordOf } from '#store/journal-line.ts';
import { ladder } from '#store/ladder.ts';
import { aDrawer, type MemoryDrawer } from '../hands/drawer.ts';
import { oddNames } from '../hands/hostile.ts';

const version = ladder.length;
const mould = (key: string, name: string) => ({ table: 'moulds', key, record: { id: key, name } });

/** A file with one line for each mould, and what a fresh look at it finds. */
async function written(...keys: string[]) {
  const drawer = aDrawer();
  const journal = blankJournal();
  const paper = await openJournal(journal, drawer);
  addLines(
    journal,
    paper,
    keys.map((key) => mould(key, `Mould ${key}`)),
  );
  return { drawer, journal, paper };
}

async function reread(drawer: MemoryDrawer) {
  const journal = blankJournal();
  const paper = await openJournal(journal, drawer);
  return { journal, paper };
}

const fileOf = (drawer: MemoryDrawer, name = '1.log') =>
  drawer.files.get(name) ?? new Uint8Array(0);

describe('a line', () => {
  test('carries its checksum: CRC-32 as in zip and gzip', () => {
    // The check value of CRC-32/ISO-HDLC in the catalogue of parametrised CRC algorithms (RevEng):
    // 0xcbf43926 for the nine bytes "123456789"; here of the text after the first space.
    const text = new TextDecoder().decode(
      lineBytes({ version: 2, table: 'moulds', key: 'a', record: 1 }),
    );
    expect(text).toMatch(/^[0-9a-f]{8} 2 moulds a 1\n$/);
    expect(markOf(new TextEncoder().encode('cbf43926 123456789'))).toBeNull();
  });

  test.each(oddNames)('brings back any name letter by letter: %s', (name) => {
    const bytes = lineBytes({ version, table: 'moulds', key: 'a', record: { name } });
    expect(bytes.indexOf(10)).toBe(bytes.length - 1);
    expect(markOf(bytes.subarray(0, -1))).toMatchObject({ version, table: 'moulds', key: 'a' });
    expect(recordOf(bytes.subarray(0, -1))).toEqual({ name });
  });

  test('with any one bit turned is not taken', () => {
    const bytes = lineBytes({ version, table: 'moulds', key: 'a', record: { name: 'Grub 50' } });
    const line = bytes.subarray(0, -1);
    for (let bit = 0; bit < line.length * 8; bit += 1) {
      const turned = line.slice();
      turned[bit >> 3] = (turned[bit >> 3] ?? 0) ^ (1 << (bit & 7));
      expect(markOf(turned), `bit ${bit}`).toBeNull();
    }
  });
});

describe('the file', () => {
  test('gives the newest line of each record', async () => {
    const { drawer, journal, paper } = await written('a', 'b');
    addLines(journal, paper, [mould('a', 'Grub 50')]);
    const again = await reread(drawer);
    expect(keysIn(again.journal, 'moulds')).toEqual(['a', 'b']);
    expect(recordIn(again.journal, again.paper, 'moulds', 'a')).toEqual({
      id: 'a',
      name: 'Grub 50',
    });
    expect(recordIn(again.journal, again.paper, 'moulds', 'nobody')).toBeUndefined();
  });

  test('torn anywhere keeps every whole line, and the next line stands by itself', async () => {
    const whole = fileOf((await written('a', 'b', 'c')).drawer);
    const ends = [...whole.entries()].filter(([, byte]) => byte === 10).map(([at]) => at + 1);
    for (let cut = 0; cut <= whole.length; cut += 1) {
      const drawer = aDrawer();
      drawer.files.set('1.log', whole.slice(0, cut));
      const { journal, paper } = await reread(drawer);
      const kept = ends.filter((end) => end <= cut).length;
      expect(keysIn(journal, 'moulds'), `cut at ${cut}`).toEqual(['a', 'b', 'c'].slice(0, kept));
      addLines(journal, paper, [mould('d', 'After')]);
      const again = await reread(drawer);
      expect(keysIn(again.journal, 'moulds')).toHaveLength(kept + 1);
      expect(again.journal.damaged).toBe(0);
    }
  });

  test('with one damaged line keeps all others', async () => {
    const { drawer } = await written('a', 'b', 'c');
    const bytes = fileOf(drawer);
    const second = bytes.indexOf(10) + 20;
    bytes[second] = (bytes[second] ?? 0) ^ 1;
    const { journal } = await reread(drawer);
    expect(keysIn(journal, 'moulds')).toEqual(['a', 'c']);
    expect(journal.damaged).toBe(1);
  });

  test('longer than one read is found whole', async () => {
    const keys = Array.from({ length: 9_000 }, (_, index) => `mould-${index}`);
    const { drawer } = await written(...keys, 'x'.repeat(300));
    const long = {
      table: 'moulds',
      key: 'long',
      record: { id: 'long', name: 'y'.repeat(3_000_000) },
    };
    const { journal, paper } = await reread(drawer);
    addLines(journal, paper, [long]);
    const again = await reread(drawer);
    expect(keysIn(again.journal, 'moulds')).toHaveLength(9_002);
    expect(recordIn(again.journal, again.paper, 'moulds', 'long')).toEqual(long.record);
  });

  test('hears what another window added', async () => {
    const { drawer, journal } = await written('a');
    const other = await reread(drawer);
    addLines(other.journal, other.paper, [mould('b', 'From elsewhere')]);
    await openJournal(journal, drawer);
    expect(keysIn(journal, 'moulds')).toEqual(['a', 'b']);
  });

  test('that cannot be read is not left open: it could never be opened again', async () => {
    const { drawer, paper } = await written('a');
    paper.close();
    const { open } = drawer;
    drawer.open = async (name) => {
      const opened = await open(name);
      return {
        ...opened,
        read: () => {
          throw new DOMException('Gone.', 'NotReadableError');
        },
      };
    };
    await expect(reread(drawer)).rejects.toThrow('Gone.');
    expect([...drawer.held]).toEqual([]);
  });

  test('forgets a record that was taken out', async () => {
    const { drawer, journal, paper } = await written('a', 'b');
    addLines(journal, paper, [{ table: 'moulds', key: 'a', record: null }]);
    expect(keysIn((await reread(drawer)).journal, 'moulds')).toEqual(['b']);
  });
});

describe('written anew', () => {
  test('says the same in fewer bytes, in one file', async () => {
    const { drawer, journal, paper } = await written('a', 'b');
    for (let turn = 0; turn < 50; turn += 1) addLines(journal, paper, [mould('a', `Name ${turn}`)]);
    const before = fileOf(drawer).length;
    await rewrite(journal, paper, drawer);
    expect([...drawer.files.keys()]).toEqual(['2.log']);
    expect(fileOf(drawer, '2.log').length).toBeLessThan(before / 10);
    const again = await reread(drawer);
    expect(recordIn(again.journal, again.paper, 'moulds', 'a')).toEqual({
      id: 'a',
      name: 'Name 49',
    });
    expect(keysIn(again.journal, 'moulds').sort()).toEqual(['a', 'b']);
  });

  test('and killed at any byte of it, one of the two files is whole', async () => {
    const { drawer, journal, paper } = await written('a', 'b');
    addLines(journal, paper, [mould('a', 'Grub 50')]);
    const old = fileOf(drawer);
    await rewrite(journal, paper, drawer);
    const fresh = fileOf(drawer, '2.log');
    for (let cut = 0; cut <= fresh.length; cut += 1) {
      const killed = aDrawer();
      killed.files.set('1.log', old.slice());
      killed.files.set('2.log', fresh.slice(0, cut));
      const again = await reread(killed);
      expect(killed.files.size, `cut at ${cut}`).toBe(1);
      const name = recordIn(again.journal, again.paper, 'moulds', 'a');
      expect(name, `cut at ${cut}`).toEqual({ id: 'a', name: 'Grub 50' });
      expect(keysIn(again.journal, 'moulds').sort()).toEqual(['a', 'b']);
    }
  });

  test('and refused half-way for want of room, the old file goes on and nothing is left open or lying about', async () => {
    const { drawer, journal, paper } = await written('a', 'b');
    addLines(journal, paper, [mould('a', 'Grub 50')]);
    drawer.roomBytes = 50;
    await expect(rewrite(journal, paper, drawer)).rejects.toThrow('Full.');
    expect([...drawer.held]).toEqual(['1.log']);
    expect([...drawer.files.keys()]).toEqual(['1.log']);
    drawer.roomBytes = Number.POSITIVE_INFINITY;
    addLines(journal, paper, [mould('c', 'Shad 7')]);
    expect(keysIn((await reread(drawer)).journal, 'moulds').sort()).toEqual(['a', 'b', 'c']);
  });

  test('with the end mark damaged later, a file that stands alone still counts', async () => {
    const { drawer, journal, paper } = await written('a', 'b');
    await rewrite(journal, paper, drawer);
    const bytes = fileOf(drawer, '2.log');
    bytes[bytes.length - 4] = 0;
    expect(keysIn((await reread(drawer)).journal, 'moulds')).toEqual(['a', 'b']);
  });
});
