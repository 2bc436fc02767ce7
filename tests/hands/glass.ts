/** Glasses that every screen has to fit: pour-table.md, checklist 51. */
export const glasses = [
  [320, 568],
  [360, 740],
  [412, 915],
  [740, 360],
  [768, 1024],
  [1024, 768],
] as const;

/** A key as it is painted. */
export interface PaintedKey {
  name: string;
  wide: number;
  high: number;
  box: DOMRect;
  element: Element;
}

/** Every key that can be seen. */
export function keysOn(root: Element): PaintedKey[] {
  return [...root.querySelectorAll('button')]
    .filter((button) => button.checkVisibility() && button.getClientRects().length > 0)
    .map((element) => {
      const box = element.getBoundingClientRect();
      const name = element.getAttribute('aria-label') ?? element.textContent ?? '';
      return { name, wide: box.width, high: box.height, box, element };
    });
}

/** Keys of the bottom bar: the main key and the one beside it. */
export function isOfTheBar({ element }: PaintedKey): boolean {
  return element.closest('nav[aria-label="Log"]') !== null;
}

/** What breaks the rules of place: keys off the glass, too close to each other, words outside of their key, scrolling. */
export function placeFaults(root: Element): string[] {
  const keys = keysOn(root);
  const faults = keys.flatMap(({ name, box }) => {
    const isOff =
      box.left < -0.5 ||
      box.top < -0.5 ||
      box.right > window.innerWidth + 0.5 ||
      box.bottom > window.innerHeight + 0.5;
    return isOff ? [`${name} runs off the glass`] : [];
  });
  for (const [index, a] of keys.entries()) {
    for (const b of keys.slice(index + 1)) {
      const apartX = Math.max(a.box.left, b.box.left) - Math.min(a.box.right, b.box.right);
      const apartY = Math.max(a.box.top, b.box.top) - Math.min(a.box.bottom, b.box.bottom);
      const apart = Math.max(apartX, apartY);
      const least = isOfTheBar(a) && isOfTheBar(b) ? 20 : 8;
      if (apart < least - 0.5) faults.push(`${a.name} and ${b.name}: ${apart.toFixed(1)} px apart`);
    }
  }
  const page = document.scrollingElement;
  if (page && (page.scrollWidth > window.innerWidth || page.scrollHeight > window.innerHeight)) {
    faults.push('scrolls');
  }
  return [...faults, ...spilled(root)];
}

/** Words that leave their key, their card or the glass, or are cut by what holds them. */
export function spilled(root: Element): string[] {
  return [...root.querySelectorAll('button, article, section')]
    .filter((element) => element.checkVisibility())
    .flatMap((element) => {
      const box = element.getBoundingClientRect();
      return wordsIn(element)
        .filter(
          ({ line }) =>
            line.left < box.left - 1 ||
            line.right > box.right + 1 ||
            line.top < box.top - 3 ||
            line.bottom > box.bottom + 3,
        )
        .map(({ text }) => `"${text}" leaves its ${element.tagName.toLowerCase()}`)
        .slice(0, 1);
    });
}

function wordsIn(element: Element): { text: string; line: DOMRect }[] {
  const range = document.createRange();
  const walker = document.createTreeWalker(element, NodeFilter.SHOW_TEXT);
  const found: { text: string; line: DOMRect }[] = [];
  while (walker.nextNode()) {
    const node = walker.currentNode;
    const parent = node.parentElement;
    const text = node.textContent?.trim();
    // Words for screen readers are clipped away.
    if (!text || !parent?.checkVisibility() || parent.closest('.said')) continue;
    if (isElsewhere(parent, element)) continue;
    range.selectNodeContents(node);
    for (const line of range.getClientRects()) if (line.width > 0) found.push({ text, line });
  }
  return found;
}

/** True where the words have a place of their own on the glass, in a rail beside what they belong to. */
function isElsewhere(words: Element, whole: Element): boolean {
  for (let at: Element | null = words; at && at !== whole; at = at.parentElement) {
    if (getComputedStyle(at).position === 'fixed') return true;
  }
  return false;
}
