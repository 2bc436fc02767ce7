/** As much of a transaction as this needs to know. */
interface Writing {
  readonly done: Promise<void>;
  abort(): void;
}

/**
 * All writes of a transaction or none, and resolves once they are on disk. A call that throws by
 * itself, as for a value that is too large, would else leave those before it to be stored alone.
 */
export async function whole(tx: Writing, writes: readonly (() => unknown)[]): Promise<void> {
  const begun: unknown[] = [tx.done];
  try {
    for (const write of writes) begun.push(write());
    await Promise.all(begun);
  } catch (error) {
    // Nobody waits for the others any more.
    void Promise.allSettled(begun);
    try {
      tx.abort();
    } catch {
      // It has ended by itself.
    }
    throw error;
  }
}
