import type { Columns } from '#calc/columns.ts';
import { nextStamp } from '#calc/stamp.ts';
import { stockOf } from '#calc/stock-level.ts';
import { stockAmount } from '#calc/stock-measure.ts';
import { type SessionUse, unpackedUses } from '#calc/used.ts';
import type { Material } from '#model/material.ts';
import type { Movement, MovementId } from '#model/movement.ts';
import type { DeviceId, Instant, Stamp } from '#model/schemas.ts';
import { type MaterialKey, materials } from './materials.ts';

const dayMs = 86_400_000;
const hourMs = 3_600_000;

/** Every so many weeks packages get this much dearer. */
const dearerWeeks = 6;
const dearerShare = 0.03;

/** In the last days only what would not do for an evening is bought: the rest is on the list. */
const lastDays = 9;

/** What was found, spilled or looked at by hand, so many days after the shop was set up. */
const happened: readonly (readonly [day: number, MaterialKey, Movement['says'], note: string])[] = [
  [31, 'bags', { kind: 'counted', level: 74 }, ''],
  [47, 'white', { kind: 'lost', qty: 18 }, 'Bottle tipped over'],
  [58, 'softener', { kind: 'counted', level: 610 }, 'Weighed, jar and all'],
  [61, 'bags', { kind: 'counted', level: 47 }, ''],
  [75, 'salt', { kind: 'checked' }, ''],
  [113, 'bags', { kind: 'counted', level: 22 }, ''],
  [115, 'softener', { kind: 'counted', level: 185 }, 'Weighed, jar and all'],
];

/** Counted twice by the scale; a little less than the journal said. */
const countedDays = [44, 86];
const countedKeys: readonly MaterialKey[] = ['plastisol', 'brown', 'blackFlake'];

/** The stock journal of the shop: bought when it ran low, counted now and then, a bottle spilled. */
export function stockJournal(
  stocked: Readonly<Record<MaterialKey, Material>>,
  history: readonly Columns[],
  device: DeviceId,
): Movement[] {
  const setUpAt = Math.min(...Object.values(stocked).map(({ createdAt }) => createdAt));
  const lastAt = history.at(-1)?.startedAt ?? setUpAt;
  const uses = history.flatMap(unpackedUses);
  const found: Movement[] = [];
  const keys = Object.keys(materials) as MaterialKey[];
  const ofKey = <T extends { materialId: string; at: Instant }>(key: MaterialKey, all: T[]) =>
    all.filter(({ materialId }) => materialId === stocked[key].id);
  const usesOf = new Map(keys.map((key) => [key, ofKey(key, uses)]));
  const most = new Map(
    keys.map((key) => [key, mostInAnEvening(stocked[key], usesOf.get(key) ?? [])]),
  );
  const levelAt = (key: MaterialKey, at: Instant) => {
    const before = <T extends { at: Instant }>(all: readonly T[]) =>
      all.filter((one) => one.at < at);
    return stockOf(stocked[key], before(ofKey(key, found)), before(usesOf.get(key) ?? [])).level;
  };
  const write = (key: MaterialKey, at: Instant, says: Movement['says'], note = '') => {
    const number = (found.length + 1).toString(16).padStart(12, '0');
    const id = `019e7a30-0000-7000-a000-${number}` as MovementId;
    const materialId = stocked[key].id;
    found.push({ id, materialId, at, writtenAt: at, stamp: '', device, says, note });
  };
  for (const key of keys) write(key, setUpAt + 6 * hourMs, bought(key, 0));
  for (let day = 1; setUpAt + day * dayMs < lastAt; day += 1) {
    const at = setUpAt + day * dayMs + 5 * hourMs;
    for (const [on, key, says, note] of happened) if (on === day) write(key, at, says, note);
    if (countedDays.includes(day)) {
      for (const key of countedKeys) {
        const level = Math.round(levelAt(key, at) * 0.97);
        write(key, at, { kind: 'counted', level }, 'Weighed, jar and all');
      }
    }
    const isLate = at > lastAt - lastDays * dayMs;
    for (const key of keys) {
      const { reorderAt } = stocked[key];
      const evening = most.get(key) ?? 0;
      const least = isLate ? evening : Math.max(evening, reorderAt ?? 0);
      if (least > 0 && levelAt(key, at) <= least) write(key, at + hourMs, bought(key, day));
    }
  }
  return stamped(found, device);
}

/** The most that one session took. */
function mostInAnEvening(material: Material, uses: readonly SessionUse[]): number {
  const sums = new Map<string, number>();
  for (const use of uses) {
    sums.set(use.sessionId, (sums.get(use.sessionId) ?? 0) + stockAmount(use, material));
  }
  return Math.max(0, ...sums.values());
}

/** A package as it is sold on that day. */
function bought(key: MaterialKey, day: number): Movement['says'] {
  const { qty, cents } = materials[key].facts.package ?? { qty: 1, cents: 0 };
  const dearer = 1 + dearerShare * Math.floor(day / (7 * dearerWeeks));
  const lot = key === 'plastisol' ? `P${100 + day}` : '';
  return { kind: 'bought', qty, cents: Math.round(cents * dearer), lot };
}

/** In the order of time, each with a later stamp. */
function stamped(movements: readonly Movement[], device: DeviceId): Movement[] {
  let last: Stamp | null = null;
  return movements
    .toSorted((a, b) => a.at - b.at)
    .map((movement) => {
      last = nextStamp(last, movement.at, device);
      return { ...movement, stamp: last };
    });
}

/** The materials as the app stores them, all added on one day under their own ids. */
export function stockedMaterials(device: DeviceId, at: Instant): Record<MaterialKey, Material> {
  let last: Stamp | null = null;
  const stocked = Object.entries(materials).map(([key, { id, facts }], index) => {
    const createdAt = at + 2 * hourMs + index * 40_000;
    const stamp = nextStamp(last, createdAt, device);
    last = stamp;
    const fields = [...Object.keys(facts), 'deletedAt'];
    const stamps = Object.fromEntries(fields.map((field) => [field, stamp]));
    return [key, { ...facts, id, device, stamps, createdAt, deletedAt: null }];
  });
  return Object.fromEntries(stocked);
}
