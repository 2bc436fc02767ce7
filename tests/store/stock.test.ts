import { beforeEach, describe, expect, test } from 'vitest';
import { stockOf } from '#calc/stock-level.ts';
import type { Said, SaidOf } from '#model/entry.ts';
import type { Material } from '#model/material.ts';
import type { MixId } from '#model/mix.ts';
import type { Movement } from '#model/movement.ts';
import { type Book, freshId, openBook } from '#store/book.ts';
import { logEntry, undoEntry } from '#store/entries.ts';
import { addHead, changeHead, setDeleted } from '#store/heads.ts';
import {
  endSession,
  entriesOf,
  putRight,
  reopenSession,
  sealedSessions,
  takeBack,
} from '#store/sessions.ts';
import { mixOf, startPouring } from '#store/start.ts';
import { mergeMovements, movementsOf, moveStock, shelfOf, takeBackMovement } from '#store/stock.ts';
import { aMould, seven } from '../hands/evening.ts';
import { aMaterial } from '../hands/stock.ts';

const min = 60_000;
let book: Book;
let plastisol: Material;
let black: Material;

beforeEach(async () => {
  book = await openBook(`stock-${crypto.randomUUID()}`);
  plastisol = await addHead(
    book,
    'materials',
    aMaterial({ name: 'Soft plastisol', kind: 'plastisol' }),
    seven,
  );
  black = await addHead(book, 'materials', aMaterial({ dropMl: 0.05 }), seven);
});

const bought = (qty: number) => ({ kind: 'bought', qty, cents: 1_000, lot: '' }) as const;
const write = (says: Parameters<typeof moveStock>[2], of = plastisol, at = seven - 60 * min) =>
  moveStock(book, of.id, says, { at, writtenAt: at, note: '' });

async function levelOf(material: Material): Promise<number> {
  const { movements, uses } = await shelfOf(book);
  const { level, missing } = stockOf(material, movements, uses);
  return Math.round((level - missing) * 1e6) / 1e6;
}

/** Says that `volumeMl` of the mix went into a pot, with so many drops of black. */
function dyed(volumeMl: number, drops: number): SaidOf<'pot-mixed'> {
  const said = mixOf(null, volumeMl, 1, seven);
  const dose = { materialId: black.id, name: black.name, amount: drops, isPinned: false };
  const mix = {
    mixId: freshId<MixId>(seven),
    version: 1,
    role: 'only',
    plastisolId: plastisol.id,
    doses: [{ ...dose, unit: 'drop' }],
  } as const;
  return {
    ...said,
    pots: said.pots.map((pot) => ({ ...pot, mix: { ...mix, doses: [...mix.doses] } })),
  };
}

async function aSession() {
  const mould = await aMould(book, 'Grub 50');
  const beginning = { mouldIds: [mould.id], injectorId: null, colourwayId: null, zone: 'UTC' };
  return await startPouring(book, beginning, seven);
}

describe('a movement', () => {
  test('is written once and read back as it was, under its material', async () => {
    const movement = await moveStock(
      book,
      black.id,
      { kind: 'bought', qty: 118.294118, cents: 980, lot: 'A 12' },
      { at: seven - 5 * min, writtenAt: seven, note: 'second bottle' },
    );
    expect(await movementsOf(book, black.id)).toEqual([movement]);
    expect(await movementsOf(book, plastisol.id)).toEqual([]);
    expect(movement).toMatchObject({ at: seven - 5 * min, writtenAt: seven, device: book.device });
  });

  test.each([
    ['a purchase of nothing', { kind: 'bought', qty: 0, cents: 5, lot: '' }],
    ['a purchase for half a cent', { kind: 'bought', qty: 5, cents: 0.5, lot: '' }],
    ['a loss of less than nothing', { kind: 'lost', qty: -1 }],
    ['a count below nothing', { kind: 'counted', level: -1 }],
    ['an endless count', { kind: 'counted', level: Number.POSITIVE_INFINITY }],
  ] as const)('%s is refused and leaves nothing', async (_, says) => {
    await expect(write(says)).rejects.toThrow();
    expect(await movementsOf(book, plastisol.id)).toEqual([]);
  });

  test('that is taken back stays in the journal and counts no more, until that is taken back too', async () => {
    await write(bought(1_000));
    const lost = await write({ kind: 'lost', qty: 200 });
    expect(await levelOf(plastisol)).toBe(800);
    const taken = await takeBackMovement(book, lost, seven);
    expect(await levelOf(plastisol)).toBe(1_000);
    expect(await movementsOf(book, plastisol.id)).toHaveLength(3);
    await takeBackMovement(book, taken, seven + 1);
    expect(await levelOf(plastisol)).toBe(800);
  });

  test('outlives its book: a fresh one of the same name reads the same and writes later stamps', async () => {
    const first = await write(bought(1_000));
    const again = await openBook(book.db.name);
    expect(await movementsOf(again, plastisol.id)).toEqual([first]);
    const next = await moveStock(
      again,
      plastisol.id,
      { kind: 'checked' },
      { at: seven - 90 * min, writtenAt: seven - 90 * min, note: '' },
    );
    expect(next.stamp > first.stamp).toBe(true);
    again.db.close();
  });
});

describe('what a session pours', () => {
  test('is off the shelf at once, back at Undo, and other when it was put right', async () => {
    await write(bought(2_000));
    await write(bought(10), black);
    const sessionId = await aSession();
    const mixed = await logEntry(book, sessionId, dyed(500, 40), seven + min);
    expect([await levelOf(plastisol), await levelOf(black)]).toEqual([1_500, 8]);
    await undoEntry(book, sessionId, mixed.id, seven + 2 * min);
    expect([await levelOf(plastisol), await levelOf(black)]).toEqual([2_000, 10]);
    const again = await logEntry(book, sessionId, dyed(500, 40), seven + 3 * min);
    const right = { target: again.id, says: dyed(700, 60), happenedAt: seven + 3 * min };
    await putRight(book, sessionId, right, seven + 4 * min);
    expect([await levelOf(plastisol), await levelOf(black)]).toEqual([1_300, 7]);
  });

  test('stays the same when the session ends, and goes with what is taken back a month later', async () => {
    await write(bought(2_000));
    const sessionId = await aSession();
    const mixed = await logEntry(book, sessionId, dyed(500, 40), seven + min);
    const topUp: Said = {
      kind: 'pot-topped-up',
      potId: dyedPotId(mixed),
      volumeMl: 100,
      meanHeats: 0,
      maxHeats: 0,
    };
    await logEntry(book, sessionId, topUp, seven + 2 * min);
    expect(await levelOf(plastisol)).toBe(1_400);
    await endSession(book, sessionId, seven + 90 * min);
    expect(await sealedSessions(book)).toHaveLength(1);
    expect(await levelOf(plastisol)).toBe(1_400);
    await takeBack(book, sessionId, mixed.id, seven + 30 * 24 * 60 * min);
    expect(await levelOf(plastisol)).toBe(2_000);
    await reopenSession(book, sessionId, seven + 31 * 24 * 60 * min);
    const [taken] = (await entriesOf(book, sessionId)).filter(
      ({ said }) => said.kind === 'taken-back' && said.target === mixed.id,
    );
    if (!taken) throw new Error('It was taken back.');
    await undoEntry(book, sessionId, taken.id, seven + 31 * 24 * 60 * min);
    expect(await levelOf(plastisol)).toBe(1_400);
  });

  test('of several sessions that run at once is counted for each', async () => {
    await write(bought(2_000));
    for (const sessionId of [await aSession(), await aSession()]) {
      await logEntry(book, sessionId, dyed(300, 1), seven + min);
    }
    expect(await levelOf(plastisol)).toBe(1_400);
  });

  test('before a count is in the count, and the shelf goes on from there', async () => {
    await write(bought(2_000));
    const sessionId = await aSession();
    await logEntry(book, sessionId, dyed(500, 40), seven + min);
    await write({ kind: 'counted', level: 1_450 }, plastisol, seven + 2 * min);
    await logEntry(book, sessionId, dyed(450, 40), seven + 3 * min);
    expect(await levelOf(plastisol)).toBe(1_000);
  });

  test('is measured with the size of drop that is known now', async () => {
    await write(bought(10), black);
    const sessionId = await aSession();
    await logEntry(book, sessionId, dyed(500, 40), seven + min);
    const own = await changeHead(book, 'materials', black.id, { dropMl: 0.06 }, seven + 2 * min);
    expect(await levelOf(own)).toBe(7.6);
  });
});

describe('two copies of a journal', () => {
  test('come together to the same level, whichever comes first and however often', async () => {
    const movements = [
      await write(bought(2_000)),
      await write({ kind: 'lost', qty: 150 }),
      await write({ kind: 'counted', level: 1_700 }),
    ];
    const taken = await takeBackMovement(book, movements[1] as Movement, seven);
    const all = [...movements, taken];
    const level = await levelOf(plastisol);
    const other = await openBook(`stock-${crypto.randomUUID()}`);
    for (const part of [all.slice(2), all.slice(0, 3), all]) await mergeMovements(other, part);
    const shelf = await shelfOf(other);
    expect(shelf.movements).toHaveLength(4);
    expect(stockOf(plastisol, shelf.movements, shelf.uses).level).toBe(level);
    other.db.close();
  });

  test('a line that may not exist is not let in, and neither are those beside it', async () => {
    const good = await write(bought(2_000));
    const bad = { ...good, id: freshId(seven), says: { kind: 'lost', qty: -5 } } as Movement;
    const fresh = { ...good, id: freshId(seven) } as Movement;
    await expect(mergeMovements(book, [fresh, bad])).rejects.toThrow();
    expect(await movementsOf(book, plastisol.id)).toEqual([good]);
  });
});

test('a material that was taken off the list is not on the shelf, and its journal stays', async () => {
  await write(bought(2_000));
  await setDeleted(book, 'materials', plastisol.id, seven, seven);
  const { materials, movements } = await shelfOf(book);
  expect(materials.map(({ id }) => id)).toEqual([black.id]);
  expect(movements).toHaveLength(1);
});

function dyedPotId({ said }: { said: { kind: string } }) {
  const [pot] = (said as SaidOf<'pot-mixed'>).pots;
  if (!pot) throw new Error('A mix fills a pot.');
  return pot.potId;
}
