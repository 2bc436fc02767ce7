// The app's own store as one file that a page can import: for drills that save faster than a hand.
export { openBook } from '#store/book.ts';
export { logEntry } from '#store/entries.ts';
export { changeHead, headsOf } from '#store/heads.ts';
export { joinWindows } from '#store/notice.ts';
export { runningEntries } from '#store/running.ts';
export { fits } from '#store/schemas.ts';
