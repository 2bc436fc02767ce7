import { heldRecords, type OpenFile } from '#store/copy/file.ts';
import { type InKind, inFields, type Matching } from '#store/csv/fields.ts';
import { materialFrom, mouldFrom } from '#store/csv/heads-in.ts';
import { type InRow, inTime, type Reading, type TakenIn, type Untaken } from '#store/csv/row.ts';
import { sessionsFrom } from '#store/csv/sessions-in.ts';
import type { ReadRow } from '#store/csv/text.ts';

/**
 * What the rows of a table come to, as a file that can be looked at and brought in like a copy. The
 * first row holds the heads. Nothing is written.
 */
export async function takenIn(
  kind: InKind,
  rows: readonly ReadRow[],
  matching: Matching,
  reading: Reading,
): Promise<{ open: OpenFile; untaken: readonly Untaken[] }> {
  const inRows = rows.slice(1).map(({ line, cells, separator }): InRow => {
    const said = inFields[kind].map(({ key }) => [key, (cells[matching[key] ?? -1] ?? '').trim()]);
    return { line, hasDecimalComma: separator === ';', said: Object.fromEntries(said) };
  });
  const make = { moulds: mouldsFrom, materials: materialsFrom, sessions: sessionsFrom }[kind];
  const { records, untaken } = await make(inRows, reading);
  const byLine = untaken.toSorted((a, b) => a.line - b.line);
  return { open: heldRecords(records, reading), untaken: byLine };
}

async function mouldsFrom(rows: readonly InRow[], reading: Reading): Promise<TakenIn> {
  return await headsFrom('moulds', rows, reading, mouldFrom);
}

async function materialsFrom(rows: readonly InRow[], reading: Reading): Promise<TakenIn> {
  return await headsFrom('materials', rows, reading, materialFrom);
}

/** One head a line. A name that is here already is not taken: a table knows less than the logbook. */
async function headsFrom(
  table: 'moulds' | 'materials',
  rows: readonly InRow[],
  reading: Reading,
  make: (row: InRow, reading: Reading) => Promise<object | string>,
): Promise<TakenIn> {
  const known = new Set(
    (await reading.book.db.getAll(table)).map(({ name }) => name.toLowerCase()),
  );
  const taken: TakenIn = { records: [], untaken: [] };
  for await (const row of inTime(rows, reading.signal)) {
    const name = (row.said.name ?? '').toLowerCase();
    const record = known.has(name)
      ? 'One of this name is here already, or on a line before.'
      : await make(row, reading);
    if (typeof record === 'string') taken.untaken.push({ line: row.line, reason: record });
    else {
      known.add(name);
      taken.records.push({ table, record });
    }
  }
  return taken;
}
