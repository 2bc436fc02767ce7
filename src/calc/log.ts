import type { Entry, EntryId, Said } from '#model/entry.ts';
import type { Instant, Stamp } from '#model/schemas.ts';

/** An entry as it counts now, after everything that was put right. */
export interface Standing {
  id: EntryId;
  said: Said;
  at: Instant;
  writtenAt: Instant;
  stamp: Stamp;
  /** What it said before it was put right, and when that was done; null: never. */
  before: { said: Said; at: Instant; putRightAt: Instant } | null;
}

/** One line of the log with what became of it. */
export interface Line extends Standing {
  /** When it was taken back; null: it stands. */
  takenBackAt: Instant | null;
  /** The entry that took it back: taking that one back brings this one again. */
  takenBackBy: EntryId | null;
}

/**
 * Every line of the log in the order it was written, each with what became of it. The order in
 * which entries arrive does not matter and neither do doubles. A correction whose target is
 * missing waits without effect.
 */
export function linesOf(entries: readonly Entry[]): Line[] {
  const inOrder = inStampOrder(entries);
  const takers = takersOf(inOrder);
  const rights = new Map<EntryId, Entry[]>();
  for (const entry of inOrder) {
    if (entry.said.kind !== 'put-right' || takers.has(entry.id)) continue;
    rights.set(entry.said.target, [...(rights.get(entry.said.target) ?? []), entry]);
  }
  return inOrder.flatMap((entry): Line[] => {
    if (entry.said.kind === 'put-right' || entry.said.kind === 'taken-back') return [];
    const { id, writtenAt, stamp } = entry;
    const own = { said: entry.said as Said, at: entry.at };
    const right = rights.get(id)?.at(-1);
    const taker = takers.get(id);
    const fate = { takenBackAt: taker?.at ?? null, takenBackBy: taker?.id ?? null };
    if (right?.said.kind !== 'put-right') {
      return [{ id, ...own, writtenAt, stamp, before: null, ...fate }];
    }
    const says = { said: right.said.says as Said, at: right.said.happenedAt as Instant };
    return [{ id, ...says, writtenAt, stamp, before: { ...own, putRightAt: right.at }, ...fate }];
  });
}

/** The lines that count: not taken back, each as it was put right. */
export function standingOf(entries: readonly Entry[]): Standing[] {
  return linesOf(entries).filter((line) => line.takenBackAt === null);
}

/** Footing, and what is taken back where it is read: notes and what was weighed at the desk. */
const notUndone = new Set<Said['kind']>([
  'session-begun',
  'session-ended',
  'noted',
  'scrap-weighed',
]);

/** The newest line that stands, down to what opened the session. */
export function undoneNext(
  lines: readonly Standing[],
  begun: Standing | undefined,
): Standing | null {
  const isUndone = ({ said, writtenAt }: Standing) =>
    !notUndone.has(said.kind) && writtenAt !== begun?.writtenAt;
  return lines.findLast(isUndone) ?? null;
}

/** All entries once, in the order of their stamps; two windows with one stamp are settled by id. */
export function inStampOrder(entries: readonly Entry[]): Entry[] {
  const byId = new Map(entries.map((entry) => [entry.id, entry]));
  const keyOf = (entry: Entry) => `${entry.stamp} ${entry.id}`;
  return [...byId.values()].sort((a, b) => (keyOf(a) < keyOf(b) ? -1 : 1));
}

/**
 * For each entry that is taken back, the entry that does it. A taking back can itself be taken
 * back, and is always written after its target, so the newest is settled first.
 */
function takersOf(inOrder: readonly Entry[]): Map<EntryId, Entry> {
  const takers = new Map<EntryId, Entry>();
  for (const entry of inOrder.toReversed()) {
    if (entry.said.kind === 'taken-back' && !takers.has(entry.id)) {
      takers.set(entry.said.target, entry);
    }
  }
  return takers;
}
