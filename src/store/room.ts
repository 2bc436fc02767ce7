type MakeRoom = (isSure: boolean) => Promise<boolean>;

let makeRoom: MakeRoom = async () => false;

/**
 * Names who can free the room that was kept in reserve; it says whether there was any. Where it is
 * not sure that the device is full, that is looked at first.
 */
export function reserveWith(free: MakeRoom): void {
  makeRoom = free;
}

/**
 * Writes; when the device is full, frees the reserve and writes once more. For the log of a session
 * alone: pictures and the like are refused first.
 */
export async function withReserve<T>(write: () => Promise<T>): Promise<T> {
  try {
    return await write();
  } catch (error) {
    if (!mayBeFull(error) || !(await makeRoom(isFull(error)))) throw error;
    return await write();
  }
}

/** Whether a write failed because the device has no room. A full device also aborts without saying why. */
export function isFull(error: unknown): boolean {
  return error instanceof DOMException && /^(QuotaExceededError|AbortError)$/.test(error.name);
}

/**
 * Whether a write may have failed because the disk is full to the last byte: then the browser does
 * not speak of room but breaks the database off, and the next write finds it closed. Tried on
 * Chromium 156 with a disk filled by other files.
 */
function mayBeFull(error: unknown): boolean {
  return (
    isFull(error) ||
    (error instanceof DOMException && /^(UnknownError|InvalidStateError)$/.test(error.name))
  );
}
