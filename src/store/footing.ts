import type { Book } from '#store/book.ts';
import type { Table } from '#store/db.ts';

/** What `footingOf` reads. */
export const footingTables = ['entries', 'sealed', 'moulds'] as const satisfies readonly Table[];

/** What the app must know before it shows anything; counts only, so that years of data cost nothing. */
export async function footingOf(book: Book): Promise<{ hasRunning: boolean; isEmpty: boolean }> {
  const [running = 0, sealed = 0, moulds = 0] = await countsIn(book, footingTables);
  return { hasRunning: running > 0, isEmpty: running + sealed + moulds === 0 };
}

/** What is worked out again, kept on this device alone, or only half written. */
const noLoss: ReadonlySet<Table> = new Set(['columns', 'drafts', 'meta']);

/** Whether nothing at all is there, no colour and no setting: a first day, or a lost logbook. */
export async function isBlank(book: Book): Promise<boolean> {
  const tables = [...book.db.objectStoreNames].filter((table) => !noLoss.has(table));
  return (await countsIn(book, tables)).every((count) => count === 0);
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
  const tx = book.db.transaction(['moulds', 'colourways', 'mixes', 'materials']);
  const [moulds, colourways, mixes, materials] = await Promise.all([
    tx.objectStore('moulds').count(),
    tx.objectStore('colourways').count(),
    tx.objectStore('mixes').count(),
    tx.objectStore('materials').count(),
  ]);
  // A mix that was made up at the table waits among the colours for its name.
  const hasColours = colourways + mixes > 0;
  return { hasMoulds: moulds > 0, hasColours, hasMaterials: materials > 0 };
}
