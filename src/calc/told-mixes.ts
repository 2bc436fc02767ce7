import { type Standing, standingOf } from '#calc/log.ts';
import { otherRole } from '#calc/mix-now.ts';
import { all } from '#calc/said.ts';
import { clearSwatch, type MixedSide } from '#calc/table-mix.ts';
import type { Entry, MixedPot, PotId } from '#model/entry.ts';
import type { ColourwayId } from '#model/gear.ts';
import type { MixId, MixRole, MixSide } from '#model/mix.ts';
import type { Instant } from '#model/schemas.ts';

/** A version of a mix as the pots tell it that were mixed of it first. */
export interface ToldMix {
  id: MixId;
  version: number;
  /** Null: it was made up at the table. */
  colourwayId: ColourwayId | null;
  at: Instant;
  mixed: MixedSide[];
}

/** The versions that went into the pots of a session, in the order of pouring. */
export function toldMixes(lines: readonly Standing[]): ToldMix[] {
  const pots = potsById(lines);
  const told = new Map<MixId, ToldMix>();
  for (const { at, said } of all(lines, 'pot-mixed')) {
    for (const id of new Set(said.pots.flatMap(({ mix }) => mix?.mixId ?? []))) {
      const own = said.pots.filter(({ mix }) => mix?.mixId === id);
      const mixed = own.flatMap((pot) => {
        const other = pot.besidePotId ? pots.get(pot.besidePotId) : undefined;
        return mixedOf(pot, other ?? null);
      });
      const version = own[0]?.mix?.version ?? 1;
      if (!told.has(id)) told.set(id, { id, version, colourwayId: said.colourwayId, at, mixed });
    }
  }
  return [...told.values()];
}

/** The pots that a version went into, and as what: both pots of a laminate that was made up at the table. */
export function potsOfMix(lines: readonly Standing[], id: MixId): Map<PotId, MixRole> {
  const roles = new Map<PotId, MixRole>();
  for (const { mix, potId, besidePotId } of potsById(lines).values()) {
    if (mix?.mixId !== id) continue;
    roles.set(potId, mix.role);
    if (besidePotId && !roles.has(besidePotId)) roles.set(besidePotId, otherRole(mix.role));
  }
  return roles;
}

/** The laminates that were made up in a session and have no name yet, in the order of pouring. */
export function namelessLaminates(lines: readonly Standing[]): MixId[] {
  const own = all(lines, 'pot-mixed').flatMap(({ said }) =>
    said.colourwayId === null ? said.pots.flatMap(({ mix }) => mix?.mixId ?? []) : [],
  );
  return [...new Set(own)].filter((id) => new Set(potsOfMix(lines, id).values()).size > 1);
}

/** What a session knows of mixes. */
export interface Mentions {
  /** Every mix it speaks of, also in what was taken back or put right. */
  mentioned: Set<MixId>;
  /** Those that a pot holds as the log stands; a side that became one of a laminate's is that laminate's. */
  used: Set<MixId>;
}

/** What the entries of a session say of mixes. */
export function mentionsIn(entries: readonly Entry[]): Mentions {
  const pots = [...potsById(standingOf(entries)).values()];
  const beside = new Set(pots.map(({ besidePotId }) => besidePotId));
  const used = pots.flatMap(({ potId, mix }) =>
    mix && !(mix.role === 'only' && beside.has(potId)) ? [mix.mixId] : [],
  );
  return {
    mentioned: new Set(entries.flatMap(({ said }) => mixIdsIn(said))),
    used: new Set(used),
  };
}

/** The mixes that one entry speaks of. */
export function mixIdsIn(said: Entry['said']): MixId[] {
  if (said.kind === 'put-right') return mixIdsIn(said.says as Entry['said']);
  if (said.kind === 'pot-mixed') return said.pots.flatMap(({ mix }) => mix?.mixId ?? []);
  return said.kind === 'pot-topped-up' && said.mix ? [said.mix.mixId] : [];
}

/** A pot as it was filled, as far as its mix goes. */
type Cup = Pick<MixedPot, 'name' | 'swatch' | 'mix' | 'volumeMl'>;

/** What went into a pot; with what went into the one it was made up beside, A first. */
export function mixedOf(pot: Cup, beside: Cup | null): MixedSide[] {
  const own = sideOf(pot);
  if (!own) return [];
  const mixed = { side: own, volumeMl: pot.volumeMl };
  const side = beside && sideOf(beside, otherRole(own.role));
  if (!beside || !side) return [mixed];
  const pair = [mixed, { side, volumeMl: beside.volumeMl }];
  return own.role === 'b' ? pair.toReversed() : pair;
}

function sideOf({ name, swatch, mix }: Cup, role = mix?.role): MixSide | null {
  if (!mix || !role) return null;
  const { plastisolId, doses } = mix;
  return { role, name, swatch: swatch ?? clearSwatch, plastisolId, doses: [...doses] };
}

function potsById(lines: readonly Standing[]): Map<PotId, MixedPot> {
  const pots = all(lines, 'pot-mixed').flatMap(({ said }) => said.pots);
  return new Map(pots.map((pot) => [pot.potId, pot]));
}
