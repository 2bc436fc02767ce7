import type { Page } from '@playwright/test';

/** A box of the glass in whole px, and what stands in it. */
interface Part {
  name: string;
  box: { left: number; top: number; right: number; bottom: number };
}

interface Words extends Part {
  /** As painted, sRGB 0..255. */
  colour: readonly number[];
  least: number;
}

interface Shape extends Part {
  /** How much of it, px from its edge, has to show it; null: all of it. What is drawn in a key is a shape of its own. */
  rim: number | null;
  /** The fill of a bar, if the shape is one. */
  bar: readonly number[] | null;
}

/** A chosen key and one beside it that is not. */
interface Choice {
  name: string;
  chosen: Part['box'];
  other: Part['box'];
  /** The chosen one has another edge. */
  hasOwnEdge: boolean;
}

interface Parts {
  words: Words[];
  shapes: Shape[];
  choices: Choice[];
}

/** What is asked of words and shapes: pour-table 41 and 42 unless told otherwise. */
export interface Least {
  /** Countdown, words on keys, numbers of cavities. */
  key: number;
  words: number;
  shape: number;
}

const atTheTable: Least = { key: 11, words: 7, shape: 3 };

/**
 * Words and shapes of the page as it is painted now that do not stand out from their ground. The colour of words is what the
 * browser computed; their ground is read off the picture of the glass without its letters, so that it is what they really
 * stand on. A shape stands out if enough of it differs from the ring around it, a chosen key by its fill or by another edge. Contrast: WCAG 2.2, definitions.
 */
export async function faintOn(page: Page, where: string, least = atTheTable): Promise<string[]> {
  const parts = await partsOn(page, least);
  await hideLetters(page, true);
  const picture = (await page.screenshot({ animations: 'disabled' })).toString('base64');
  await hideLetters(page, false);
  const faint = await page.evaluate(judge, { ...parts, picture, leastShape: least.shape });
  return faint.map((one) => `${where}: ${one}`);
}

/** Takes the letters off the page and puts them back; edges and drawings keep their colours. */
async function hideLetters(page: Page, isHidden: boolean): Promise<void> {
  await page.evaluate((on) => {
    const sheet = new CSSStyleSheet();
    sheet.replaceSync(
      '* { -webkit-text-fill-color: transparent !important } svg text { fill: transparent !important; stroke: none !important }',
    );
    document.adoptedStyleSheets = on ? [sheet] : [];
  }, isHidden);
}

async function partsOn(page: Page, least: Least): Promise<Parts> {
  return await page.evaluate((asked) => {
    const numbers = (colour: string) => (colour.match(/[\d.]+/g) ?? []).map(Number);
    const isSeen = (element: Element) =>
      element.checkVisibility({ opacityProperty: true, visibilityProperty: true });
    /** What is left of a box once everything that cuts it has cut it. */
    const seenOf = (element: Element, { left, top, right, bottom }: DOMRect) => {
      const box = { left, top, right, bottom };
      for (let on: Element | null = element; on; on = on.parentElement) {
        if (getComputedStyle(on).overflow === 'visible' && on !== document.documentElement)
          continue;
        const cut =
          on === document.documentElement
            ? { left: 0, top: 0, right: window.innerWidth, bottom: window.innerHeight }
            : on.getBoundingClientRect();
        box.left = Math.max(box.left, cut.left);
        box.top = Math.max(box.top, cut.top);
        box.right = Math.min(box.right, cut.right);
        box.bottom = Math.min(box.bottom, cut.bottom);
      }
      return {
        left: Math.round(box.left),
        top: Math.round(box.top),
        right: Math.round(box.right),
        bottom: Math.round(box.bottom),
      };
    };
    /** A bar that stays while the page moves lies over the middle of this box. */
    const isUnderBar = (element: Element, { left, right, top, bottom }: Part['box']) => {
      const hit = document.elementFromPoint((left + right) / 2, (top + bottom) / 2);
      for (let on = hit; on; on = on.parentElement) {
        if (/fixed|sticky/.test(getComputedStyle(on).position)) return !on.contains(element);
      }
      return false;
    };
    /** Widths of the four edges that are painted; empty: none is. */
    const edgeOf = (one: Element | null) => {
      const style = one && getComputedStyle(one);
      const widths = ['top', 'right', 'bottom', 'left'].map((side) => {
        const isClear = numbers(style?.getPropertyValue(`border-${side}-color`) ?? '')[3] === 0;
        return isClear ? '0px' : (style?.getPropertyValue(`border-${side}-width`) ?? '0px');
      });
      return widths.every((width) => width === '0px') ? '' : widths.join();
    };
    const words: Words[] = [];
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    while (walker.nextNode()) {
      const { currentNode: node } = walker;
      const element = node.parentElement;
      const name = node.textContent?.trim();
      if (!name || !element || !isSeen(element) || element.closest('.said')) continue;
      const range = document.createRange();
      range.selectNodeContents(node);
      const { color, fill } = getComputedStyle(element);
      const isKey = element.closest('button, [role="timer"], strong, [role="img"] b') !== null;
      for (const line of range.getClientRects()) {
        const box = seenOf(element, line);
        if (isUnderBar(element, box)) continue;
        words.push({
          name,
          colour: numbers(element.closest('svg') ? fill : color),
          least: isKey ? asked.key : asked.words,
          box,
        });
      }
    }
    const shapes: Shape[] = [];
    const drawn =
      'button:not([role="checkbox"]), svg, i, [role="img"], article [role="img"] > div, article[data-state="open"], input, select, textarea';
    for (const element of document.querySelectorAll<HTMLElement>(drawn)) {
      if (!isSeen(element) || element.closest('.said') || element.matches('input[type="file"]'))
        continue;
      if (element.parentElement?.closest('svg')) continue;
      const whole = element.getBoundingClientRect();
      const box = seenOf(element, whole);
      // A long page goes on under the glass; a part of a bar is framed by the bar.
      if (whole.bottom > window.innerHeight || isUnderBar(element, box)) continue;
      // Plastic is shown in its own colour, a guess of it with no edge; its words stand beside it.
      if (element.matches('[style*="--swatch"]')) continue;
      if (element.matches('[role="img"] > i') && edgeOf(element.parentElement)) continue;
      const style = element.getAttribute('style') ?? '';
      const isBar = /--(left|bad):/.test(style) && !/--bad:\s*0/.test(style);
      shapes.push({
        name: `${element.tagName} ${element.getAttribute('aria-label') ?? element.textContent ?? ''}`,
        rim: element.matches('button, [role="img"] > div, input, select, textarea')
          ? 4
          : element.matches('article')
            ? 8
            : null,
        bar: isBar ? numbers(getComputedStyle(element, '::before').backgroundColor) : null,
        box,
      });
    }
    const choices: Choice[] = [];
    const isChosen = ':is([aria-pressed="true"], [aria-current], [aria-checked="true"])';
    for (const element of document.querySelectorAll(`:is(button, a)${isChosen}`)) {
      // A key may be wrapped in an item of a list.
      const group = element.closest('ul, ol, [role="group"], nav') ?? element.parentElement;
      const other = [...(group?.querySelectorAll(element.tagName) ?? [])].find(
        (one) => !one.matches(isChosen) && isSeen(one),
      );
      if (!other || !isSeen(element)) continue;
      choices.push({
        name: element.textContent ?? '',
        chosen: seenOf(element, element.getBoundingClientRect()),
        other: seenOf(other, other.getBoundingClientRect()),
        hasOwnEdge: edgeOf(element) !== edgeOf(other),
      });
    }
    const isPainted = ({ box }: Part) => box.right - box.left >= 2 && box.bottom - box.top >= 2;
    return { words: words.filter(isPainted), shapes: shapes.filter(isPainted), choices };
  }, least);
}

/** Runs in the page, which can read a picture. */
async function judge(given: Parts & { picture: string; leastShape: number }): Promise<string[]> {
  const bytes = Uint8Array.from(atob(given.picture), (one) => one.charCodeAt(0));
  const bitmap = await createImageBitmap(new Blob([bytes], { type: 'image/png' }));
  const paper = new OffscreenCanvas(bitmap.width, bitmap.height).getContext('2d');
  if (!paper) throw new Error('There is nothing to read the picture with.');
  paper.drawImage(bitmap, 0, 0);
  const { data, width, height } = paper.getImageData(0, 0, bitmap.width, bitmap.height);
  const luminance = (colour: readonly number[]) => {
    const [r = 0, g = 0, b = 0] = colour.slice(0, 3).map((of255) => {
      const share = of255 / 255;
      return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const contrast = (one: readonly number[], other: readonly number[]) => {
    const [light = 0, dark = 0] = [luminance(one), luminance(other)].sort((a, b) => b - a);
    return (light + 0.05) / (dark + 0.05);
  };
  /** A colour that is seen through, on its ground. */
  const over = (colour: readonly number[], ground: readonly number[]) => {
    const share = colour[3] ?? 1;
    return ground.map((of255, at) => share * (colour[at] ?? 0) + (1 - share) * of255);
  };
  /** The colours of a box, each with its share, the commonest first; `hole` is left out. */
  const coloursIn = (box: Part['box'], hole: Part['box'] | null) => {
    const counts = new Map<number, number>();
    let all = 0;
    for (let y = Math.max(0, box.top); y < Math.min(height, box.bottom); y += 1) {
      for (let x = Math.max(0, box.left); x < Math.min(width, box.right); x += 1) {
        const isIn = hole && x >= hole.left && x < hole.right && y >= hole.top && y < hole.bottom;
        if (isIn) continue;
        const at = 4 * (y * width + x);
        const colour = ((data[at] ?? 0) << 16) | ((data[at + 1] ?? 0) << 8) | (data[at + 2] ?? 0);
        counts.set(colour, (counts.get(colour) ?? 0) + 1);
        all += 1;
      }
    }
    return [...counts]
      .map(([colour, count]) => ({
        colour: [colour >> 16, (colour >> 8) & 255, colour & 255],
        share: count / all,
      }))
      .sort((a, b) => b.share - a.share);
  };
  const faint: string[] = [];
  for (const { name, colour, least, box } of given.words) {
    // A twentieth: the rim of a letter's box may touch an edge of its key.
    const grounds = coloursIn(box, null).filter(({ share }) => share >= 0.05);
    const reached = Math.min(
      ...grounds.map((ground) => contrast(over(colour, ground.colour), ground.colour)),
    );
    if (reached < least) faint.push(`"${name}" ${reached.toFixed(1)}:1, needs ${least}`);
  }
  const grown = ({ left, top, right, bottom }: Part['box'], by: number) => ({
    left: left - by,
    top: top - by,
    right: right + by,
    bottom: bottom + by,
  });
  for (const { name, rim, bar, box } of given.shapes) {
    const ground = coloursIn(grown(box, 2), box)[0]?.colour;
    // What fills the glass has nothing around it.
    if (!ground) continue;
    const own = coloursIn(box, rim === null ? null : grown(box, -rim)).filter(
      ({ share }) => share >= (rim === null ? 0.01 : 0.04),
    );
    const reached = Math.max(...own.map(({ colour }) => contrast(colour, ground)));
    if (reached < given.leastShape)
      faint.push(`${name} ${reached.toFixed(1)}:1, needs ${given.leastShape}`);
    if (bar && contrast(bar, ground) < given.leastShape)
      faint.push(`${name}: its bar ${contrast(bar, ground).toFixed(1)}:1`);
  }
  for (const { name, chosen, other, hasOwnEdge } of given.choices) {
    const [mine, its] = [chosen, other].map((box) => coloursIn(box, null)[0]?.colour);
    if (!mine || !its || hasOwnEdge) continue;
    if (contrast(mine, its) < given.leastShape) faint.push(`${name} does not look chosen`);
  }
  return faint;
}
