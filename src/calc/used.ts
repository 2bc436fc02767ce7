import type { Standing } from '#calc/log.ts';
import { all } from '#calc/said.ts';
import type { MixedPot, PotId, SessionId } from '#model/entry.ts';
import type { MaterialId } from '#model/material.ts';
import type { DoseUnit } from '#model/mix.ts';
import type { Instant } from '#model/schemas.ts';

/** So much of one material that went into a pot, in the unit it was measured with. */
export interface Use {
  materialId: MaterialId;
  at: Instant;
  amount: number;
  unit: DoseUnit;
}

/** A use as a digest of its session keeps it. */
export interface PackedUse extends Omit<Use, 'at'> {
  /** Seconds from the start of the session. */
  afterSec: number;
}

/** A use with the session it belongs to. */
export interface SessionUse extends Use {
  sessionId: SessionId;
}

/**
 * What a session took off the shelf, as its entries stand now: the plastisol and the frozen doses of
 * every mix and of every top-up. Volume that was hot before takes no plastisol; a top-up without
 * doses takes no colour: only what is known is counted.
 */
export function usesOf(lines: readonly Standing[]): Use[] {
  const mixes = new Map<PotId, MixedPot['mix']>();
  for (const { said } of all(lines, 'pot-mixed')) {
    for (const { potId, mix } of said.pots) mixes.set(potId, mix);
  }
  return lines.flatMap(({ at, said }): Use[] => {
    if (said.kind === 'pot-mixed') return said.pots.flatMap((pot) => usesOfPot(pot, at));
    if (said.kind !== 'pot-topped-up') return [];
    const plastisolId = said.mix?.plastisolId ?? mixes.get(said.potId)?.plastisolId ?? null;
    return [...plastisolOf(plastisolId, said, at), ...dosesOf(said.mix, at)];
  });
}

/** The uses as a digest keeps them. */
export function packedUses(uses: readonly Use[], startedAt: Instant): PackedUse[] {
  return uses.map(({ at, ...use }) => ({ ...use, afterSec: (at - startedAt) / 1_000 }));
}

/** The uses of a session from its digest; one that was packed before uses were kept has none. */
export function unpackedUses(session: {
  sessionId: SessionId;
  startedAt: Instant;
  used?: readonly PackedUse[];
}): SessionUse[] {
  const { sessionId, startedAt, used = [] } = session;
  return used.map(({ afterSec, ...use }) => ({
    ...use,
    sessionId,
    at: startedAt + Math.round(afterSec * 1_000),
  }));
}

function usesOfPot(pot: MixedPot, at: Instant): Use[] {
  if (!pot.mix) return [];
  return [...plastisolOf(pot.mix.plastisolId, pot, at), ...dosesOf(pot.mix, at)];
}

function dosesOf(mix: MixedPot['mix'], at: Instant): Use[] {
  return (mix?.doses ?? []).map(({ materialId, amount, unit }) => ({
    materialId,
    at,
    amount,
    unit,
  }));
}

/** The fresh part of a filled volume. Of two parts, one fresh, the mean of the heats tells the shares. */
function plastisolOf(
  materialId: MaterialId | null,
  filled: { volumeMl: number; meanHeats: number; maxHeats: number },
  at: Instant,
): Use[] {
  const { volumeMl, meanHeats, maxHeats } = filled;
  const freshShare = maxHeats === 0 ? 1 : Math.max(0, 1 - meanHeats / maxHeats);
  if (materialId === null || freshShare === 0) return [];
  return [{ materialId, at, amount: volumeMl * freshShare, unit: 'mL' }];
}
