import { type ComponentChildren, render } from 'preact';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { page } from 'vitest/browser';
import { tableOf } from '#calc/table.ts';
import { warmthAt } from '#calc/warmth.ts';
import { ShopContext } from '#live/shop.ts';
import { defects } from '#model/defect.ts';
import type { Result } from '#model/entry.ts';
import { Card } from '#screens/table/Card.tsx';
import { MarkPanel } from '#screens/table/MarkPanel.tsx';
import { entriesOf } from '#store/sessions.ts';
import { drawn } from '../../hands/drawn.ts';
import { Finger } from '../../hands/finger.ts';
import { glasses, keysOn, spilled } from '../../hands/glass.ts';
import { aTable, mainSays, type TestTable } from '../../hands/table.tsx';

// Checklist 9: moulds of 1 x 1 to 6 x 8, each painted in the room that the map of a real table has there.

/** The least a cell may be either way, CSS px. */
const leastPx = 72;

const shapes = Array.from({ length: 48 }, (_, at) => ({
  rows: (at % 8) + 1,
  cols: Math.floor(at / 8) + 1,
}));
type Shape = (typeof shapes)[number];
const nameOf = (shape?: Shape) => `${shape?.cols}x${shape?.rows}`;

/** What a cell can say, the longest first. */
const words: readonly Result[] = ['came-apart', ...defects, 'not-checked', 'closed', 'good'];

let table: TestTable;
let atMs = 900_000;
let painted: HTMLElement[] = [];

const key = (name: RegExp) => page.getByRole('button', { name }).first();
const finger = new Finger(3);

function touch(one: Element): void {
  finger.down(one, atMs);
  finger.lift(atMs + 60);
}

async function press(name: RegExp): Promise<void> {
  await expect.element(key(name)).toBeVisible();
  atMs += 1_000;
  touch(key(name).element());
}

beforeEach(async () => {
  await page.viewport(360, 740);
  // A finger that no glass feels cannot be captured.
  vi.spyOn(Element.prototype, 'setPointerCapture').mockImplementation(() => {});
  table = await aTable([['Grub 50', 8, 6]]);
  table.pass(1_000);
  await press(/^Filled/);
  await mainSays(/^Setting/);
  await press(/^Open now/);
  await mainSays(/^All good/);
});

afterEach(() => {
  for (const one of painted) render(null, one);
  painted = [];
  vi.restoreAllMocks();
});

/** The mould on the table with every layout, and its shot, with every word that a cell can show. */
async function seats() {
  const whole = tableOf(await entriesOf(table.shop.book, table.sessionId));
  const [seat] = whole.seats;
  const [shot] = seat?.shots ?? [];
  if (!seat || !shot) throw new Error('Nothing was filled.');
  return shapes.map(({ rows, cols }) => {
    const layout = { kind: 'grid', rows, cols, run: 'down', from: 'top-left' } as const;
    const results = Array.from(
      { length: rows * cols },
      (_, at): Result => words[at % words.length] ?? 'good',
    );
    return { whole, shot, results, seat: { ...seat, mould: { ...seat.mould, layout } } };
  });
}

/** Draws each in the place of the real one, all on one another: each has the whole room. */
function paintOver(real: Element, all: readonly ComponentChildren[]): void {
  const { gridArea } = getComputedStyle(real);
  painted = all.map((one) => {
    const place = document.createElement('div');
    place.style.cssText = `display: grid; min-width: 0; min-height: 0; grid-area: ${gridArea === 'auto' ? '1 / 1' : gridArea}; grid-template: minmax(0, 1fr) / minmax(0, 1fr)`;
    real.before(place);
    render(<ShopContext.Provider value={table.shop}>{one}</ShopContext.Provider>, place);
    return place;
  });
  if (real instanceof HTMLElement) real.style.gridArea = '1 / 1';
}

interface Look {
  faults: string[];
  /** Cavities that can be pressed. */
  cavities: string[];
  /** A cell's size as it is painted, whole px; the same for all cells or a fault. */
  size: string;
}

/** One map as it is painted. */
function look(place: Element): Look {
  const keys = keysOn(place);
  const faults = keys.flatMap(({ name, wide, high }) =>
    Math.min(wide, high) < leastPx - 0.1 ? [`${name} is ${wide} x ${high}`] : [],
  );
  const frame = place.firstElementChild?.getBoundingClientRect() ?? new DOMRect();
  for (const [index, { name, box }] of keys.entries()) {
    const isIn = box.left > frame.left - 0.5 && box.right < frame.right + 0.5;
    if (!isIn || box.top < frame.top - 0.5 || box.bottom > frame.bottom + 0.5) {
      faults.push(`${name} leaves its place`);
    }
    for (const other of keys.slice(index + 1)) {
      const apart = apartPx(box, other.box);
      if (apart < 7.5) faults.push(`${name} and ${other.name}: ${apart.toFixed(1)} px apart`);
    }
  }
  const cells = keys.filter(({ name }) => name.startsWith('Cavity'));
  const sizes = new Set(cells.map(({ wide, high }) => `${wide.toFixed(0)} x ${high.toFixed(0)}`));
  if (sizes.size !== 1) faults.push(`cells of ${[...sizes].join(', ')}`);
  return {
    faults: [...faults, ...spilled(place)],
    cavities: cells.map(({ element }) => element.querySelector('b')?.textContent ?? ''),
    size: [...sizes].join(', '),
  };
}

function apartPx(a: DOMRect, b: DOMRect): number {
  const apartX = Math.max(a.left, b.left) - Math.min(a.right, b.right);
  return Math.max(apartX, Math.max(a.top, b.top) - Math.min(a.bottom, b.bottom));
}

/** Presses the key of one part, or where there are too many for keys of their own the one to the next. */
function goToPart(place: Element, part: number): void {
  const next = place.querySelector('[aria-label="Next part"]');
  const keys = place.querySelectorAll('[aria-label="Part of the mould"] > button');
  const one = next ?? keys[part];
  if (one) touch(one);
}

function doesScroll(): boolean {
  const glass = document.scrollingElement;
  return (
    !!glass && (glass.scrollWidth > window.innerWidth || glass.scrollHeight > window.innerHeight)
  );
}

test('checklist 9: no map of 1 x 1 to 6 x 8 has a cell under 72 px; else it comes in equal parts that show every cavity', async () => {
  await press(/^Mark bad/);
  await expect.element(key(/^Cavity \d/)).toBeVisible();
  const real = document.querySelector('section[aria-label^="Grub 50, shot"]');
  if (!real) throw new Error('There is no map.');
  const nothing = () => {};
  paintOver(
    real,
    (await seats()).map(({ seat, shot, results }) => (
      <MarkPanel
        {...{ seat, shot, results }}
        place={1}
        last={null}
        walkedTo={null}
        due={[]}
        onMark={nothing}
        onClose={nothing}
        onCheckLater={nothing}
      />
    )),
  );
  const faults: string[] = [];
  const inParts: string[] = [];
  for (const [width, height] of glasses) {
    await page.viewport(width, height);
    await drawn();
    if (doesScroll()) faults.push(`${width}x${height} scrolls`);
    const rooms = [real, ...painted].map((one) => one.getBoundingClientRect());
    expect(new Set(rooms.map((room) => JSON.stringify(room))).size).toBe(1);
    const seen = shapes.map(() => ({ cavities: new Set<string>(), sizes: new Set<string>() }));
    const left = () =>
      shapes.flatMap(({ rows, cols }, at) =>
        (seen[at]?.cavities.size ?? 0) < rows * cols ? [at] : [],
      );
    // All go on to their next part together, until the last one has shown its last.
    for (let part = 0; part < 48 && left().length > 0; part += 1) {
      const now = left();
      // A part that was shown on the glass before is still shown: the first is asked for, too.
      atMs += 1_000;
      for (const at of now) goToPart(painted[at] ?? real, part);
      await drawn();
      for (const at of now) {
        const { faults: found, cavities, size } = look(painted[at] ?? real);
        const where = `${width}x${height} ${nameOf(shapes[at])}`;
        faults.push(...found.map((one) => `${where}: ${one}`));
        for (const one of cavities) seen[at]?.cavities.add(one);
        seen[at]?.sizes.add(size);
        if (part > 0) inParts.push(where);
      }
    }
    expect(left().map((at) => nameOf(shapes[at]))).toEqual([]);
    for (const [at, { sizes }] of seen.entries()) {
      if (sizes.size > 1) faults.push(`${nameOf(shapes[at])}: parts of ${[...sizes].join(', ')}`);
    }
  }
  expect(faults).toEqual([]);
  // The table of pour-table 4.5: which moulds a glass shows whole.
  for (const whole of ['360x740 2x5', '360x740 4x5', '412x915 2x6', '740x360 2x6']) {
    expect(inParts).not.toContain(whole);
  }
  for (const cut of ['360x740 6x8', '412x915 6x8', '740x360 4x4', '320x568 4x4']) {
    expect(inParts).toContain(cut);
  }
}, 120_000);

test('checklist 9: a live map on a card is whole with cells of 72 px, or is not there', async () => {
  const real = document.querySelector('article');
  if (!real) throw new Error('There is no card.');
  const now = table.shop.clock.now();
  const nothing = () => {};
  const acts = {
    fillNow: nothing,
    openNow: nothing,
    lastLayer: nothing,
    skip: nothing,
    markBad: nothing,
    markCavity: nothing,
    checkLater: nothing,
    allGood: nothing,
  };
  paintOver(
    real,
    (await seats()).map(({ whole, seat, shot, results }) => (
      <Card
        {...{ seat, shot, now, acts }}
        place={1}
        stage="open"
        warmth={warmthAt(whole, seat, now)}
        note={null}
        marked={results}
        isBehind={false}
        isFront={true}
      />
    )),
  );
  const faults: string[] = [];
  const live: string[] = [];
  for (const [width, height] of glasses) {
    await page.viewport(width, height);
    await drawn();
    if (doesScroll()) faults.push(`${width}x${height} scrolls`);
    for (const [at, place] of painted.entries()) {
      const where = `${width}x${height} ${nameOf(shapes[at])}`;
      const cells = keysOn(place).filter(({ name }) => name.startsWith('Cavity'));
      const { rows = 0, cols = 0 } = shapes[at] ?? {};
      if (cells.length > 0 && cells.length !== rows * cols) faults.push(`${where}: in parts`);
      if (cells.length > 0) live.push(where);
      const isMarked = keysOn(place).some(({ name }) => name.startsWith('Mark bad'));
      if (isMarked === cells.length > 0) faults.push(`${where}: two ways to mark, or none`);
      const { faults: found } = look(place);
      faults.push(...found.filter((one) => one !== 'cells of ').map((one) => `${where}: ${one}`));
    }
  }
  expect(faults).toEqual([]);
  expect(live).toContain('412x915 2x5');
  expect(live).toContain('1024x768 2x4');
}, 120_000);
