import type { Book } from '#store/book.ts';
import type { Table } from '#store/db.ts';

/** What a person set up or logged. */
export const footingTables = [
  'entries',
  'sealed',
  'moulds',
  'injectors',
  'colourways',
  'materials',
  'mixes',
  'photos',
  'remarks',
  'ideas',
  'changes',
  'movements',
] as const satisfies readonly Table[];

/** What the app must know before it shows anything; counts only, so that years of data cost nothing. */
export async function footingOf(book: Book): Promise<{ hasRunning: boolean; isEmpty: boolean }> {
  const [running = 0, ...others] = await countsIn(book, footingTables);
  return { hasRunning: running > 0, isEmpty: running + others.reduce((a, b) => a + b, 0) === 0 };
}

/** Whether not even settings are there: a logbook on its first day, or one that was lost. */
export async function isBlank(book: Book): Promise<boolean> {
  const { isEmpty } = await footingOf(book);
  return isEmpty && (await countsIn(book, ['settings', 'photo-bytes'])).every((count) => !count);
}

async function countsIn({ db }: Book, tables: readonly Table[]): Promise<number[]> {
  const tx = db.transaction(tables);
  return await Promise.all(tables.map((table) => tx.objectStore(table).count()));
}

/** Which places hold something. */
export async function placesOf(book: Book): Promise<{
  hasMoulds: boolean;
  hasColours: boolean;
  hasMaterials: boolean;
}> {
  const tx = book.db.transaction(['moulds', 'colourways', 'materials']);
  const [moulds, colourways, materials] = await Promise.all([
    tx.objectStore('moulds').count(),
    tx.objectStore('colourways').count(),
    tx.objectStore('materials').count(),
  ]);
  return { hasMoulds: moulds > 0, hasColours: colourways > 0, hasMaterials: materials > 0 };
}
