import { columnsOf } from '#calc/columns.ts';
import type { SessionId } from '#model/entry.ts';
import type { SealedSession } from '#model/session.ts';
import type { Book } from '#store/book.ts';

const uuids = /[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}/g;
const dayMs = 86_400_000;

/**
 * Repeats an ended session of the logbook, a day earlier each time: every line and shot with an id of
 * its own, the same moulds and colours. Whole sessions with all their lines, and their digests.
 */
export async function repeatSession(book: Book, id: SessionId, times: number): Promise<void> {
  const sealed = await book.db.get('sealed', id);
  if (!sealed) throw new Error('That session is not in the logbook.');
  const heads = await Promise.all([
    book.db.getAllKeys('moulds'),
    book.db.getAllKeys('colourways'),
    book.db.getAllKeys('injectors'),
  ]);
  const kept = new Set<string>(heads.flat());
  const text = JSON.stringify(sealed);
  for (let from = 1; from <= times; from += 50) {
    const tx = book.db.transaction(['sealed', 'columns'], 'readwrite');
    for (let number = from; number < Math.min(from + 50, times + 1); number += 1) {
      const next = earlier(JSON.parse(renamed(text, number, kept)), number * dayMs);
      void tx.objectStore('sealed').put(next);
      void tx.objectStore('columns').put(columnsOf(next.id, next.entries));
    }
    await tx.done;
  }
}

function renamed(text: string, number: number, kept: ReadonlySet<string>): string {
  const tail = number.toString(16).padStart(4, '0');
  return text.replaceAll(uuids, (id) => (kept.has(id) ? id : `${id.slice(0, -4)}${tail}`));
}

function earlier(sealed: SealedSession, byMs: number): SealedSession {
  return {
    ...sealed,
    startedAt: sealed.startedAt - byMs,
    endedAt: sealed.endedAt - byMs,
    entries: sealed.entries.map((entry) => ({
      ...entry,
      at: entry.at - byMs,
      writtenAt: entry.writtenAt - byMs,
    })),
  };
}
