import type { Line } from '#calc/log.ts';
import type { Table } from '#calc/table.ts';
import type { Kind } from '#model/entry.ts';

/** The lines with the newest happening first; of one instant, the last written first. */
export function newestFirst(lines: readonly Line[]): Line[] {
  return lines.toSorted((a, b) => b.at - a.at || (a.stamp < b.stamp ? 1 : -1));
}

/**
 * True for a line of which a later one says the outcome: a fill whose shots are all logged, a clock
 * that was ended by hand. A list may pass over it.
 */
export function isToldLater(line: Line, table: Table): boolean {
  if (line.takenBackAt !== null) return false;
  if (line.said.kind === 'clock-stopped' || line.said.kind === 'layers-ended') return true;
  if (line.said.kind !== 'filled') return false;
  const own = table.shots.filter((shot) => shot.filledBy === line.id);
  return own.length > 0 && own.every((shot) => shot.loggedAt !== null);
}

/** What a session is begun with, beside its beginning. */
const footings = new Set<Kind>(['lined-up', 'pot-mixed', 'colours-planned', 'pourer-named']);

/**
 * True for a line that the session stands on: its beginning, what was put on the table in the same
 * act, and its end. Such a line can be put right, never taken back.
 */
export function isFooting(line: Line, lines: readonly Line[]): boolean {
  const { kind } = line.said;
  if (kind === 'session-begun' || kind === 'session-ended') return true;
  const begun = lines.find(({ said }) => said.kind === 'session-begun');
  return line.writtenAt === begun?.writtenAt && footings.has(kind);
}
