import type { Book } from '#store/book.ts';

/** What the app must know before it shows anything; counts only, so that years of data cost nothing. */
export async function footingOf(book: Book): Promise<{ hasRunning: boolean; isEmpty: boolean }> {
  const tx = book.db.transaction(['entries', 'sealed', 'moulds']);
  const [running, sealed, moulds] = await Promise.all([
    tx.objectStore('entries').count(),
    tx.objectStore('sealed').count(),
    tx.objectStore('moulds').count(),
  ]);
  return { hasRunning: running > 0, isEmpty: running + sealed + moulds === 0 };
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
