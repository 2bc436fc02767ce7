import type { Drawer } from '#store/journal.ts';
import { isFull } from '#store/room.ts';

/** Writes a file of this many bytes; false when there is no room for it: then none of it stays. */
export async function layAside(drawer: Drawer, file: string, bytes: number): Promise<boolean> {
  const paper = await drawer.open(file).catch((error: unknown) => {
    if (isFull(error)) return null;
    throw error;
  });
  if (!paper) return false;
  try {
    // Of chance, so that no storage can squeeze it to nothing.
    for (let at = 0; at < bytes; at += 65_536) {
      paper.add(crypto.getRandomValues(new Uint8Array(65_536)));
    }
    paper.flush();
    paper.close();
    return true;
  } catch {
    paper.close();
    await drawer.remove(file).catch(() => {});
    return false;
  }
}
