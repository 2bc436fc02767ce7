import { keepSafe } from '#live/keep-safe.ts';
import type { Safety } from '#live/safety.ts';
import { deviceRoom } from '#platform/room.ts';
import { addScript, trustedScript } from '#platform/trusted.ts';
import { type Book, openBook } from '#store/book.ts';
import { joinWindows } from '#store/notice.ts';
import keeperUrl from '../../src/keeper.ts?worker&url';
import { morning } from './evening.ts';

/** A window with its logbook and the worker that keeps the second copy, as the app starts them. */
export interface Window {
  book: Book;
  safety: Safety;
  /** Ends the window as a kill does: the worker is stopped where it is. */
  close(): void;
}

/** Opens a window of the logbook `name`; the second copy is not started yet. */
export async function aWindow(name: string): Promise<Window> {
  const book = await openBook(name);
  const leave = joinWindows(name);
  let worker: Worker | null = null;
  const startWorker = () => {
    addScript(keeperUrl);
    worker = new Worker(trustedScript(keeperUrl), { type: 'module', name });
    return worker;
  };
  const safety = keepSafe({
    name,
    book: () => book,
    now: () => morning,
    room: deviceRoom,
    startWorker,
  });
  return {
    book,
    safety,
    close() {
      worker?.terminate();
      leave();
      book.db.close();
    },
  };
}

/** Every line of the newest file of the second copy, as text. */
export async function linesOfCopy(name: string): Promise<string[]> {
  const root = await navigator.storage.getDirectory();
  const drawer = await root.getDirectoryHandle(name);
  const files: string[] = [];
  for await (const file of drawer.keys()) if (file.endsWith('.log')) files.push(file);
  const newest = files.sort((a, b) => Number.parseInt(a, 10) - Number.parseInt(b, 10)).at(-1);
  if (!newest) return [];
  const file = await (await drawer.getFileHandle(newest)).getFile();
  return (await file.text()).split('\n').filter(Boolean);
}

/** Everything a logbook holds that cannot be worked out again, as text that can be compared. */
export async function textOf(book: Book): Promise<string> {
  const tables = [...book.db.objectStoreNames].filter((table) => table !== 'meta');
  const all = await Promise.all(
    tables.map(async (table) => [table, await book.db.getAll(table)] as const),
  );
  return JSON.stringify(all, (_key, value) =>
    ArrayBuffer.isView(value) ? [...(value as never)] : value,
  );
}
