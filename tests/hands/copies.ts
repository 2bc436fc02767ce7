import type { Carried, Counts } from '#store/copy/header.ts';
import { noCounts } from '#store/copy/lines.ts';

export interface Written {
  table: Carried;
  record: Record<string, unknown>;
}

/** Records as a source for a file, with their own counts. */
export function sourceOf(records: readonly Written[]): {
  counts: Counts;
  records: AsyncGenerator<Written>;
} {
  const counts = noCounts();
  for (const { table } of records) counts[table] += 1;
  async function* each() {
    yield* records;
  }
  return { counts, records: each() };
}

/** Where a file of a test comes from. */
export const from = { at: Date.UTC(2026, 2, 12, 18), app: '0.1.0', device: '0000000a' };

/** All that an async run gives. */
export async function all<T>(run: AsyncIterable<T>): Promise<T[]> {
  const found: T[] = [];
  for await (const one of run) found.push(one);
  return found;
}

/** Bytes of a file with some changed. */
export async function changedFile(
  file: Blob,
  change: (bytes: Uint8Array<ArrayBuffer>) => Uint8Array<ArrayBuffer> | undefined,
): Promise<Blob> {
  const bytes = new Uint8Array(await file.arrayBuffer());
  return new Blob([change(bytes) ?? bytes]);
}
