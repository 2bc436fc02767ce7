import { nextStamp } from '#calc/stamp.ts';
import type { Entry, EntryId, SessionId } from '#model/entry.ts';
import type { DeviceId, Instant, Stamp } from '#model/schemas.ts';

/** The pen of the demo's device: stamps as the app gives them, ids that count up instead of chance. */
export class Pen {
  readonly device: DeviceId = 'dec0de00';
  #last: Stamp | null = null;
  #ids = 0;

  /** An id in the shape of a UUIDv7 (RFC 9562), of the hour, so that a file of many packs small. */
  freshId<Id extends string>(at: Instant): Id {
    this.#ids += 1;
    const time = (at - (at % 3_600_000)).toString(16).padStart(12, '0');
    const count = this.#ids.toString(16).padStart(12, '0');
    return `${time.slice(0, 8)}-${time.slice(8)}-7000-8000-${count}` as Id;
  }

  stamp(at: Instant): Stamp {
    this.#last = nextStamp(this.#last, at, this.device);
    return this.#last;
  }

  /** A head as the app stores it, all fields set at one instant; `facts` are those of its kind. */
  head<H extends { id: string }>(facts: object, at: Instant): H {
    const stamp = this.stamp(at);
    const fields = [...Object.keys(facts), 'deletedAt'];
    const stamps = Object.fromEntries(fields.map((field) => [field, stamp]));
    const parts = { device: this.device, stamps, createdAt: at, deletedAt: null };
    return { ...facts, id: this.freshId(at), ...parts } as object as H;
  }

  /** Heads of one kind under the same keys as their facts, added one after the other. */
  heads<H extends { id: string }, K extends string>(
    facts: Readonly<Record<K, object>>,
    at: Instant,
  ): Record<K, H> {
    const heads = Object.entries<object>(facts).map(([key, own], index) => [
      key,
      this.head<H>(own, at + (1 + index) * 40_000),
    ]);
    return Object.fromEntries(heads);
  }

  /** The head with some fields set anew; those that stay the same keep their stamps. */
  changed<H extends { stamps: Record<string, Stamp> }>(
    head: H,
    changes: Partial<H>,
    at: Instant,
  ): H {
    const stamp = this.stamp(at);
    const news = Object.entries(changes).filter(
      ([field, value]) => JSON.stringify(value) !== JSON.stringify(head[field as keyof H]),
    );
    const stamps = { ...head.stamps, ...Object.fromEntries(news.map(([field]) => [field, stamp])) };
    return { ...head, ...changes, stamps };
  }
}

/** The log of one session, written press by press. */
export class Log {
  readonly entries: Entry[] = [];
  readonly sessionId: SessionId;
  readonly pen: Pen;

  constructor(pen: Pen, at: Instant) {
    this.pen = pen;
    this.sessionId = pen.freshId(at);
  }

  say(said: Entry['said'], at: Instant): Entry {
    const entry = {
      id: this.pen.freshId<EntryId>(at),
      sessionId: this.sessionId,
      at,
      writtenAt: at,
      stamp: this.pen.stamp(at),
      device: this.pen.device,
      said,
    } as Entry;
    this.entries.push(entry);
    return entry;
  }
}
