import { cdp } from 'vitest/browser';

interface Usage {
  usedSize: number;
  backingStorageSize?: number;
}

const session = () => cdp() as unknown as { send(method: string): Promise<Usage> };

/** What scripts hold now, bytes outside of the scripts' own heap included, once all rubbish is gone. */
export async function heldMb(): Promise<number> {
  await session().send('HeapProfiler.collectGarbage');
  const { usedSize, backingStorageSize = 0 } = await session().send('Runtime.getHeapUsage');
  return (usedSize + backingStorageSize) / 1_000_000;
}

/** Does something, looking at what is held again and again: resolves with the most it rose by. */
export async function withHeap<T>(act: () => Promise<T>): Promise<{ made: T; risenMb: number }> {
  const before = await heldMb();
  let most = before;
  let over = () => {};
  let isOver = false;
  const end = new Promise<void>((done) => {
    over = () => {
      isOver = true;
      done();
    };
  });
  const looking = (async () => {
    // Looking holds everything up: not all the time.
    const pause = () => new Promise<void>((done) => setTimeout(done, 500));
    for (await Promise.race([pause(), end]); !isOver; await Promise.race([pause(), end])) {
      most = Math.max(most, await heldMb());
    }
  })();
  try {
    const made = await act();
    return { made, risenMb: most - before };
  } finally {
    over();
    await looking;
  }
}
