import { entryLimits, type Limit } from '#calc/entry-limits.ts';
import type { Line } from '#calc/log.ts';
import type { Table } from '#calc/table.ts';
import type { Said } from '#model/entry.ts';
import type { Colourway } from '#model/gear.ts';
import type { Mix } from '#model/mix.ts';
import type { Instant } from '#model/schemas.ts';
import type { Units } from '#screens/entry-words.ts';

/** A line that is being put right, with what that needs to know. */
export interface OpenLine {
  line: Line;
  table: Table;
  zone: string;
  limits: { from: Limit; to: Limit };
  units: Units;
  colourways: readonly Colourway[];
  /** Every version of a mix that the shop has. */
  mixes: readonly Mix[];
}

/** What can be put right of a line beside its time. */
export type Matter = 'results' | 'value' | 'time';

const withValue = new Set<Said['kind']>([
  'pot-read',
  'mould-read',
  'ambient-read',
  'pot-topped-up',
  'pot-mixed',
  'noted',
  'scrap-weighed',
]);

/** What there is to put right in a line. */
export function matterOf(said: Said): Matter {
  if (said.kind === 'opened') return 'results';
  return withValue.has(said.kind) ? 'value' : 'time';
}

/** Shots of a line that nobody has looked at whole: those of a fill that were not logged, or marked so. */
export function isToCheck(line: Line, table: Table): boolean {
  const { said } = line;
  if (said.kind === 'opened') {
    return said.shots.some(({ results }) => results.includes('not-checked'));
  }
  return (
    said.kind === 'filled' &&
    table.shots.some((shot) => shot.filledBy === line.id && shot.loggedAt === null)
  );
}

/** A line opened for putting right at one instant. */
export function openLine(
  line: Line,
  lines: readonly Line[],
  now: Instant,
  at: Pick<OpenLine, 'table' | 'units' | 'colourways' | 'mixes'>,
): OpenLine {
  return { ...at, line, zone: at.table.zone, limits: entryLimits(at.table, lines, line, now) };
}
