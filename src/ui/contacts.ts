/** A press under way: which finger, since when, and whether it has come to nothing. */
export interface Down {
  pointerId: number;
  at: number;
  isSpoilt: boolean;
}

/** So many contacts at one moment are a hand, no press. */
const handOf = 3;
/** Fingers on the glass now, on keys and beside them. */
const contacts = new Set<number>();
const under = new Set<Down>();
let isListening = false;

/** Begins a press; a hand on the glass spoils it, now or later. */
export function beginPress(event: PointerEvent): Down {
  const down = {
    pointerId: event.pointerId,
    at: event.timeStamp,
    isSpoilt: contacts.size >= handOf,
  };
  under.add(down);
  return down;
}

/**
 * Counts contacts on the whole page, once for all keys: a key can vanish under a finger, and a palm
 * rests beside the keys.
 */
export function countContacts(): void {
  if (isListening) return;
  isListening = true;
  const begin = (event: PointerEvent) => {
    // The device says that it feels nothing else: whatever is still counted has left unheard.
    if (event.isPrimary) contacts.clear();
    contacts.add(event.pointerId);
    if (contacts.size >= handOf) for (const press of under) press.isSpoilt = true;
  };
  const end = (event: PointerEvent) => {
    contacts.delete(event.pointerId);
    for (const press of under) if (press.pointerId === event.pointerId) under.delete(press);
  };
  const forget = () => {
    for (const press of under) press.isSpoilt = true;
    under.clear();
    contacts.clear();
  };
  document.addEventListener('pointerdown', begin, true);
  document.addEventListener('pointerup', end, true);
  document.addEventListener('pointercancel', end, true);
  document.addEventListener('visibilitychange', forget);
  window.addEventListener('blur', forget);
}
