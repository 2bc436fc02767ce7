import { resultCodes } from '#calc/columns.ts';
import type { LoggedShot } from '#calc/mould-shots.ts';
import type { Change } from '#model/change.ts';
import { results } from './evening.ts';
import { id } from './log.ts';

/** One logged shot, its cavities as letters: `ggsg`. */
export function aShot(gave: string, changes: Partial<LoggedShot> = {}): LoggedShot {
  return {
    sessionId: id('session', 500),
    mouldId: id('mould', 1),
    filledAt: 1_700_000_000_000,
    number: 1,
    isCold: false,
    aboveK: 30,
    heat: 1,
    openSec: 180,
    injectorId: null,
    colourwayId: null,
    cells: Uint8Array.from(results(gave), (result) => resultCodes.indexOf(result)),
    ...changes,
  } as LoggedShot;
}

/** Shots five minutes apart, eight a session, from an instant on. */
export function shotsFrom(at: number, gave: readonly string[]): LoggedShot[] {
  return gave.map((one, index) =>
    aShot(one, {
      sessionId: id(`session ${at}`, Math.floor(index / 8)),
      filledAt: at + index * 300_000,
      number: 1 + (index % 8),
    }),
  );
}

/** A logged change of the first mould. */
export function aChange(at: number, changes: Partial<Change> = {}): Change {
  return {
    id: id(`change ${at}`, changes.cavities?.[0] ?? 0),
    device: 'dec0de00',
    stamps: {},
    createdAt: at,
    deletedAt: null,
    mouldId: id('mould', 1),
    at,
    kind: 'vent-opened',
    cavities: [2],
    defect: 'short',
    wasPickedAsWorst: false,
    text: '',
    ...changes,
  } as Change;
}
