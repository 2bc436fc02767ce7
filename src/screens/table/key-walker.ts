/** The keys of a table gone through one by one: which one is outlined, and a press without a hand. */
export interface KeyWalker {
  /** On to the next key, round and round. */
  next: () => void;
  /** One key back; false: this was the first. */
  back: () => boolean;
  /** Presses the key that a foot came down on: its press has gone on to the next one. */
  pressLast: () => void;
  /** Takes the outline away. */
  end: () => void;
}

/** What can be pressed; the bar at the bottom is the two pedals themselves. */
const pressable = 'button, a[href], input[type="file"]';
/** How long what a key opens may take to be drawn; later the outline stays where it is. */
const openingMs = 2_000;

/** Goes through the keys inside `root`, in the order they are read; the first one is outlined at once. */
export function keyWalkerIn(root: HTMLElement): KeyWalker {
  const main = root.querySelector('main');
  let at: HTMLElement | null = null;
  let passed: HTMLElement | null = null;
  let opening: MutationObserver | null = null;

  const keys = () =>
    [...root.querySelectorAll<HTMLElement>(pressable)].filter(
      (key) => !key.closest('nav') && key.checkVisibility({ visibilityProperty: true }),
    );
  const stand = (key: HTMLElement | undefined) => {
    shownOf(at)?.removeAttribute('data-outlined');
    at = key ?? null;
    shownOf(at)?.setAttribute('data-outlined', '');
  };
  const firstOfMain = () => keys().find((key) => main?.contains(key));
  const place = (all: readonly HTMLElement[]) => (at ? all.indexOf(at) : -1);

  stand(keys()[0]);
  return {
    next() {
      const all = keys();
      const index = place(all);
      passed = all[index] ?? null;
      stand(index < 0 ? (firstOfMain() ?? all[0]) : all[(index + 1) % all.length]);
    },
    back() {
      const all = keys();
      const index = place(all);
      passed = null;
      if (index <= 0) return false;
      stand(all[index - 1]);
      return true;
    },
    pressLast() {
      const key = passed;
      if (!key?.isConnected) return;
      const before = new Set(keys());
      key.click();
      stand(key);
      opening?.disconnect();
      // What it opens is drawn a little later, in pieces: the walk goes on from the first key of that.
      let stood = key;
      opening = new MutationObserver((_, observer) => {
        if (at !== stood) return observer.disconnect();
        const opened = keys().find((other) => main?.contains(other) && !before.has(other));
        const to = opened ?? (stood.isConnected ? stood : firstOfMain());
        if (!to) return;
        stood = to;
        stand(to);
      });
      setTimeout(opening.disconnect.bind(opening), openingMs);
      opening.observe(root, { childList: true, subtree: true });
    },
    end() {
      opening?.disconnect();
      stand(undefined);
    },
  };
}

/** A field for a picture has no looks of its own: the key round it has. */
function shownOf(key: HTMLElement | null): Element | null {
  return key instanceof HTMLInputElement ? (key.closest('label') ?? key) : key;
}
