import { expect } from 'vitest';
import { page } from 'vitest/browser';
import type { Entry, SessionId } from '#model/entry.ts';
import type { ColourwayId, InjectorId } from '#model/gear.ts';
import type { MouldId } from '#model/mould.ts';
import { deviceKeys } from '#platform/keys.ts';
import type { Due } from '#platform/tones.ts';
import { TableScreen } from '#screens/table/TableScreen.tsx';
import type { Book } from '#store/book.ts';
import { entriesOf } from '#store/sessions.ts';
import { changeSettings, type SettingsFacts } from '#store/settings.ts';
import { startPouring } from '#store/start.ts';
import { aMould, seven } from './evening.ts';
import { aShop, show, type TestShop } from './show.tsx';
import { ticking } from './ticking.ts';

/** A table with a running session, the device's real keys, a clock that is moved by hand and an ear that writes down. */
export interface TestTable {
  shop: TestShop;
  sessionId: SessionId;
  /** Every tick and every low double so far, in order. */
  heard: ('logged' | 'wrong way')[];
  /** What was armed, newest last. */
  armed: (readonly Due[])[];
  hushed: number[];
  /** How often sound was asked for, and what it was told of the music. */
  asked: SettingsFacts['music'][];
  /** Whether the ear can hear; told to the table. */
  tellSound: (can: boolean) => void;
  tellAwake: (isAwake: boolean) => void;
  /** Lets the clock run on. */
  pass: (ms: number) => void;
  entries: () => Promise<Entry[]>;
}

/** Moulds by name, each rows by columns. */
export type TableMoulds = readonly (readonly [name: string, rows: number, cols: number])[];

/** What else a table can begin with: moulds that are made for it, an injector, the colours of the evening. */
export type LineUpOf = (book: Book) => Promise<{
  mouldIds: readonly MouldId[];
  injectorId?: InjectorId;
  planned?: readonly ColourwayId[];
  colourwayId?: ColourwayId;
}>;

/** Begins a session on these moulds at 19:02 and shows the table. */
export async function aTable(
  moulds: TableMoulds | LineUpOf,
  settings: Partial<SettingsFacts> = {},
): Promise<TestTable> {
  const shop = await aShop();
  const { book } = shop;
  const heard: TestTable['heard'] = [];
  const armed: TestTable['armed'] = [];
  const hushed: number[] = [];
  const asked: TestTable['asked'] = [];
  let tellSound = (_can: boolean) => {};
  let tellAwake = (_isAwake: boolean) => {};
  shop.set(seven);
  const pass = ticking(shop);
  shop.keys = deviceKeys;
  shop.wakeLock = {
    hold: (tell) => {
      tellAwake = tell;
      return () => {};
    },
  };
  shop.sound = {
    canSound: (tell, music) => {
      asked.push(music);
      tellSound = tell;
      return () => {};
    },
    arm: (dues) => armed.push(dues),
    hush: (place) => hushed.push(place),
    ready: () => {},
    logged: () => heard.push('logged'),
    wrongWay: () => heard.push('wrong way'),
  };
  if (Object.keys(settings).length > 0) await changeSettings(book, settings, seven);
  const lined = typeof moulds === 'function' ? await moulds(book) : await plainLineUp(book, moulds);
  const sessionId = await startPouring(
    book,
    {
      injectorId: null,
      colourwayId: null,
      ...lined,
      zone: 'Europe/Berlin',
    },
    seven,
  );
  show(shop, <TableScreen />);
  // Armed once: the table listens.
  await expect.poll(() => armed.length).toBeGreaterThan(0);
  return {
    shop,
    sessionId,
    heard,
    armed,
    hushed,
    asked,
    tellSound: (can) => tellSound(can),
    tellAwake: (isAwake) => tellAwake(isAwake),
    pass,
    entries: async () => (await entriesOf(book, sessionId)).slice(3),
  };
}

async function plainLineUp(book: Book, moulds: TableMoulds) {
  const mouldIds: MouldId[] = [];
  for (const [name, rows, cols] of moulds) {
    mouldIds.push((await aMould(book, name, { rows, cols })).id);
  }
  return { mouldIds };
}

/** The main key. */
export function mainKey(): HTMLElement {
  const key = page.getByRole('navigation', { name: 'Log' }).getByRole('button').elements().at(-1);
  if (!(key instanceof HTMLElement)) throw new Error('There is no main key.');
  return key;
}

/** Waits until the main key says this. */
export async function mainSays(words: RegExp): Promise<void> {
  await expect.poll(() => mainKey().getAttribute('aria-label')).toMatch(words);
}

/** What the keys of the pots say: they change a moment after a mix is on disk. */
export function potWords(): string {
  const keys = page.getByRole('button', { name: /^Pot:/ }).elements();
  return keys.map(({ textContent }) => textContent).join();
}
