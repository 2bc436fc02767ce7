import { type ColdLine, coldLineSteps, flaggedBy, mouldsIn } from '#calc/cold-line.ts';
import type { Columns } from '#calc/columns.ts';
import type { MouldId } from '#model/mould.ts';
import type { Book } from '#store/book.ts';
import { columnsInBatches } from '#store/history.ts';
import { breath, inSteps } from '#store/steps.ts';

const batchSize = 50;

/**
 * The digests of the whole history, oldest first, with cold shots as each mould's own history tells
 * them now. Mould by mould and batch by batch, so that the page keeps drawing in between.
 */
export async function learntColumns(
  book: Book,
  tell: (done: Progress) => void = () => {},
): Promise<Columns[]> {
  const columns: Columns[] = [];
  const sessions = await book.db.count('columns');
  for await (const batch of columnsInBatches(book)) {
    columns.push(...batch);
    tell({ doing: 'reading', done: columns.length, of: sessions, sessions });
  }
  const lines = new Map<MouldId, ColdLine>();
  const ids = mouldsIn(columns);
  for (const id of ids) {
    tell({ doing: 'learning', done: lines.size, of: ids.length, sessions });
    lines.set(id, await inSteps(coldLineSteps(columns, id)));
  }
  const flagged: Columns[] = [];
  for (let at = 0; at < columns.length; at += batchSize) {
    flagged.push(...flaggedBy(columns.slice(at, at + batchSize), lines));
    await breath();
  }
  return flagged;
}

/** The same told at every tenth of the way, so that a screen reader is not talked over. */
export function byTenths(tell: (done: Progress) => void): (done: Progress) => void {
  let last = '';
  return (progress) => {
    const { doing, done, of } = progress;
    const tenth = `${doing} ${Math.floor((10 * done) / Math.max(1, of))}`;
    if (tenth !== last) tell(progress);
    last = tenth;
  };
}

/** How far a long sum has got: sessions read, moulds learnt, sessions counted. */
export interface Progress {
  doing: 'reading' | 'learning' | 'counting';
  done: number;
  of: number;
  /** Sessions in the log: how long the whole may take. */
  sessions: number;
}
