import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';

/**
 * Which room may open which door. Reading: a line of code in `calc` may import from `calc` and
 * `model`, and from nowhere else in the house.
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
  calc: ['date-fns', '@date-fns', 'culori', 'qr'],
  store: ['idb', 'zod', 'uuid', 'papaparse', '@scure'],
  platform: ['workbox-window'],
  ui: ['preact', 'd3-array', 'd3-shape'],
  live: ['preact'],
  screens: ['preact', 'date-fns', 'zod'],
  app: ['preact'],
};

/** What only one place may touch, so that a test can replace it. */
const soleOwners: readonly [pattern: RegExp, owner: RegExp][] = [
  [/\bDate\.now\(|new Date\(\)|performance\.now\(/, /^platform\/clock\.ts$/],
  [/\bMath\.random\(/, /^$/],
  [/\bnavigator\./, /^platform\//],
  [/\b(localStorage|indexedDB)\b/, /^store\//],
  [/dangerouslySetInnerHTML|\binnerHTML\b|\beval\(|new Function\(/, /^$/],
];

const longest = 250;

interface SourceFile {
  path: string;
  room: string;
  text: string;
}

const files: SourceFile[] = readdirSync('src', { recursive: true, encoding: 'utf8' })
  .filter((path) => /\.tsx?$/.test(path))
  .map((path) => ({
    path,
    room: path.split('/')[0] as string,
    text: readFileSync(`src/${path}`, 'utf8'),
  }));

const anImport =
  /^\s*(?:import|export)\s[^'"=();]*?from\s+['"]([^'"]+)['"]|^import\s+['"]([^'"]+)['"]|\bimport\(\s*['"]([^'"]+)['"]/gm;

function importsOf(text: string): string[] {
  return [...text.matchAll(anImport)].map((found) => (found[1] ?? found[2] ?? found[3]) as string);
}

/** What a file imports that its room may not. */
function strangersIn({ path, room, text }: SourceFile): string[] {
  return importsOf(text).filter((target) => {
    if (target.endsWith('.css')) return !target.startsWith('./');
    const house = /^#([^/]+)\//.exec(target)?.[1];
    if (house === 'screens' && room === 'screens') return isOtherScreen(path, target);
    if (house) return house !== room && !doors[room]?.includes(house);
    if (target.startsWith('.')) return true;
    return !packages[room]?.includes(target.split('/')[0] as string);
  });
}

/** Screens do not import each other; what they share lies beside their folders. */
function isOtherScreen(path: string, target: string): boolean {
  const [, , folder, file] = `#/${target.slice(1)}`.split('/');
  return file !== undefined && folder !== path.split('/')[1];
}

/** The outside world that a file touches and does not own. */
function takenBy({ path, text }: SourceFile): string[] {
  const code = codeOf(text);
  return soleOwners
    .filter(([pattern, owner]) => pattern.test(code) && !owner.test(path))
    .map(([pattern]) => pattern.source);
}

/** The text without its comments. */
function codeOf(text: string): string {
  return text.replace(/\/\*[\s\S]*?\*\/|\/\/.*/g, '');
}

/** Files that import each other in a ring. */
function ringsIn(all: readonly SourceFile[]): string[] {
  const graph = new Map(
    all.map((file) => [
      file.path,
      importsOf(file.text)
        .filter((target) => target.startsWith('#'))
        .map((target) => target.slice(1)),
    ]),
  );
  const rings: string[] = [];
  const done = new Set<string>();
  const walk = (path: string, trail: readonly string[]): void => {
    if (trail.includes(path)) {
      rings.push([...trail.slice(trail.indexOf(path)), path].join(' -> '));
      return;
    }
    if (done.has(path)) return;
    for (const next of graph.get(path) ?? []) walk(next, [...trail, path]);
    done.add(path);
  };
  for (const path of graph.keys()) walk(path, []);
  return rings;
}

describe('the house', () => {
  test('every file keeps to its doors', () => {
    const inRooms = files.filter((file) => file.room in doors);
    expect(inRooms.length).toBeGreaterThan(100);
    for (const file of inRooms) {
      expect(strangersIn(file), `${file.path} may not import`).toEqual([]);
    }
  });

  test('every file leaves the outside world to its owner', () => {
    for (const file of files) expect(takenBy(file), file.path).toEqual([]);
  });

  test('no two files import each other in a ring', () => {
    expect(ringsIn(files)).toEqual([]);
  });

  test(`no file is longer than ${longest} lines`, () => {
    for (const { path, text } of files) {
      expect(text.split('\n').length, path).toBeLessThanOrEqual(longest + 1);
    }
  });

  test('the ladder imports nothing', () => {
    const ladder = files.find(({ path }) => path === 'store/ladder.ts');
    expect(importsOf(ladder?.text ?? 'import "missing"')).toEqual([]);
  });

  test('nothing is thrown away: no loose ends are left in the code', () => {
    for (const { path, text } of files) {
      expect(/\bTODO\b|\bFIXME\b|@ts-(ignore|nocheck|expect-error)/.test(text), path).toBe(false);
      expect(/\bas any\b|: any\b/.test(codeOf(text)), path).toBe(false);
    }
  });
});

describe('the guards of the house can fail', () => {
  const plant = (path: string, text: string): SourceFile => ({
    path,
    room: path.split('/')[0] as string,
    text,
  });

  test.each([
    ['calc/x.ts', "import { a } from '#store/db.ts';"],
    ['screens/pour/X.tsx', "import { a } from '#platform/clock.ts';"],
    ['store/x.ts', "import { h } from 'preact';"],
    ['ui/X.tsx', "import type { Mould } from '#model/mould.ts';"],
    ['calc/x.ts', "const a = await import('#live/shop.ts');"],
    ['calc/x.ts', "import {\n  a,\n  b,\n} from '../store/db.ts';"],
    ['ui/X.tsx', "import styles from '../styles/base.css';"],
    ['screens/pour/X.tsx', "import { a } from '#screens/moulds/MouldForm.tsx';"],
  ])('a stranger at the door of %s is seen', (path, text) => {
    expect(strangersIn(plant(path, text))).toHaveLength(1);
  });

  test.each([
    ['calc/x.ts', 'const now = Date.now();'],
    ['store/x.ts', 'const x = Math.random();'],
    ['screens/x.ts', 'navigator.vibrate(1);'],
    ['ui/x.ts', "localStorage.setItem('a', 'b');"],
    ['ui/x.ts', "element.innerHTML = 'x';"],
  ])('what %s takes from the outside world is seen', (path, text) => {
    expect(takenBy(plant(path, text))).toHaveLength(1);
  });

  test('a ring is seen', () => {
    const ring = [
      plant('calc/a.ts', "import { b } from '#calc/b.ts';"),
      plant('calc/b.ts', "import { a } from '#calc/a.ts';"),
    ];
    expect(ringsIn(ring)).toEqual(['calc/a.ts -> calc/b.ts -> calc/a.ts']);
  });
});
