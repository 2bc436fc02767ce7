import { options } from 'preact';
import { lateAnswers } from './late-answers.ts';

/*
 * Tells when the page stands still. With VITE_SLOW=1 what follows a drawing, and every answer of the database, comes
 * late, as on a phone with its hands full: a test that looks before it waits then fails each time, not once in a
 * hundred runs. (A drawing itself comes before the next press on the slowest phone: preact draws in a microtask.)
 */

const isSlow = Boolean(import.meta.env.VITE_SLOW);
/** ms that effects wait: preact gives them a frame, and at most 35 ms where no frame comes, each time it is asked. */
const followMs = 150;
/** Reads for nothing that stand before the first real one of a transaction. */
const idleReads = 300;
/** ms that a write is on the disk before a page hears of it, as where that has much else to do; the table waits 900. */
const flushMs = 700;

/** The clock of the browser, also where a test has put its own in place. */
const later = window.setTimeout.bind(window);
const nextFrame = window.requestAnimationFrame.bind(window);

/** Drawings asked for and not made, and rounds of effects that are still to come. */
let underWay = 0;

function counted(work: () => void): () => void {
  underWay += 1;
  return () => {
    try {
      work();
    } finally {
      underWay -= 1;
    }
  };
}

options.debounceRendering = (draw) => {
  queueMicrotask(counted(draw));
};

options.requestAnimationFrame = (follow) => {
  const work = counted(follow);
  if (isSlow) later(work, followMs);
  else nextFrame(() => later(work));
};

if (isSlow) {
  const begin = IDBDatabase.prototype.transaction;
  IDBDatabase.prototype.transaction = function (...asked) {
    const transaction = begin.apply(this, asked);
    const [name] = transaction.objectStoreNames;
    const store = transaction.objectStore(name ?? '');
    for (let read = 0; read < idleReads; read += 1) store.getKey(0);
    return transaction;
  };
  // Only where a page is shown: what a test lays out before it need not wait.
  lateAnswers(flushMs, () => document.body.childElementCount > 0);
}

/**
 * Resolves when four frames in a row found nothing left to draw: a size is told in the first, measured
 * again in the second and drawn before the third, and what that changes is measured there. What waits for
 * the logbook is not known here: a test waits for the words that it brings.
 */
export async function drawn(): Promise<void> {
  for (let still = 0; still < 4; ) {
    await new Promise((resolve) => nextFrame(resolve));
    still = underWay === 0 ? still + 1 : 0;
  }
}
