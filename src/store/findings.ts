import type { Stamp } from '#model/schemas.ts';
import type { Table } from '#store/db.ts';

/** How many of each kind; what has no word of its own counts as `others`. */
export interface Tally {
  sessions: number;
  moulds: number;
  colourways: number;
  injectors: number;
  others: number;
}

/** What a look through the logbook found, and what was done about it. */
export interface Findings {
  /** Gone from the database, and put back from the second copy. */
  putBack: Tally;
  /** Changed by itself, and put right from the second copy. */
  putRight: Tally;
  /** Could not be read, also not in the second copy: taken out of its table and kept. */
  setAside: number;
  /** The same by kind, so that it is not called missing as well. */
  asideOf: { entries: number; moulds: number; others: number };
  /** Lines of the second copy that were damaged; their records were written again. */
  damagedLines: number;
  /** The newest stamp in the logbook, so that the next one is later. */
  newestStamp: Stamp | null;
}

/** Nothing of anything. */
export const noTally: Tally = { sessions: 0, moulds: 0, colourways: 0, injectors: 0, others: 0 };

/** Counts one record of a table. */
export function count(tally: Tally, table: Table): void {
  const kind = table === 'sealed' ? 'sessions' : table in tally ? table : 'others';
  tally[kind as keyof Tally] += 1;
}
