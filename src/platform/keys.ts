/** What a key of a pedal, a page turner or a keyboard stands for: the main press, undo, or a place by its number. */
type KeyMeaning = 'press' | 'undo' | 1 | 2 | 3;
/** The same, or that the key of the main press or of Undo has been down for a second: its press was heard already. */
export type KeyHeard = KeyMeaning | 'held' | 'undo-held';

/** Keys that were learnt, each as `code` or `key` of its event. */
export interface LearntKeys {
  press: readonly string[];
  undo: readonly string[];
}

/** Hears pedals and keyboards. Only the way down counts: some pedals never say that they came up. */
export interface Keys {
  /**
   * Hears keys until the returned function is called. A learnt key means what was learnt; all others
   * mean what they usually mean. Null: nothing was learnt.
   */
  listen(learnt: LearntKeys | null, act: (heard: KeyHeard) => void): () => void;
  /** Tells every key that comes down, by its name, until the returned function is called; it does nothing else meanwhile. */
  learn(tell: (key: string) => void): () => void;
}

const usual: Readonly<Record<string, KeyMeaning>> = {
  PageDown: 'press',
  ArrowRight: 'press',
  ArrowDown: 'press',
  Enter: 'press',
  Space: 'press',
  ' ': 'press',
  PageUp: 'undo',
  ArrowLeft: 'undo',
  ArrowUp: 'undo',
  u: 'undo',
  U: 'undo',
  '1': 1,
  '2': 2,
  '3': 3,
  Digit1: 1,
  Digit2: 2,
  Digit3: 3,
};

/** One switch that bounces, or a pedal that says over and over that it is held, is one press. */
const bounceMs = 300;
/** A pedal that is held and does not say so speaks again within this. */
const stillMs = 150;
/** A foot that stays down this long means to. */
const heldMs = 1_000;
/** Keys that move about the page or begin a shortcut stay with the browser. */
const browsers = /^(Tab|Escape|Shift|Control|Alt|Meta|OS|CapsLock|Fn|AltGraph)/;
const nameless = /^(|Unidentified|Process|Dead)$/;

/** The keys that this device hears. */
export const deviceKeys: Keys = {
  listen: (learnt, act) =>
    hear((event) => {
      const means = meaningOf(event, learnt);
      if (means === null || isSomebodyElses(event)) return null;
      return {
        onDown: () => act(means),
        ...(means === 'press' ? { onHeld: () => act('held') } : {}),
        ...(means === 'undo' ? { onHeld: () => act('undo-held') } : {}),
      };
    }),
  learn: (tell) =>
    hear((event) => {
      const name = nameOf(event);
      if (name === '' || browsers.test(event.key) || isSomebodyElses(event)) return null;
      return { onDown: () => tell(name) };
    }),
};

/** What is done when a key comes down, and when it has stayed down. */
interface Answer {
  onDown: () => void;
  onHeld?: () => void;
}

/**
 * Asks `answer` for every key; one that has an answer is taken from the page. A key that repeats or
 * bounces acts once; one that goes on repeating is held, which needs no word that it came up.
 */
function hear(answer: (event: KeyboardEvent) => Answer | null): () => void {
  const down = new Map<string, { fromAt: number; seenAt: number; isTold: boolean }>();
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.isComposing || event.ctrlKey || event.altKey || event.metaKey) return;
    const acts = answer(event);
    if (!acts) return;
    event.preventDefault();
    const name = nameOf(event);
    const before = down.get(name);
    const seenAt = event.timeStamp;
    if (!before || (!event.repeat && seenAt - before.seenAt >= bounceMs)) {
      down.set(name, { fromAt: seenAt, seenAt, isTold: false });
      if (!event.repeat) acts.onDown();
      return;
    }
    const isStill = event.repeat || seenAt - before.seenAt < stillMs;
    const fromAt = isStill ? before.fromAt : seenAt;
    const isHeld = seenAt - fromAt >= heldMs;
    down.set(name, { fromAt, seenAt, isTold: before.isTold || isHeld });
    if (isHeld && !before.isTold) acts.onHeld?.();
  };
  document.addEventListener('keydown', onKeyDown, true);
  return () => document.removeEventListener('keydown', onKeyDown, true);
}

function meaningOf({ code, key }: KeyboardEvent, learnt: LearntKeys | null): KeyMeaning | null {
  const isIn = (names: readonly string[] = []) => names.includes(code) || names.includes(key);
  if (isIn(learnt?.press)) return 'press';
  if (isIn(learnt?.undo)) return 'undo';
  return usual[key] ?? usual[code] ?? null;
}

/** A text field keeps all its keys; a key on the page that has the focus keeps those that press it. */
function isSomebodyElses({ code, key, target }: KeyboardEvent): boolean {
  if (!(target instanceof HTMLElement)) return false;
  if (target.matches('input, textarea, select') || target.isContentEditable) return true;
  const isPressing = key === 'Enter' || key === ' ' || code === 'Space';
  return isPressing && target.matches('button, a[href], summary, [role="button"]');
}

/** What a key is called: its place on the keyboard, or what it writes where it has none. */
function nameOf({ code, key }: KeyboardEvent): string {
  if (!nameless.test(code)) return code;
  return nameless.test(key) ? '' : key;
}
