import type { FastClock } from '#platform/fast-clock.ts';
import type { Book } from '#store/book.ts';
import { asideName, shutAside } from '#store/copy/aside.ts';
import { fillDemo, removeDatabase } from '#store/demo.ts';
import { footingOf } from '#store/footing.ts';
import { demoName } from '#store/names.ts';
import { subscribe } from '#store/notice.ts';
import { runningEntries } from '#store/sessions.ts';

/** Fills an empty demo logbook from the file that lies beside the app. */
export async function furnish(book: Book, clock: FastClock): Promise<void> {
  if (!(await footingOf(book)).isEmpty) return;
  const response = await fetch('./demo-shop.bin');
  if (!response.ok) throw new Error(`The demo shop did not come (${response.status}).`);
  await fillDemo(book, await response.arrayBuffer(), { at: clock.now(), zone: clock.zone() });
}

/** Lets the clock run fast while a session is open at the demo table. */
export async function hurry(book: Book, clock: FastClock): Promise<void> {
  const look = async () => {
    const entries = await runningEntries(book);
    clock.runFrom(entries?.[0]?.at ?? null);
  };
  subscribe((tables) => {
    if (tables.includes('entries')) void look().catch(() => {});
  });
  await look();
}

/** Removes every trace of the demo shop and goes back to the person's own. */
export async function leaveDemo(book: Book): Promise<void> {
  shutAside(demoName);
  book.db.close();
  await removeDatabase(demoName);
  await removeDatabase(asideName(demoName));
  window.location.replace(window.location.pathname);
}
