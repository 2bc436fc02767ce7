/** The device's word on what it keeps for this site. */
export interface Room {
  /** Whether it promised not to clear it by itself; null: it does not say. */
  isPromised(): Promise<boolean | null>;
  /** Asks for that promise; some browsers ask the person in turn. */
  promise(): Promise<boolean | null>;
  /** Bytes in use and bytes that may be used; null: it does not say. */
  bytes(): Promise<{ used: number; most: number } | null>;
}

/** The room of this device. */
export const deviceRoom: Room = {
  isPromised: () => told(() => navigator.storage.persisted()),
  promise: () => told(() => navigator.storage.persist()),
  bytes: () =>
    told(async () => {
      const { usage = 0, quota = 0 } = await navigator.storage.estimate();
      return { used: usage, most: quota };
    }),
};

/** Old browsers and some private windows have no such question: then there is no answer. */
async function told<T>(ask: () => Promise<T>): Promise<T | null> {
  try {
    return await ask();
  } catch {
    return null;
  }
}
