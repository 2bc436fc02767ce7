import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';

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
  calc: ['date-fns'],
  store: ['idb', 'zod'],
  platform: ['workbox-window'],
  ui: ['preact'],
  live: ['preact'],
  screens: ['preact', 'date-fns'],
  app: ['preact'],
};

/** What only one place may touch, so that a test can replace it. */
const soleOwners: readonly [pattern: RegExp, owner: RegExp][] = [
  [/\bDate\.now\(|new Date\(\)|performance\.now\(/, /^platform\/clock\.ts$/],
  [/\bMath\.random\(/, /^$/],
  [/\bnavigator\./, /^platform\//],
  [/\b(localStorage|indexedDB)\b/, /^store\//],
];

const files = readdirSync('src', { recursive: true, encoding: 'utf8' })
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

test.each(files.filter((file) => file.room in doors))(
  '$path keeps to its doors',
  ({ path, room, text }) => {
    const strangers = importsOf(text).filter((target) => {
      if (target.endsWith('.css')) return !target.startsWith('./');
      const house = /^#([^/]+)\//.exec(target)?.[1];
      if (house) return house !== room && !doors[room]?.includes(house);
      if (target.startsWith('.')) return true;
      return !packages[room]?.includes(target.split('/')[0] as string);
    });
    expect(strangers, `${path} may not import`).toEqual([]);
  },
);

test.each(files)('$path leaves the outside world to its owner', ({ path, text }) => {
  const code = text.replace(/\/\*[\s\S]*?\*\/|\/\/.*/g, '');
  const taken = soleOwners.filter(([pattern, owner]) => pattern.test(code) && !owner.test(path));
  expect(taken.map(([pattern]) => pattern.source)).toEqual([]);
});

test('no two files import each other in a ring', () => {
  const graph = new Map(
    files.map((file) => [
      file.path,
      importsOf(file.text)
        .filter((t) => t.startsWith('#'))
        .map((t) => t.slice(1)),
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
  expect(rings).toEqual([]);
});
