import { inStampOrder } from '#calc/log.ts';
import type { Entry } from '#model/entry.ts';
import type { DeviceId, Instant, Stamp } from '#model/schemas.ts';

/** What two copies of a head must have to be merged. */
interface MergeableHead {
  id: string;
  device: DeviceId;
  stamps: Record<string, Stamp>;
  createdAt: Instant;
  [field: string]: unknown;
}

const bookKeeping = new Set(['id', 'device', 'stamps', 'createdAt']);

/**
 * One head out of two copies of it: per field the newest stamp wins, so that two devices that
 * changed two fields both keep theirs. The order and the number of merges do not matter.
 */
export function mergedHead<T extends MergeableHead>(a: T, b: T): T {
  const stamps: Record<string, Stamp> = { ...a.stamps };
  for (const [field, stamp] of Object.entries(b.stamps)) {
    if (!Object.hasOwn(stamps, field) || (stamps[field] ?? '') < stamp) stamps[field] = stamp;
  }
  const merged: MergeableHead = {
    id: a.id,
    device: newestDevice(stamps) ?? [a.device, b.device].sort()[1] ?? a.device,
    stamps,
    createdAt: Math.min(a.createdAt, b.createdAt),
  };
  for (const field of new Set([...Object.keys(a), ...Object.keys(b)])) {
    if (!bookKeeping.has(field)) merged[field] = winner(a, b, field)[field];
  }
  return merged as T;
}

/** All entries of two copies of a session, once each, in the order of their stamps. */
export function mergedEntries(a: readonly Entry[], b: readonly Entry[]): Entry[] {
  return inStampOrder([...a, ...b]);
}

/** The copy whose value of a field is newer; unstamped values are settled by their text, so that both sides agree. */
function winner<T extends MergeableHead>(a: T, b: T, field: string): T {
  const ofA = Object.hasOwn(a.stamps, field) ? (a.stamps[field] ?? '') : '';
  const ofB = Object.hasOwn(b.stamps, field) ? (b.stamps[field] ?? '') : '';
  if (ofA !== ofB) return ofA > ofB ? a : b;
  return textOf(a[field]) >= textOf(b[field]) ? a : b;
}

function textOf(value: unknown): string {
  return JSON.stringify(value) ?? '';
}

function newestDevice(stamps: Record<string, Stamp>): DeviceId | undefined {
  return Object.values(stamps).sort().at(-1)?.slice(-8);
}
