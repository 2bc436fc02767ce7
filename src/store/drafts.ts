import type { Draft } from '#model/draft.ts';
import type { SessionId } from '#model/entry.ts';
import type { Book } from '#store/book.ts';
import { checked } from '#store/door.ts';
import { announce } from '#store/notice.ts';

/** The marks that were begun and not saved in a session. */
export async function draftOf(book: Book, sessionId: SessionId): Promise<Draft> {
  const draft = await book.db.get('drafts', sessionId);
  return draft ?? { sessionId, marks: [], openShotId: null };
}

/** Keeps half-made marks. Resolves once they are on disk. */
export async function keepDraft(book: Book, draft: Draft): Promise<void> {
  await book.db.put('drafts', await checked('drafts', draft));
  announce('drafts');
}
