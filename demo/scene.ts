import type { Columns } from '#calc/columns.ts';
import { type Table, tableOf } from '#calc/table.ts';
import type { Entry } from '#model/entry.ts';
import type { Colourway, Injector } from '#model/gear.ts';
import type { Mix } from '#model/mix.ts';
import type { Mould, MouldId } from '#model/mould.ts';
import type { Instant } from '#model/schemas.ts';
import type { Chance } from '../tests/hands/seeded.ts';
import type { EveningPlan } from './months.ts';
import type { Log } from './pen.ts';
import type { ColourKey, InjectorKey, MouldKey } from './shop.ts';

/** The shop as it stands before an evening. */
export interface ShopNow {
  moulds: Record<MouldKey, Mould>;
  injectors: Record<InjectorKey, Injector>;
  colourways: Record<ColourKey, Colourway>;
  /** Every version of every mix that is written so far, in the order of writing. */
  mixes: Mix[];
  /** Digests of the evenings so far, oldest first. */
  history: Columns[];
}

/** An evening while it is poured. */
export interface Scene {
  readonly plan: EveningPlan;
  readonly shop: ShopNow;
  readonly log: Log;
  readonly chance: Chance;
  /** Moves on as things are done. */
  now: Instant;
  /** Shots logged as not checked, with what they truly gave. */
  readonly later: { logged: Entry; says: Entry['said'] }[];
}

/** Lets so many seconds pass, to the tenth. */
export function pass(scene: Scene, sec: number): void {
  scene.now += msOf(sec);
}

/** Seconds as milliseconds, to the tenth of a second: the file packs smaller. */
export function msOf(sec: number): number {
  return Math.round(sec * 10) * 100;
}

/** Presses a key: it is said now. */
export function say(scene: Scene, said: Entry['said']): Entry {
  return scene.log.say(said, scene.now);
}

/** The table as it stands now. */
export function tableNow(scene: Scene): Table {
  return tableOf(scene.log.entries);
}

/** Which mould of the shop an id means. */
export function mouldKeyOf(shop: ShopNow, id: MouldId): MouldKey {
  const found = (Object.keys(shop.moulds) as MouldKey[]).find((key) => shop.moulds[key].id === id);
  if (!found) throw new Error(`The shop has no mould ${id}.`);
  return found;
}

/** A number between two others. */
export function between(chance: Chance, from: number, to: number): number {
  return from + chance() * (to - from);
}
