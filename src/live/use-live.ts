import { useEffect, useState } from 'preact/hooks';
import type { Table } from '#store/db.ts';
import { subscribe } from '#store/notice.ts';

/**
 * What `read` finds, read again whenever one of `tables` is written or `key` changes. `undefined`
 * until the first answer is in. A read that fails throws into the nearest error page.
 */
export function useLive<T>(
  read: () => Promise<T>,
  tables: readonly Table[],
  key: string,
): T | undefined {
  const [found, setFound] = useState<{ key: string; value: T } | undefined>();
  const [failure, setFailure] = useState<unknown>();
  const watched = tables.join(' ');
  useEffect(() => {
    let newest = 0;
    let isOver = false;
    const look = () => {
      newest += 1;
      const turn = newest;
      read().then(
        (value) => {
          if (!isOver && turn === newest) setFound({ key, value });
        },
        (error: unknown) => {
          if (!isOver) setFailure(error);
        },
      );
    };
    look();
    const leave = subscribe((written) => {
      if (written.some((table) => watched.split(' ').includes(table))) look();
    });
    return () => {
      isOver = true;
      leave();
    };
  }, [key, watched]);
  if (failure) throw failure;
  return found?.key === key ? found.value : undefined;
}
