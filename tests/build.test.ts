import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { figure } from './hands/figure.ts';

/** What runs on the person's phone, and under which licence. One more is a decision. */
const agreed = {
  '@date-fns/tz': 'MIT',
  '@scure/bip39': 'MIT',
  culori: 'MIT',
  'd3-array': 'ISC',
  'd3-shape': 'ISC',
  'date-fns': 'MIT',
  idb: 'ISC',
  papaparse: 'MIT',
  preact: 'MIT',
  qr: '(MIT OR Apache-2.0)',
  uuid: 'MIT',
  'workbox-window': 'MIT',
  zod: 'MIT',
} as const;

const own = JSON.parse(readFileSync('package.json', 'utf8'));
const lock = JSON.parse(readFileSync('package-lock.json', 'utf8')) as {
  packages: Record<
    string,
    { version?: string; license?: string; dev?: boolean; integrity?: string }
  >;
};

test('what runs on the phone is the agreed list, each in one exact version under a free licence', () => {
  const licences = Object.fromEntries(
    Object.keys(own.dependencies).map((name) => {
      const found = JSON.parse(readFileSync(`node_modules/${name}/package.json`, 'utf8'));
      expect(found.version, name).toBe(own.dependencies[name]);
      return [name, found.license];
    }),
  );
  expect(licences).toEqual(agreed);
  for (const version of Object.values({ ...own.dependencies, ...own.devDependencies })) {
    expect(version).toMatch(/^\d+\.\d+\.\d+$/);
  }
  // And what those bring along.
  for (const [path, found] of Object.entries(lock.packages)) {
    if (path === '' || found.dev) continue;
    expect(found.license, path).toMatch(/^\(?(MIT|ISC|Apache-2\.0|0BSD|BSD-3-Clause)\b/);
    expect(found.integrity, path).toMatch(/^sha512-/);
  }
});

/** Builds the app apart and gives every file's checksum. */
function builtSums(): Record<string, string> {
  const folder = mkdtempSync(join(tmpdir(), 'warmshot-build-'));
  try {
    execFileSync('npx', ['vite', 'build', '--outDir', folder, '--logLevel', 'error'], {
      stdio: 'pipe',
    });
    const files = readdirSync(folder, { recursive: true, withFileTypes: true }).filter((entry) =>
      entry.isFile(),
    );
    return Object.fromEntries(
      files.map(({ parentPath, name }) => {
        const path = join(parentPath, name);
        const sum = createHash('sha256').update(readFileSync(path)).digest('hex');
        return [path.slice(folder.length + 1), sum];
      }),
    );
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

test('two builds of the same source are the same, byte by byte', () => {
  const [first, second] = [builtSums(), builtSums()];
  const other = Object.keys(first).filter((path) => first[path] !== second[path]);
  const count = Object.keys(first).length;
  figure({
    drill: 'Dependencies and builds',
    required: 'the agreed packages, two builds byte-equal',
    reached: `${Object.keys(agreed).length} packages, ${count} files, ${other.length} differ`,
    isMet: other.length === 0 && count > 50,
  });
  expect(count).toBeGreaterThan(50);
  expect(second).toEqual(first);
}, 240_000);
