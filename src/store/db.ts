import {
  type DBSchema,
  type IDBPDatabase,
  type IDBPTransaction,
  openDB,
  type StoreNames,
  unwrap,
} from 'idb';
import type { Columns } from '#calc/columns.ts';
import type { HeldPot } from '#calc/poured-sides.ts';
import type { Change } from '#model/change.ts';
import type { Draft } from '#model/draft.ts';
import type { Entry, SessionId, ShotId } from '#model/entry.ts';
import type { Colourway, Injector } from '#model/gear.ts';
import type { Material } from '#model/material.ts';
import type { Mix, MixId } from '#model/mix.ts';
import type { Mould } from '#model/mould.ts';
import type { Movement } from '#model/movement.ts';
import type { Idea, Photo, PhotoBytes, PhotoId, Remark } from '#model/photo.ts';
import type { DeviceId, Instant, Stamp } from '#model/schemas.ts';
import type { SealedSession } from '#model/session.ts';
import type { Settings } from '#model/settings.ts';
import { climb, ladder } from '#store/ladder.ts';

/** What this device alone knows; never merged and never in a file. */
interface DeviceMeta {
  name: 'device';
  device: DeviceId;
  /** The newest stamp that was given outside a running session. */
  lastStamp: Stamp | null;
}

/** A record that could not be read and was taken out of its table. */
export interface AsideMeta {
  name: `aside ${string}`;
  table: Table;
  key: string;
  /** As it was found. */
  record: unknown;
  foundAt: Instant;
}

/** What the pots of photos held, as their evenings told it: worked out again where one changed. */
export interface PouredMeta {
  name: 'poured';
  lines: readonly {
    photoId: PhotoId;
    shotId: ShotId | null;
    sessionId: SessionId;
    startedAt: Instant;
    /** The checksum of the lines that it was worked out from. */
    sum: number;
    pots: readonly HeldPot[] | null;
  }[];
}

/** The versions of mixes that ended sessions speak of: put together again where it is not of all of them. */
export interface ToldMeta {
  name: 'told';
  /** How many ended sessions it is of. */
  sessions: number;
  mixIds: readonly MixId[];
}
type Meta = DeviceMeta | AsideMeta | PouredMeta | ToldMeta;

/** The shape of the database. */
export interface Logbook extends DBSchema {
  moulds: { key: string; value: Mould };
  injectors: { key: string; value: Injector };
  colourways: { key: string; value: Colourway };
  settings: { key: string; value: Settings };
  entries: { key: [sessionId: string, stamp: string, id: string]; value: Entry };
  sealed: { key: string; value: SealedSession };
  columns: { key: [startedAt: number, sessionId: string]; value: Columns };
  drafts: { key: string; value: Draft };
  meta: { key: string; value: Meta };
  materials: { key: string; value: Material };
  mixes: { key: string; value: Mix };
  photos: { key: string; value: Photo };
  'photo-bytes': { key: string; value: PhotoBytes };
  remarks: { key: string; value: Remark };
  ideas: { key: string; value: Idea };
  changes: { key: string; value: Change };
  movements: { key: [materialId: string, at: number, id: string]; value: Movement };
}
export type Table = StoreNames<Logbook>;
export type Db = IDBPDatabase<Logbook>;
type Upgrade = IDBPTransaction<Logbook, Table[], 'versionchange'>;

/** What may stand between the person and an open logbook. */
export interface OpeningNews {
  /** Another window holds an older version open; this one waits. */
  onBlocked?: () => void;
  /** A newer version of the app wants the logbook: this connection has made way. */
  onMadeWay?: () => void;
  /** The browser closed the connection by itself. */
  onLost?: () => void;
}

/**
 * Opens the database. A rung that fails rejects and leaves data and version as they were; a
 * database of a newer app rejects with a `VersionError`, a window without any storage with a
 * `SecurityError`.
 */
export async function openDatabase(
  name: string,
  news: OpeningNews = {},
  rungs: typeof ladder = ladder,
): Promise<Db> {
  if (!globalThis.indexedDB) throw new DOMException('No database here.', 'SecurityError');
  let failure: unknown;
  const opening = openDB<Logbook>(name, rungs.length, {
    async upgrade(db, oldVersion, _newVersion, tx) {
      // An async upgrade that throws would still commit what it got done: abort by hand.
      await climbAll(unwrap(db), tx, oldVersion, rungs).catch((error: unknown) => {
        failure = error;
        tx.done.catch(() => {});
        tx.abort();
      });
    },
    blocked: () => news.onBlocked?.(),
    blocking(_current, _wanted, event) {
      (event.target as IDBDatabase).close();
      news.onMadeWay?.();
    },
    terminated: () => news.onLost?.(),
  });
  return opening.catch((error: unknown) => {
    throw failure ?? error;
  });
}

async function climbAll(
  db: IDBDatabase,
  tx: Upgrade,
  fromVersion: number,
  rungs: typeof ladder,
): Promise<void> {
  for (const rung of rungs.slice(fromVersion)) rung.stores?.(db);
  if (fromVersion === 0) return;
  const passed = rungs.slice(fromVersion);
  for (const table of tx.objectStoreNames) {
    // Records that keep their shape are not read: the shorter a climb, the less can stop it half-way.
    if (!passed.some(({ records }) => records && Object.hasOwn(records, table))) continue;
    let cursor = await tx.objectStore(table).openCursor();
    while (cursor) {
      // The rungs end at today's shape; the type system cannot follow them there.
      await cursor.update(climb(table, cursor.value as never, fromVersion, rungs) as never);
      cursor = await cursor.continue();
    }
  }
}
