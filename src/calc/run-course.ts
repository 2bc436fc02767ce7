import { columnsOf } from '#calc/columns.ts';
import { type Table, tableOf } from '#calc/table.ts';
import type { Entry, SessionId } from '#model/entry.ts';
import type { MouldId } from '#model/mould.ts';

/** A temperature on the clock of one session. */
export interface RunPoint {
  /** Minutes since the first fill of the session. */
  min: number;
  tempC: number;
}

/** The warmth of one session: what was read of its pots, and what its mould was worked out to be. */
export interface RunCourse {
  startedAt: number;
  /** The pots that were read, each with its own readings in the order of the clock. */
  pots: { name: string; readings: RunPoint[] }[];
  /** The mould before each of its shots. */
  mould: RunPoint[];
  /** How many rounds had been filled when a pot was heated again, each. */
  reheatedAfter: number[];
  rounds: number;
  isOpen: boolean;
}

/** How one session ran, for one of its moulds. Nothing poured: no point. */
export function runCourse(
  sessionId: SessionId,
  entries: readonly Entry[],
  mouldId: MouldId,
): RunCourse {
  const table = tableOf(entries);
  const columns = columnsOf(sessionId, entries);
  const from = table.shots[0]?.filledAt ?? table.begunAt;
  const minOf = (at: number) => (at - from) / 60_000;
  const mould: RunPoint[] = [];
  columns.mould.forEach((index, shot) => {
    if (columns.moulds[index]?.mouldId !== mouldId) return;
    const at = columns.startedAt + (columns.filledSec[shot] ?? 0) * 1_000;
    mould.push({ min: minOf(at), tempC: columns.tempC[shot] ?? 0 });
  });
  const pots = table.pots
    .map(({ name, course }) => ({
      name,
      readings: course.flatMap((event) =>
        event.kind === 'read' ? [{ min: minOf(event.at), tempC: event.tempC }] : [],
      ),
    }))
    .filter(({ readings }) => readings.length > 0);
  return {
    startedAt: table.begunAt,
    pots,
    mould,
    reheatedAfter: reheatedAfter(table),
    rounds: table.rounds,
    isOpen: table.endedAt === null,
  };
}

function reheatedAfter(table: Table): number[] {
  return table.pots
    .flatMap(({ course }) => course.filter(({ kind }) => kind === 'heated').slice(1))
    .map(({ at }) => Math.max(0, ...table.shots.filter((s) => s.filledAt < at).map((s) => s.round)))
    .sort((a, b) => a - b);
}

/** The temperatures between which a person likes to pour, °C. */
export interface PourWindow {
  fromC: number;
  toC: number;
}

/**
 * Minutes that the readings of one pot lay above and below a window: straight from one reading to the
 * next, and nothing before the first or after the last, where nobody looked.
 */
export function minutesOutside(
  readings: readonly RunPoint[],
  { fromC, toC }: PourWindow,
): { above: number; below: number } {
  let above = 0;
  let below = 0;
  readings.slice(1).forEach((to, index) => {
    const from = readings[index] as RunPoint;
    above += spanBeyond(from, to, (tempC) => tempC - toC);
    below += spanBeyond(from, to, (tempC) => fromC - tempC);
  });
  return { above, below };
}

/** How long the straight line from one point to the next is beyond 0. */
function spanBeyond(from: RunPoint, to: RunPoint, beyond: (tempC: number) => number): number {
  const span = to.min - from.min;
  const [a, b] = [beyond(from.tempC), beyond(to.tempC)];
  if (a <= 0 && b <= 0) return 0;
  if (a > 0 && b > 0) return span;
  return span * (Math.max(a, b) / Math.abs(a - b));
}
