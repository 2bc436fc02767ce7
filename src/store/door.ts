import type { Change } from '#model/change.ts';
import type { Draft } from '#model/draft.ts';
import type { Entry } from '#model/entry.ts';
import type { Colourway, Injector } from '#model/gear.ts';
import type { Material } from '#model/material.ts';
import type { Mix } from '#model/mix.ts';
import type { Mould } from '#model/mould.ts';
import type { Movement } from '#model/movement.ts';
import type { Idea, Photo, PhotoBytes, Remark } from '#model/photo.ts';
import type { SealedSession } from '#model/session.ts';
import type { Settings } from '#model/settings.ts';

/** What lies in each table that has a door. */
interface Stored {
  moulds: Mould;
  injectors: Injector;
  colourways: Colourway;
  settings: Settings;
  entries: Entry;
  sealed: SealedSession;
  drafts: Draft;
  materials: Material;
  mixes: Mix;
  photos: Photo;
  'photo-bytes': PhotoBytes;
  remarks: Remark;
  ideas: Idea;
  changes: Change;
  movements: Movement;
}

/**
 * The value as its table may hold it. Throws a ZodError for what may not exist.
 *
 * The schemas come after the first paint: they are not needed to show the table, and they are there
 * before a hand can press. Should they ever be out of reach, a press is still kept: what the
 * table's own keys make is typed, and everything is read through the same door again.
 */
export async function checked<K extends keyof Stored>(
  table: K,
  value: unknown,
): Promise<Stored[K]> {
  const door = await openDoor().catch(() => null);
  return (door ? door.checkedBy(table, value) : value) as Stored[K];
}

/** Fetches the schemas; the frame does so after the first paint. */
export function openDoor() {
  return import('#store/schemas.ts');
}
