import { useEffect, useState } from 'preact/hooks';
import { useShop } from '#live/shop.ts';
import type { Table } from '#store/db.ts';
import { subscribe } from '#store/notice.ts';

/** How often a device that does not give anything at first is asked, and how long apart. */
const mostTries = 5;
const againMs = 1_000;
/** A read without an answer is asked for again after so long. */
const patienceMs = 10_000;

/**
 * What `read` finds, read again whenever one of `tables` is written or `key` changes. `undefined`
 * until the first answer is in. Where the device breaks a read off, what is shown stays and it is
 * read again. A first read that keeps failing, and one that stumbles over what it read, throws into
 * the nearest error page.
 */
export function useLive<T>(
  read: () => Promise<T>,
  tables: readonly Table[],
  key: string,
): T | undefined {
  const [found, setFound] = useState<{ key: string; value: T } | undefined>();
  const [failure, setFailure] = useState<unknown>();
  const { clock } = useShop();
  const watched = tables.join(' ');
  useEffect(() => {
    let newest = 0;
    let hasFound = false;
    let tries = 0;
    let isOver = false;
    let stopWaiting = () => {};
    /** Acts once, if nothing else is waited for until then. */
    const actIn = (ms: number, act: () => void) => {
      stopWaiting();
      const from = clock.now();
      stopWaiting = clock.every(ms, () => {
        if (clock.realMs(clock.now() - from) < ms) return;
        stopWaiting();
        act();
      });
    };
    const ask = () => {
      const turn = newest;
      const isStale = () => isOver || turn !== newest;
      read().then(
        (value) => {
          if (isStale()) return;
          stopWaiting();
          hasFound = true;
          setFound({ key, value });
        },
        (error: unknown) => {
          if (isStale()) return;
          stopWaiting();
          tries += 1;
          const isPassing = error instanceof DOMException && (hasFound || tries < mostTries);
          if (isPassing) actIn(againMs, look);
          else setFailure(error);
        },
      );
    };
    const look = () => {
      newest += 1;
      actIn(patienceMs, ask);
      ask();
    };
    look();
    const leave = subscribe((written) => {
      if (written.some((table) => watched.split(' ').includes(table))) look();
    });
    return () => {
      isOver = true;
      stopWaiting();
      leave();
    };
  }, [key, watched, clock]);
  if (failure) throw failure;
  return found?.key === key ? found.value : undefined;
}
