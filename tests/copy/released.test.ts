import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { openedFile } from '#store/copy/file.ts';
import { fitting } from '#store/copy/fit.ts';
import { all } from '../hands/copies.ts';

const folder = 'tests/fixtures/copies';
const words = 'lamp river stone apple tiny frog';
const names = readdirSync(folder);

/** What lay in the logbook that each was made of: the full shop of tests/hands, a session running. */
const held = {
  settings: 1,
  moulds: 2,
  injectors: 1,
  colourways: 1,
  materials: 1,
  mixes: 1,
  photos: 1,
  remarks: 1,
  ideas: 1,
  changes: 1,
  movements: 2,
  sealed: 2,
  entries: 9,
  'photo-bytes': 1,
};

test('there is a copy of every shape that was written', () => {
  expect(names).toContain('shape-2.warmshot');
});

test.each(names)('%s opens, and every record of it passes the doors of today', async (name) => {
  const file = new Blob([readFileSync(`${folder}/${name}`)]);
  const open = await openedFile(file, name.includes('locked') ? words : null);
  expect(name).toContain(`shape-${open.header.version}`);
  const found = await all(fitting(open, {}));
  expect(found.filter((one) => 'reason' in one)).toEqual([]);
  const counts: Record<string, number> = {};
  for (const { table } of found) counts[table] = (counts[table] ?? 0) + 1;
  expect(counts).toEqual(held);
});
