import type { Columns } from '#calc/columns.ts';
import { countsBySession, loggedShots } from '#calc/mould-shots.ts';
import { yieldInterval } from '#calc/yield.ts';
import type { SessionId } from '#model/entry.ts';
import type { ColourwayId } from '#model/gear.ts';
import type { MouldId } from '#model/mould.ts';

/** A past session of a mould and what it gave. */
export interface RatedRun {
  sessionId: SessionId;
  good: number;
  checked: number;
  /** The lower end of what to expect from such a session, a share. */
  atLeast: number;
  /** It was poured in the colour that is asked for. */
  isSameColour: boolean;
}

/** Fewer baits than this say little about an evening. Common practice, no source. */
const leastBaits = 20;
const conf = 0.9;

/** The sessions of a mould with enough baits looked at, each with its lower end. */
export function ratedRuns(
  columns: readonly Columns[],
  asked: { mouldId: MouldId; colourwayId: ColourwayId | null },
): RatedRun[] {
  return columns.flatMap((session) => {
    if (!session.moulds.some(({ mouldId }) => mouldId === asked.mouldId)) return [];
    const [counts] = countsBySession(loggedShots([session], asked.mouldId), 'good');
    if (!counts) return [];
    const good = counts.x.reduce((sum, x) => sum + x, 0);
    const checked = counts.n.reduce((sum, n) => sum + n, 0);
    if (checked < leastBaits) return [];
    const [, atLeast] = yieldInterval(counts.x, counts.n, conf);
    const isSameColour =
      asked.colourwayId !== null &&
      session.colourways.some(({ colourwayId }) => colourwayId === asked.colourwayId);
    return [{ sessionId: session.sessionId, good, checked, atLeast, isSameColour }];
  });
}

/**
 * The run with the highest lower end, of the same colour if there is one; null: there is none. It
 * looked best: that is why it was picked, and it proves nothing.
 */
export function bestRun(runs: readonly RatedRun[]): RatedRun | null {
  const same = runs.filter(({ isSameColour }) => isSameColour);
  const from = same.length > 0 ? same : runs;
  return from.reduce<RatedRun | null>(
    (best, run) => (best && best.atLeast >= run.atLeast ? best : run),
    null,
  );
}
