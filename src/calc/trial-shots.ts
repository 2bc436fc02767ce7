import { type Columns, coldFlag } from '#calc/columns.ts';
import type { SessionId } from '#model/entry.ts';
import type { MouldId } from '#model/mould.ts';
import type { Instant } from '#model/schemas.ts';
import type { Trial } from '#model/trial.ts';

/** A shot of the history that tried something. */
export interface TrialShot {
  sessionId: SessionId;
  startedAt: Instant;
  zone: string;
  /** Counted per mould and session, from 1. */
  number: number;
  what: Trial;
  did: boolean;
  isCold: boolean;
}

/** Every trial of one mould, oldest first. */
export function trialShotsOf(columns: readonly Columns[], mouldId: MouldId): TrialShot[] {
  return columns.flatMap(({ sessionId, startedAt, zone, moulds, mould, cold, tried = [] }) => {
    const index = moulds.findIndex((one) => one.mouldId === mouldId);
    return tried
      .filter(({ shot }) => mould[shot] === index)
      .map(({ shot, what, did }) => ({
        sessionId,
        startedAt,
        zone,
        number: mould.subarray(0, shot + 1).filter((of) => of === index).length,
        what,
        did,
        isCold: cold[shot] === coldFlag,
      }));
  });
}
