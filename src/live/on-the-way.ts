import type { Entry, EntryId } from '#model/entry.ts';
import type { Instant } from '#model/schemas.ts';
import type { Clock } from '#platform/clock.ts';
import type { Says } from '#store/entries.ts';

/** A press that is on its way to the disk and back to the table. */
interface Pressed {
  at: Instant;
  /** Its line; absent: it is none yet. */
  id?: EntryId;
}

/** How long a press may be on its way. */
const underWayMs = 2_000;

/**
 * Keeps two keys, or two presses of one, from filling a mould, pouring a layer or opening a shot twice before
 * the table knows of the first.
 */
export class OnTheWay {
  #presses = new Map<string, Pressed>();

  /** A press that has just begun, whose line its caller tells; null: the same is on its way already. */
  begin(says: Says, entries: readonly Entry[], clock: Clock): Pressed | null {
    const touches = touchedBy(says);
    const own: Pressed = { at: clock.now() };
    const isTwin = touches.some((what) => {
      const one = this.#presses.get(what);
      const isNew = one && clock.realMs(own.at - one.at) < underWayMs;
      return isNew && !entries.some(({ id }) => id === one.id);
    });
    if (isTwin) return null;
    for (const what of touches) this.#presses.set(what, own);
    return own;
  }
}

/** The moulds that it fills, the shots that it opens or pours a layer into. */
function touchedBy(says: Says): string[] {
  const { kind } = says;
  if (kind === 'filled') return says.shots.map(({ mouldId }) => kind + mouldId);
  const isOfShots = kind === 'opened' || kind === 'layer-poured';
  return isOfShots ? says.shots.map(({ shotId }) => kind + shotId) : [];
}
