import { badgeLine, type EvidenceLogs, evidenceFrom, evidenceLogs } from '#calc/cavities.ts';
import { mendedSince } from '#calc/mould-changes.ts';
import { cavityMatrix, type LoggedShot } from '#calc/mould-shots.ts';
import type { Seat, Shot } from '#calc/table.ts';
import type { Change } from '#model/change.ts';
import type { Defect } from '#model/defect.ts';
import type { Result } from '#model/entry.ts';

/** The defects that are watched while pouring; each makes all of them harder to light. */
export const watchedDefects = ['short', 'dent', 'bubble'] as const satisfies readonly Defect[];

/** The evidence of a mould's past sessions, per watched defect; every cavity since it was mended last. */
export interface PastEvidence {
  logs: ReadonlyMap<Defect, EvidenceLogs>;
  since: ReadonlyMap<number, number>;
}

/** A cavity that fails more than its neighbours, and has just done so again. */
export interface LitCavity {
  cavity: number;
  defect: (typeof watchedDefects)[number];
}

/** What the past shots of one mould say, oldest first. */
export function pastEvidence(
  shots: readonly LoggedShot[],
  changes: readonly Change[],
): PastEvidence {
  const since = mendedSince(changes);
  const logs = watchedDefects.map(
    (defect) => [defect, evidenceLogs(cavityMatrix(shots, defect, since))] as const,
  );
  return { logs: new Map(logs), since };
}

/**
 * The cavity whose running evidence has passed the line and that was bad again in the last shot;
 * null: none. Evidence may be read after every shot, which a test may not (Ville 1939); the line is
 * divided by the number of defects watched.
 */
export function litCavity({ mould, shots }: Seat, past: PastEvidence): LitCavity | null {
  const logged = shots.filter(({ loggedAt }) => loggedAt !== null);
  const last = logged.at(-1);
  if (!last) return null;
  const line = badgeLine(last.results.length, watchedDefects.length);
  let lit: (LitCavity & { evidence: number }) | null = null;
  for (const defect of watchedDefects) {
    const from = past.logs.get(defect);
    const evidence = evidenceFrom(evidenceLogs(matrixOf(logged, defect, past), from));
    for (const [at, value] of evidence.entries()) {
      const isAgain = last.results[at] === defect && !mould.closed.includes(at + 1);
      if (!isAgain || value < line || (lit && lit.evidence >= value)) continue;
      lit = { cavity: at + 1, defect, evidence: value };
    }
  }
  return lit && { cavity: lit.cavity, defect: lit.defect };
}

function matrixOf(shots: readonly Shot[], defect: Defect, { since }: PastEvidence) {
  return shots.map(({ results, filledAt }) =>
    results.map((result, at) =>
      filledAt < (since.get(at + 1) ?? 0) ? null : resultAs(result, defect),
    ),
  );
}

function resultAs(result: Result, defect: Defect): 0 | 1 | null {
  if (result === 'closed' || result === 'not-checked') return null;
  return result === defect ? 1 : 0;
}
