/** What a key of a pedal, a page turner or a keyboard stands for: the main press, undo, or a place by its number. */
export type KeyMeaning = 'press' | 'undo' | 1 | 2 | 3;

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
  listen(learnt: LearntKeys | null, act: (means: KeyMeaning) => void): () => void;
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
  '1': 1,
  '2': 2,
  '3': 3,
  Digit1: 1,
  Digit2: 2,
  Digit3: 3,
};

/** One switch that bounces, or a pedal that says over and over that it is held, is one press. */
const bounceMs = 300;
/** Keys that move about the page or begin a shortcut stay with the browser. */
const browsers = /^(Tab|Escape|Shift|Control|Alt|Meta|OS|CapsLock|Fn|AltGraph)/;
const nameless = /^(|Unidentified|Process|Dead)$/;

/** The keys that this device hears. */
export const deviceKeys: Keys = {
  listen: (learnt, act) =>
    hear((event) => {
      const means = meaningOf(event, learnt);
      if (means === null || isSomebodyElses(event)) return null;
      return () => act(means);
    }),
  learn: (tell) =>
    hear((event) => {
      const name = nameOf(event);
      if (name === '' || browsers.test(event.key) || isSomebodyElses(event)) return null;
      return () => tell(name);
    }),
};

/** Asks `answer` for every key; one that has an answer is taken from the page, and acted on unless it repeats or bounces. */
function hear(answer: (event: KeyboardEvent) => (() => void) | null): () => void {
  const seenAt = new Map<string, number>();
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.isComposing || event.ctrlKey || event.altKey || event.metaKey) return;
    const act = answer(event);
    if (!act) return;
    event.preventDefault();
    const name = nameOf(event);
    const before = seenAt.get(name) ?? Number.NEGATIVE_INFINITY;
    seenAt.set(name, event.timeStamp);
    if (!event.repeat && event.timeStamp - before >= bounceMs) act();
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
