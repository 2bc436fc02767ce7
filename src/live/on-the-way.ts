import type { Entry, EntryId } from '#model/entry.ts';
import type { Instant } from '#model/schemas.ts';
import type { Clock } from '#platform/clock.ts';
import type { Says } from '#store/entries.ts';

/** A press that is on its way to the disk and back to the table. */
interface Pressed {
  touches: readonly string[];
  at: Instant;
  /** Null: it is no line yet. */
  id: EntryId | null;
}

/** How long a press may be on its way. */
const underWayMs = 2_000;

/**
 * Keeps two keys, or two presses of one, from filling a mould twice, or opening a shot twice, before the
 * table knows of the first.
 */
export class OnTheWay {
  #presses: Pressed[] = [];

  /** Null: the same is on its way already. Else tells it of the line that became of it; null: none did. */
  begin(
    says: Says,
    entries: readonly Entry[],
    clock: Clock,
  ): ((line: Entry | null) => void) | null {
    const touches = touchedBy(says);
    this.#presses = this.#presses.filter(
      ({ at, id }) =>
        clock.realMs(clock.now() - at) < underWayMs && !entries.some((entry) => entry.id === id),
    );
    if (this.#presses.some((one) => one.touches.some((what) => touches.includes(what))))
      return null;
    const own: Pressed = { touches, at: clock.now(), id: null };
    this.#presses.push(own);
    return (line) => {
      if (line) own.id = line.id;
      else this.#presses = this.#presses.filter((one) => one !== own);
    };
  }
}

function touchedBy(says: Says): string[] {
  if (says.kind === 'filled') return says.shots.map(({ mouldId }) => `fills ${mouldId}`);
  if (says.kind === 'opened') return says.shots.map(({ shotId }) => `opens ${shotId}`);
  if (says.kind === 'clock-stopped') return [`stops ${says.shotId}`];
  return [];
}
