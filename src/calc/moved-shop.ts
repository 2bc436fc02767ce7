import { daysBefore } from '#calc/day-count.ts';
import { clockText, dayOf, instantOf } from '#calc/days.ts';
import { wallMs } from '#calc/stamp.ts';
import type { DemoShop } from '#model/demo-shop.ts';
import type { Entry, Said } from '#model/entry.ts';
import type { Movement } from '#model/movement.ts';
import type { Instant, Stamp } from '#model/schemas.ts';
import type { SealedSession } from '#model/session.ts';

const dayMs = 86_400_000;
const minMs = 60_000;

/** The zone that a demo shop's clock times are written in: its wall clock, as if it hung in UTC. */
export const wallZone = 'UTC';

/**
 * The demo shop moved so that its last session was yesterday and every session begins at the same
 * time by the clocks of `zone`, whatever they did in between; within a session all spans stay.
 */
export function shopUntilYesterday(shop: DemoShop, now: Instant, zone: string): DemoShop {
  const last = Math.max(...shop.sessions.map(({ startedAt }) => startedAt));
  const days = daysBefore(dayOf(last, wallZone), dayOf(now, zone)) - 1;
  const wayOf = (at: Instant) => movedAt(at, days, zone) - at;
  const movedHead = <H extends Head>(head: H): H => moved(head, wayOf(head.createdAt));
  return {
    ...shop,
    moulds: shop.moulds.map(movedHead),
    injectors: shop.injectors.map(movedHead),
    colourways: shop.colourways.map(movedHead),
    mixes: shop.mixes.map(movedHead),
    changes: shop.changes.map((change) => ({
      ...movedHead(change),
      at: movedAt(change.at, days, zone),
    })),
    materials: shop.materials.map(movedHead),
    movements: shop.movements.map((movement) => movedMovement(movement, wayOf(movement.at))),
    settings: movedSettings(movedHead(shop.settings), wayOf(shop.settings.createdAt)),
    pictures: shop.pictures.map(({ photo, png }) => {
      const takenAt = photo.takenAt + wayOf(photo.createdAt);
      return { photo: { ...movedHead(photo), takenAt }, png };
    }),
    sessions: shop.sessions.map((session) => movedSession(session, wayOf(session.startedAt), zone)),
  };
}

interface Head {
  createdAt: Instant;
  deletedAt: Instant | null;
  stamps: Record<string, Stamp>;
}

function movedAt(at: Instant, days: number, zone: string): Instant {
  const there = at + days * dayMs;
  const minute = instantOf(dayOf(there, wallZone), clockText(there, wallZone), zone);
  return (minute ?? there) + (at % minMs);
}

function moved<H extends Head>(head: H, byMs: number): H {
  const stamps = Object.entries(head.stamps).map(([field, stamp]) => [field, later(stamp, byMs)]);
  return {
    ...head,
    createdAt: head.createdAt + byMs,
    deletedAt: head.deletedAt === null ? null : head.deletedAt + byMs,
    stamps: Object.fromEntries(stamps),
  };
}

function movedSettings(settings: DemoShop['settings'], byMs: number): DemoShop['settings'] {
  const { cautionsReadAt } = settings;
  return { ...settings, cautionsReadAt: cautionsReadAt === null ? null : cautionsReadAt + byMs };
}

function movedSession(session: SealedSession, byMs: number, zone: string): SealedSession {
  return {
    ...session,
    startedAt: session.startedAt + byMs,
    endedAt: session.endedAt + byMs,
    zone,
    entries: session.entries.map((entry) => movedEntry(entry, byMs, zone)),
  };
}

function movedMovement(movement: Movement, byMs: number): Movement {
  const { at, writtenAt, stamp } = movement;
  return { ...movement, at: at + byMs, writtenAt: writtenAt + byMs, stamp: later(stamp, byMs) };
}

function movedEntry(entry: Entry, byMs: number, zone: string): Entry {
  return {
    ...entry,
    at: entry.at + byMs,
    writtenAt: entry.writtenAt + byMs,
    stamp: later(entry.stamp, byMs),
    said: movedSaid(entry.said, byMs, zone),
  } as Entry;
}

function movedSaid(said: Entry['said'], byMs: number, zone: string): Entry['said'] {
  if (said.kind === 'session-begun') return { ...said, zone };
  if (said.kind !== 'put-right') return said;
  const says = movedSaid(said.says as Said, byMs, zone);
  return { ...said, says, happenedAt: Number(said.happenedAt) + byMs } as Entry['said'];
}

function later(stamp: Stamp, byMs: number): Stamp {
  return (wallMs(stamp) + byMs).toString(16).padStart(12, '0') + stamp.slice(12);
}
