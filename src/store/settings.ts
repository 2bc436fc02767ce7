import type * as z from 'zod/mini';
import { mergedHead } from '#calc/merge.ts';
import type { Instant } from '#model/schemas.ts';
import type { settingsFacts } from '#model/settings.ts';
import { type Book, pennedMeta, seeStamps, stampOf } from '#store/book.ts';
import { checked } from '#store/door.ts';
import { announce } from '#store/notice.ts';
import { whole } from '#store/whole.ts';

export type SettingsFacts = z.infer<z.ZodMiniObject<typeof settingsFacts>>;

/** The one settings record of a shop. */
const settingsId = 'settings';

/** How a shop begins. Common practice, no source; each is the person's to change. */
export const firstSettings: SettingsFacts = {
  palette: 'chalk',
  mainKeySide: 'right',
  keySize: 'usual',
  music: null,
  hearing: null,
  pedal: null,
  tempUnit: 'C',
  volumeUnit: 'cup',
  heatLimit: null,
  ambientC: 20,
  pourC: 165,
  // Two cups.
  potMl: 473.176473,
  cautionsReadAt: null,
};

/** Who pours now: null while fewer than two people are named, for then there is nothing to tell. */
export function pourerOf({ people = [], pourer }: SettingsFacts): string | null {
  if (people.length < 2) return null;
  return people.find((name) => name === pourer) ?? people[0] ?? null;
}

/** The settings of this shop; what was never set is as it begins. */
export async function settingsOf(book: Book): Promise<SettingsFacts> {
  return (await book.db.get('settings', settingsId)) ?? firstSettings;
}

/** Sets some settings. Throws a ZodError when one is out of its bounds. */
export async function changeSettings(
  book: Book,
  changes: Partial<SettingsFacts>,
  at: Instant,
): Promise<void> {
  const old = await book.db.get('settings', settingsId);
  seeStamps(book, Object.values(old?.stamps ?? {}));
  const stamp = stampOf(book, at);
  const fields = Object.keys(changes).map((field) => [field, stamp] as const);
  const next = await checked('settings', {
    ...firstSettings,
    ...old,
    ...changes,
    id: settingsId,
    device: book.device,
    stamps: { ...old?.stamps, ...Object.fromEntries(fields) },
    createdAt: old?.createdAt ?? at,
    deletedAt: null,
  });
  const tx = book.db.transaction(['settings', 'meta'], 'readwrite', { durability: 'strict' });
  const store = tx.objectStore('settings');
  // What another window has set meanwhile is kept.
  const there = await store.get(settingsId);
  await whole(tx, [
    () => store.put(there ? mergedHead(there, next) : next),
    () => tx.objectStore('meta').put(pennedMeta(book)),
  ]);
  announce('settings');
}
