import { expect, type Page } from '@playwright/test';
import { recordsOf } from './site.ts';

/** The id of the newest record of a table. */
async function newest(page: Page, table: string, database: string): Promise<string> {
  const all = await recordsOf<{ id?: string; sessionId?: string }>(page, table, database);
  const last = all.at(-1);
  return String(last?.id ?? last?.sessionId);
}

/**
 * Every address of a shop that has something of each kind, each with the newest record of its kind;
 * the table is left out, which needs a running session. The logbook of the page must be open.
 */
export async function everyPage(page: Page, database: string): Promise<string[]> {
  const tables = ['moulds', 'sealed', 'colourways', 'photos', 'materials', 'injectors'];
  const ids = Object.fromEntries(
    await Promise.all(
      tables.map(async (table) => [table, await newest(page, table, database)] as const),
    ),
  );
  const mixes = await recordsOf<{ id: string; colourwayId: string | null }>(
    page,
    'mixes',
    database,
  );
  const named = mixes.findLast(({ colourwayId }) => colourwayId !== null)?.id;
  const nameless = mixes.findLast(({ colourwayId }) => colourwayId === null)?.id;
  const sessions = await recordsOf<{ startedAt: number; zone: string }>(page, 'sealed', database);
  const last = sessions.at(-1);
  const day = new Intl.DateTimeFormat('en-CA', { timeZone: last?.zone ?? 'UTC' });
  const pages = [
    'pour',
    'start',
    'line-up',
    `line-up/${ids.sealed}`,
    'cautions',
    `day/${day.format(last?.startedAt)}`,
    `session/${ids.sealed}`,
    'moulds',
    'yields',
    `mould/${ids.moulds}`,
    `mould-facts/${ids.moulds}`,
    'mould-facts/new',
    'colours',
    `colour/${ids.colourways}`,
    `colour-facts/${ids.colourways}`,
    'colour-facts/new',
    `mix-facts/${ids.colourways}`,
    `drops/${named}/500`,
    `share-mix/${named}`,
    'take-mix/',
    'ideas',
    `photos/${ids.colourways}`,
    `photo/${ids.photos}`,
    'find-photo',
    'shelf',
    `card/${ids.materials}`,
    `material/${ids.materials}`,
    `material-facts/${ids.materials}`,
    'material-facts/new',
    'bait-cost',
    'workshop',
    'glove-check',
    'sound-check',
    'pedal-check',
    'keep',
    'open-copy',
    'tables',
    `injector-facts/${ids.injectors}`,
    'injector-facts/new',
    ...(nameless ? [`nameless/${nameless}`] : []),
  ];
  expect(pages.filter((address) => address.includes('undefined'))).toEqual([]);
  return pages;
}

/** Keeps the newest mix once more without a name, as one that was made up at the table. */
export async function withNameless(page: Page, database: string): Promise<void> {
  await page.evaluate(
    (name) =>
      new Promise<void>((resolve, reject) => {
        const opening = indexedDB.open(name);
        opening.onsuccess = () => {
          const db = opening.result;
          const tx = db.transaction('mixes', 'readwrite');
          const all = tx.objectStore('mixes').getAll();
          all.onsuccess = () => {
            const [mix] = all.result.filter(({ sides }) => sides.length === 1).slice(-1);
            const id = mix.id.replace(/.{12}$/, '0000feed0001');
            tx.objectStore('mixes').put({ ...mix, id, colourwayId: null, version: 1 });
          };
          tx.onabort = () => reject(tx.error);
          tx.oncomplete = () => {
            db.close();
            resolve();
          };
        };
      }),
    database,
  );
}
