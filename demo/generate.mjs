// Makes the demo shop: public/demo-shop.bin and the planted truths in demo/README.md.
//   node demo/generate.mjs            writes both
//   node demo/generate.mjs --seeds 40 writes nothing, prints what the figures say of seeds 1 to 40
// Node 20 runs no TypeScript by itself; vite, which is here for the app, does.
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { runnerImport } from 'vite';

const home = fileURLToPath(new URL('..', import.meta.url));
process.chdir(home);
const load = async (file) =>
  (await runnerImport(file, { root: home, configFile: false, logLevel: 'warn' })).module;

const at = process.argv.indexOf('--seeds');
if (at > 0) {
  const { seedLine } = await load('./demo/seeds.ts');
  for (let seed = 1; seed <= Number(process.argv[at + 1]); seed += 1) console.log(seedLine(seed));
} else {
  const { demoText } = await load('./demo/made-shop.ts');
  const { withTruths } = await load('./demo/readme.ts');
  const packed = gzipSync(demoText(), { level: 9 });
  writeFileSync('public/demo-shop.bin', packed);
  writeFileSync('demo/README.md', withTruths(readFileSync('demo/README.md', 'utf8')));
  console.log(`public/demo-shop.bin: ${(packed.length / 1_000).toFixed(1)} kB`);
}
