import { type Columns, notCheckedCode } from '#calc/columns.ts';
import type { SessionId } from '#model/entry.ts';

/** Baits that nobody has looked at yet. */
export interface Gaps {
  baits: number;
  sessions: number;
  /** The newest session with such baits. */
  newest: SessionId;
}

/** What nobody has looked at in some digests, oldest first; null: everything was. */
export function gapsIn(columns: readonly Columns[]): Gaps | null {
  const open = columns
    .map(({ cells, sessionId }) => ({
      sessionId,
      baits: cells.filter((code) => code === notCheckedCode).length,
    }))
    .filter(({ baits }) => baits > 0);
  const newest = open.at(-1)?.sessionId;
  if (!newest) return null;
  return { baits: open.reduce((sum, { baits }) => sum + baits, 0), sessions: open.length, newest };
}
