import { deleteDB } from 'idb';
import { columnsOf } from '#calc/columns.ts';
import { shopUntilYesterday } from '#calc/moved-shop.ts';
import { laterStamp } from '#calc/stamp.ts';
import type { DemoShop } from '#model/demo-shop.ts';
import type { Instant, Stamp } from '#model/schemas.ts';
import { type Book, pennedMeta } from '#store/book.ts';
import { ladder } from '#store/ladder.ts';
import { announce } from '#store/notice.ts';

const filled = [
  'moulds',
  'injectors',
  'colourways',
  'mixes',
  'changes',
  'materials',
  'movements',
  'settings',
  'sealed',
  'columns',
] as const;
const heldEmpty = [...filled, 'photos', 'photo-bytes', 'entries', 'drafts'] as const;
const written = [...heldEmpty, 'meta'] as const;

/**
 * Puts the made-up shop into an empty logbook, as if its last session had been yesterday at the
 * person's own clock. All of it in one transaction, or nothing. `bytes` is a DemoShop as gzipped
 * JSON. Throws for a logbook that holds anything, for bytes that are no demo shop (a ZodError where
 * a record may not exist) and for a shop that was made for another shape of the data.
 */
export async function fillDemo(
  book: Book,
  bytes: BlobPart,
  now: { at: Instant; zone: string },
): Promise<void> {
  const shop = shopUntilYesterday(await demoShopOf(bytes), now.at, now.zone);
  const columns = shop.sessions.map(({ id, entries }) => columnsOf(id, entries));
  book.lastStamp = laterStamp(book.lastStamp, newestStamp(shop));
  const tx = book.db.transaction(written, 'readwrite', { durability: 'strict' });
  const counts = await Promise.all(heldEmpty.map((table) => tx.objectStore(table).count()));
  if (counts.some((count) => count > 0)) {
    throw new Error('The demo shop goes into an empty logbook only.');
  }
  await Promise.all([
    ...shop.moulds.map((mould) => tx.objectStore('moulds').add(mould)),
    ...shop.injectors.map((injector) => tx.objectStore('injectors').add(injector)),
    ...shop.colourways.map((colourway) => tx.objectStore('colourways').add(colourway)),
    ...shop.mixes.map((mix) => tx.objectStore('mixes').add(mix)),
    ...shop.changes.map((change) => tx.objectStore('changes').add(change)),
    ...shop.materials.map((material) => tx.objectStore('materials').add(material)),
    ...shop.movements.map((movement) => tx.objectStore('movements').add(movement)),
    ...shop.sessions.map((session) => tx.objectStore('sealed').add(session)),
    ...columns.map((digest) => tx.objectStore('columns').add(digest)),
    ...shop.pictures.map(({ photo }) => tx.objectStore('photos').add(photo)),
    ...shop.pictures.map(({ photo: { id }, png }) =>
      tx.objectStore('photo-bytes').add({ id, bytes: bytesOf(png) }),
    ),
    tx.objectStore('settings').add(shop.settings),
    tx.objectStore('meta').put(pennedMeta(book)),
    tx.done,
  ]);
  announce(...filled, 'photos', 'photo-bytes');
}

/**
 * Deletes a whole database. Resolves once it is gone; other windows that hold it open are asked to
 * let go. Close the own connection before.
 */
export async function removeDatabase(name: string): Promise<void> {
  await deleteDB(name);
}

async function demoShopOf(bytes: BlobPart): Promise<DemoShop> {
  const unpacked = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('gzip'));
  const { DemoShop } = await import('#model/demo-shop.ts');
  const shop = DemoShop.parse(await new Response(unpacked).json());
  if (shop.version !== ladder.length) {
    throw new Error(`This demo shop is of version ${shop.version}, the app of ${ladder.length}.`);
  }
  return shop;
}

/** The bytes that base64 stands for. */
function bytesOf(base64: string): ArrayBuffer {
  return Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0)).buffer;
}

/** Entries come in the order of their stamps, and no head is changed after the last session. */
function newestStamp(shop: DemoShop): Stamp | null {
  const { moulds, injectors, colourways, mixes, changes, materials, settings } = shop;
  const heads = [
    ...moulds,
    ...injectors,
    ...colourways,
    ...mixes,
    ...changes,
    ...materials,
    settings,
  ];
  const stamps = [
    ...heads.flatMap((head) => Object.values(head.stamps)),
    ...shop.movements.map(({ stamp }) => stamp),
    ...shop.pictures.flatMap(({ photo }) => Object.values(photo.stamps)),
    ...shop.sessions.flatMap(({ entries }) => entries.map(({ stamp }) => stamp)),
  ];
  return stamps.reduce<Stamp | null>((newest, stamp) => laterStamp(newest, stamp), null);
}
