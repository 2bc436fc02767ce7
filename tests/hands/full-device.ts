import { vi } from 'vitest';

/**
 * The device has no room from now on; returns how to give it room again. Storage Standard and Indexed
 * Database API, W3C: a write that does not fit fails with a QuotaExceededError and its transaction is
 * undone.
 */
export function fillDevice(): () => void {
  const refuse = () => {
    throw new DOMException('No room.', 'QuotaExceededError');
  };
  const spies = (['put', 'add'] as const).map((way) =>
    vi.spyOn(IDBObjectStore.prototype, way).mockImplementation(refuse),
  );
  return () => {
    for (const spy of spies) spy.mockRestore();
  };
}
