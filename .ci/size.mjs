// What the first load weighs, and whether the service worker keeps every file of the build.
import { readdirSync, readFileSync } from 'node:fs';
import { gzipSync } from 'node:zlib';

const limitKb = 45;
const html = readFileSync('dist/index.html', 'utf8');
const first = new Set(
  [...html.matchAll(/(?:src|href)="\.\/([^"]+\.js)"/g)].map((found) => found[1]),
);
for (const file of first) {
  const text = readFileSync(`dist/${file}`, 'utf8');
  const folder = file.slice(0, file.lastIndexOf('/') + 1);
  // Static imports only: `import("./x.js")` is fetched after the first paint.
  for (const found of text.matchAll(/(?:from|import)\s*["']\.\/([^"']+\.js)["']/g)) {
    first.add(folder + found[1]);
  }
}
const sizes = [...first].map((file) => gzipSync(readFileSync(`dist/${file}`), { level: 9 }).length);
const kb = sizes.reduce((sum, size) => sum + size, 0) / 1_000;
console.log(
  `First load JavaScript: ${kb.toFixed(1)} kB gzip in ${first.size} files (limit ${limitKb})`,
);

const worker = readFileSync('dist/sw.js', 'utf8');
const missing = readdirSync('dist', { recursive: true, withFileTypes: true })
  .filter((entry) => entry.isFile())
  .map((entry) => `${entry.parentPath}/${entry.name}`.replace(/^dist\//, ''))
  .filter((file) => file !== 'sw.js' && !worker.includes(`"${file}"`));
if (missing.length > 0) console.error(`Not kept for offline use: ${missing.join(', ')}`);
if (first.size === 0) console.error('No script was found in dist/index.html.');
process.exit(kb > limitKb || missing.length > 0 || first.size === 0 ? 1 : 0);
