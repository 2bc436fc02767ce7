import { mergedHead } from '#calc/merge.ts';

type Head = Parameters<typeof mergedHead>[0];

/**
 * What a head should be, of its row in the database and its line in the second copy. Per field the
 * newest stamp wins. Where both have one stamp and say different things, one of them changed by
 * itself: the line has a checksum and the row has none, so the line is right.
 */
export function settledHead<T extends Head>(row: T, line: T): T {
  const trusted: Head = { ...row };
  for (const field of Object.keys(line)) {
    if (field !== 'stamps' && stampOf(row, field) === stampOf(line, field)) {
      trusted[field] = line[field];
    }
  }
  // The device that wrote last may differ though no field does: saved again, and nothing changed.
  return { ...row, ...mergedHead(line, trusted as T), device: row.device };
}

function stampOf({ stamps }: Head, field: string): string {
  return (Object.hasOwn(stamps, field) && stamps[field]) || '';
}
