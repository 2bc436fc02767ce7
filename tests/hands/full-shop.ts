import type { IDBPDatabase } from 'idb';
import type { SessionId, ShotId } from '#model/entry.ts';
import type { MaterialId } from '#model/material.ts';
import type { MovementId } from '#model/movement.ts';
import type { PhotoId } from '#model/photo.ts';
import { type Book, freshId, pennedMeta, stampOf } from '#store/book.ts';
import { carried } from '#store/copy/header.ts';
import { checked } from '#store/door.ts';
import { addHead, setDeleted } from '#store/heads.ts';
import { changeSettings } from '#store/settings.ts';
import { aColourway, aMould, pourEvening, seven } from './evening.ts';

/** The least bytes that begin as a JPEG file does. */
export const jpegBytes = Uint8Array.of(0xff, 0xd8, 0xff, 0xe0, 1, 2, 3, 10, 13, 0, 255);

/** Fills a logbook so that no table of it is empty; the last session still runs if `isRunning`. */
export async function fillShop(book: Book, isRunning = true): Promise<void> {
  const mould = await aMould(book, 'Grub 50', { rows: 2, cols: 2 });
  const gone = await aMould(book, 'Old shad');
  await setDeleted(book, 'moulds', gone.id, seven, seven);
  const colourway = await aColourway(book, 'Ink/rust', '#1c2733', '#8a3b1d');
  await addHead(
    book,
    'injectors',
    { name: 'Big', capacityMl: 118, boreMm: 38, isTwin: false },
    seven,
  );
  await changeSettings(book, { palette: 'lamp', tempUnit: 'F' }, seven);
  const material = await addHead(
    book,
    'materials',
    {
      name: 'Soft base, =SUM(A1) “4 L”',
      kind: 'plastisol',
      unit: 'mL',
      package: { qty: 3_785, cents: 4_200 },
      reorderAt: 1_000,
      dropMl: null,
      teaspoonG: null,
      flake: null,
      swatch: null,
      glowsOrChanges: false,
      optics: null,
      isAside: false,
    },
    seven,
  );
  await stockLine(book, material.id, { kind: 'bought', qty: 3_785, cents: 4_200, lot: 'L1' });
  await stockLine(book, material.id, { kind: 'lost', qty: 100 });
  const mix = await addHead(
    book,
    'mixes',
    {
      colourwayId: colourway.id,
      version: 1,
      baseMl: 473,
      sides: [
        { role: 'only', name: 'Ink', swatch: '#1c2733', plastisolId: material.id, doses: [] },
      ],
      nextTime: 'less blue',
    },
    seven,
  );
  const about = { colourwayId: colourway.id, mixId: mix.id, mouldId: mould.id, sessionId: null };
  const photo = await addHead(
    book,
    'photos',
    {
      shows: 'bait',
      colourwayId: colourway.id,
      mixId: mix.id,
      materialId: null,
      sessionId: freshId<SessionId>(seven),
      shotId: freshId<ShotId>(seven),
      mouldId: mould.id,
      takenAt: seven,
      widthPx: 4,
      heightPx: 3,
      mediaType: 'image/jpeg',
      isDrawn: true,
      rating: 4,
      thicknessMm: null,
      readings: [],
    },
    seven,
  );
  await book.db.put('photo-bytes', { id: photo.id as PhotoId, bytes: jpegBytes.slice().buffer });
  await addHead(book, 'remarks', { kind: 'water', text: 'Swims well', ...about }, seven);
  await addHead(
    book,
    'ideas',
    { text: 'Two tails', colourwayId: null, mouldId: mould.id, doneAt: null },
    seven,
  );
  await addHead(
    book,
    'changes',
    {
      mouldId: mould.id,
      at: seven,
      kind: 'vent-opened',
      cavities: [3],
      defect: 'bubble',
      wasPickedAsWorst: true,
      text: '',
    },
    seven,
  );
  const fills = [
    { mould, gave: 'ggsg' },
    { mould, gave: 'gdgg' },
    { mould, gave: 'gggb' },
  ];
  await pourEvening(book, { fills, colourway });
  await pourEvening(book, { fills: fills.slice(1), colourway, at: seven + 3_600_000 });
  if (isRunning) {
    await pourEvening(book, { fills, colourway, at: seven + 7_200_000, endMin: null });
  }
}

/** One line of the stock journal. */
export async function stockLine(
  book: Book,
  materialId: MaterialId,
  says: object,
  at = seven,
): Promise<void> {
  const movement = await checked('movements', {
    id: freshId<MovementId>(at),
    materialId,
    at,
    writtenAt: at,
    stamp: stampOf(book, at),
    device: book.device,
    says,
    note: '',
  });
  const tx = book.db.transaction(['movements', 'meta'], 'readwrite');
  await Promise.all([
    tx.objectStore('movements').put(movement),
    tx.objectStore('meta').put(pennedMeta(book)),
    tx.done,
  ]);
}

/** Everything a logbook holds, table by table in the order of the keys, as text. */
export async function dumpOf(book: Book): Promise<Record<string, string[]>> {
  const tables = [...carried, 'columns'] as const;
  const db = book.db as unknown as IDBPDatabase;
  const found = await Promise.all(tables.map(async (table) => [table, await db.getAll(table)]));
  return Object.fromEntries(
    found.map(([table, rows]) => [table, (rows as unknown[]).map((row) => plainText(row))]),
  );
}

/** A record as text: fields in one order, bytes as numbers. */
function plainText(value: unknown): string {
  return JSON.stringify(value, (_, part: unknown) => {
    if (part instanceof ArrayBuffer) return [...new Uint8Array(part)];
    if (ArrayBuffer.isView(part)) return [...(part as Uint8Array)];
    if (!part || typeof part !== 'object' || Array.isArray(part)) return part;
    return Object.fromEntries(Object.entries(part).sort(([a], [b]) => (a < b ? -1 : 1)));
  });
}
