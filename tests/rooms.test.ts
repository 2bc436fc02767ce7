import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';

/**
 * Which room may open which door. Reading: a line of code in `calc` may import
 * from `calc` and `model`, and from nowhere else in the house.
 */
const doors: Record<string, readonly string[]> = {
  model: [],
  calc: ['model'],
  store: ['model', 'calc'],
  platform: [],
  ui: [],
  live: ['model', 'store', 'platform'],
  screens: ['model', 'calc', 'store', 'live', 'ui'],
  app: ['model', 'store', 'platform', 'live', 'ui', 'screens'],
};

/** Which packages a room may unpack. */
const packages: Record<string, readonly string[]> = {
  model: ['zod'],
  calc: ['date-fns', '@date-fns', 'culori'],
  store: ['idb', 'uuid', 'zod'],
  platform: ['workbox-window'],
  ui: ['preact'],
  live: ['preact'],
  // zod: ids in addresses and numbers typed into forms are read through the model's schemas.
  screens: ['preact', 'date-fns', 'zod'],
  app: ['preact'],
};

/** The one file outside the rooms: it introduces everybody to each other. */
const introducer = 'main.tsx';

/** What only one place may touch, so that a test can replace it. */
const soleOwners: readonly [pattern: RegExp, owner: RegExp][] = [
  [/\bDate\.now\(|new Date\(\)|performance\.now\(/, /^platform\/clock\.ts$/],
  [/\bMath\.random\(/, /^$/],
  [/\bnavigator\./, /^platform\//],
  [/\b(localStorage|indexedDB)\b/, /^store\//],
];

const mostLines = 250;

interface File {
  path: string;
  text: string;
}

const anImport =
  /^\s*(?:import|export)\s[^'"=();]*?from\s+['"]([^'"]+)['"]|^import\s+['"]([^'"]+)['"]|\bimport\(\s*['"]([^'"]+)['"]/gm;

function importsOf(text: string): string[] {
  return [...text.matchAll(anImport)].map((found) => (found[1] ?? found[2] ?? found[3]) as string);
}

function roomOf(path: string): string {
  return path.split('/')[0] as string;
}

/** Imports that the room of this file has no door for. */
function strangersIn({ path, text }: File): string[] {
  const room = roomOf(path);
  return importsOf(text).filter((target) => {
    if (target.endsWith('.css')) return !target.startsWith('./');
    const [, house, folder] = /^#([^/]+)\/(?:([^/]+)\/)?/.exec(target) ?? [];
    if (house && house !== room) return !doors[room]?.includes(house);
    // Screens do not know each other: what two of them need is a sum, a part or a question.
    if (house === 'screens') return folder !== undefined && folder !== path.split('/')[1];
    if (house) return false;
    if (target.startsWith('.')) return true;
    return !packages[room]?.includes(target.split('/')[0] as string);
  });
}

/** Patterns of the outside world that this file touches and does not own. */
function takenBy({ path, text }: File): string[] {
  const code = text.replace(/\/\*[\s\S]*?\*\/|\/\/.*/g, '');
  return soleOwners
    .filter(([pattern, owner]) => pattern.test(code) && !owner.test(path))
    .map(([pattern]) => pattern.source);
}

function lineCount({ text }: File): number {
  return text.trimEnd().split('\n').length;
}

/** Rings of files that import each other. */
function ringsOf(files: readonly File[]): string[] {
  const graph = new Map(
    files.map(({ path, text }) => [
      path,
      importsOf(text)
        .filter((target) => target.startsWith('#'))
        .map((target) => target.slice(1)),
    ]),
  );
  const rings: string[] = [];
  const done = new Set<string>();
  const walk = (path: string, trail: readonly string[]): void => {
    if (trail.includes(path)) {
      rings.push([...trail.slice(trail.indexOf(path)), path].join(' → '));
      return;
    }
    if (done.has(path)) return;
    for (const next of graph.get(path) ?? []) walk(next, [...trail, path]);
    done.add(path);
  };
  for (const path of graph.keys()) walk(path, []);
  return rings;
}

const files: File[] = readdirSync('src', { recursive: true, encoding: 'utf8' })
  .filter((path) => /\.tsx?$/.test(path))
  .map((path) => ({ path, text: readFileSync(`src/${path}`, 'utf8') }));

describe('the house', () => {
  test('every file is in a room', () => {
    const outside = files.filter(({ path }) => !(roomOf(path) in doors)).map(({ path }) => path);
    expect(outside).toEqual([introducer]);
  });

  test.each(files.filter(({ path }) => path !== introducer))('$path keeps to its doors', (file) => {
    expect(strangersIn(file), `${file.path} may not import`).toEqual([]);
  });

  test.each(files)('$path leaves the outside world to its owner', (file) => {
    expect(takenBy(file)).toEqual([]);
  });

  test.each(files)(`$path is read in one go: at most ${mostLines} lines`, (file) => {
    expect(lineCount(file)).toBeLessThanOrEqual(mostLines);
  });

  test('the rungs of the ladder import nothing: the code around them moves on', () => {
    const ladder = files.find(({ path }) => path === 'store/ladder.ts');
    expect(ladder && importsOf(ladder.text)).toEqual([]);
  });

  test('no two files import each other in a ring', () => {
    expect(ringsOf(files)).toEqual([]);
  });
});

describe('a planted violation is caught', () => {
  test.each([
    ['calc', "import { openBook } from '#store/book.ts';", '#store/book.ts'],
    ['model', "import { heat } from '#calc/heat.ts';", '#calc/heat.ts'],
    ['store', "import { useState } from 'preact/hooks';", 'preact/hooks'],
    ['store', "import { App } from '#app/App.tsx';", '#app/App.tsx'],
    ['platform', "import type { Shop } from '#live/shop.ts';", '#live/shop.ts'],
    ['ui', "import type { Mould } from '#model/mould.ts';", '#model/mould.ts'],
    ['live', "import { heat } from '#calc/heat.ts';", '#calc/heat.ts'],
    ['screens', "import { clock } from '#platform/clock.ts';", '#platform/clock.ts'],
    ['app', "import { heat } from '#calc/heat.ts';", '#calc/heat.ts'],
    ['calc', "const late = await import('../store/book.ts');", '../store/book.ts'],
    ['calc', "import {\n  openBook,\n  freshId,\n} from '../store/book.ts';", '../store/book.ts'],
    ['calc', "export { openBook } from './heat.ts';", './heat.ts'],
    ['ui', "import '#styles/tokens.css';", '#styles/tokens.css'],
    ['calc', "import { v7 } from 'uuid';", 'uuid'],
    ['screens', "import { openDB } from 'idb';", 'idb'],
  ])('a stranger in %s: %s', (room, text, stranger) => {
    const path = `${room}/planted/Planted.tsx`;
    expect(strangersIn({ path, text: `/** Planted. */\n${text}\n` })).toEqual([stranger]);
  });

  test('a screen that knows another screen', () => {
    const text = "import { Card } from '#screens/table/Card.tsx';\n";
    expect(strangersIn({ path: 'screens/pour/Planted.tsx', text })).toHaveLength(1);
    expect(strangersIn({ path: 'screens/table/Planted.tsx', text })).toEqual([]);
  });

  test.each([
    ['calc/planted.ts', 'const now = Date.now();'],
    ['live/planted.ts', 'const today = new Date();'],
    ['app/planted.ts', 'const mono = performance.now();'],
    ['platform/planted.ts', 'const chance = Math.random();'],
    ['screens/table/planted.ts', 'void navigator.vibrate(60);'],
    ['platform/planted.ts', "localStorage.setItem('a', 'b');"],
    ['live/planted.ts', "indexedDB.open('warmshot');"],
  ])('%s reaches out: %s', (path, text) => {
    expect(takenBy({ path, text })).toHaveLength(1);
    expect(takenBy({ path, text: `// ${text}\n` })).toEqual([]);
  });

  test('a file of one line too many', () => {
    const lines = (count: number) => ({ path: 'calc/planted.ts', text: 'a;\n'.repeat(count) });
    expect(lineCount(lines(mostLines))).toBe(mostLines);
    expect(lineCount(lines(mostLines + 1))).toBe(mostLines + 1);
  });

  test('a rung that imports, whatever the form', () => {
    const texts = [
      "import { Mould } from '#model/mould.ts';",
      "import type { Mould } from '#model/mould.ts';",
      "const { climb } = await import('#calc/heat.ts');",
    ];
    expect(texts.map((text) => importsOf(text).length)).toEqual([1, 1, 1]);
  });

  test('a ring of three', () => {
    const ring = [
      { path: 'calc/a.ts', text: "import { b } from '#calc/b.ts';" },
      { path: 'calc/b.ts', text: "import type { c } from '#calc/c.ts';" },
      { path: 'calc/c.ts', text: "export { a } from '#calc/a.ts';" },
    ];
    expect(ringsOf(ring)).toEqual(['calc/a.ts → calc/b.ts → calc/c.ts → calc/a.ts']);
    expect(ringsOf(ring.slice(0, 2))).toEqual([]);
  });
});
