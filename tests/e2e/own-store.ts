import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { build } from 'vite';
import type { Site } from './site.ts';

/** What a page gets by importing the address that `publishStore` answers with. */
export type Store = typeof import('./store-door.ts');

/** Puts the app's own store, built from the same sources, beside the app; answers with its address. */
export async function publishStore(site: Site): Promise<string> {
  const built = await build({
    configFile: false,
    root: join(import.meta.dirname, '../..'),
    publicDir: false,
    logLevel: 'error',
    build: {
      write: false,
      target: 'es2022',
      lib: { entry: join(import.meta.dirname, 'store-door.ts'), formats: ['es'] },
      rolldownOptions: { output: { codeSplitting: false } },
    },
  });
  const [chunk] = [built].flat().flatMap((one) => ('output' in one ? one.output : []));
  if (chunk?.type !== 'chunk') throw new Error('The store was not built.');
  writeFileSync(join(site.folder, 'own-store.js'), chunk.code);
  return `${site.url}own-store.js`;
}
