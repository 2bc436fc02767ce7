import type { DeviceId, Stamp } from '#model/schemas.ts';

const maxCounter = 0xffff;

/**
 * The stamp for the next write of `device`: later than `last`, whatever the clock says now
 * (hybrid logical clock: the wall part never goes back, the counter parts one instant).
 */
export function nextStamp(last: Stamp | null, nowMs: number, device: DeviceId): Stamp {
  const lastMs = last ? wallMs(last) : 0;
  if (nowMs > lastMs) return stampText(Math.floor(nowMs), 0, device);
  const counter = last ? Number.parseInt(last.slice(13, 17), 16) + 1 : 0;
  return counter > maxCounter
    ? stampText(lastMs + 1, 0, device)
    : stampText(lastMs, counter, device);
}

/** The later of two stamps; `null` counts as earliest. */
export function laterStamp(a: Stamp | null, b: Stamp | null): Stamp | null {
  if (a === null) return b;
  return b === null || a > b ? a : b;
}

/** The wall clock part of a stamp, in ms. */
export function wallMs(stamp: Stamp): number {
  return Number.parseInt(stamp.slice(0, 12), 16);
}

function stampText(ms: number, counter: number, device: DeviceId): Stamp {
  return `${hex(ms, 12)}-${hex(counter, 4)}-${device}`;
}

function hex(value: number, width: number): string {
  return value.toString(16).padStart(width, '0');
}
