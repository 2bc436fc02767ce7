import type { Standing } from '#calc/log.ts';
import { dosesFor } from '#calc/mix.ts';
import { frozenMix } from '#calc/pot-mix.ts';
import { all } from '#calc/said.ts';
import { potsOfMix } from '#calc/told-mixes.ts';
import type { EntryId, Said, SaidOf } from '#model/entry.ts';
import type { Colourway } from '#model/gear.ts';
import type { Mix, MixRole } from '#model/mix.ts';
import type { Instant } from '#model/schemas.ts';

/** What one line of the log should have said, and when that happened. */
export interface Right {
  target: EntryId;
  says: Said;
  happenedAt: Instant;
}

/**
 * What the top-ups of these pots should have said when the pots turn out to be of another mix: its
 * doses, for as much as was filled in. A top-up of which no doses were told stays as it is.
 */
export function topUpsAs(lines: readonly Standing[], mixed: SaidOf<'pot-mixed'>): Right[] {
  return all(lines, 'pot-topped-up').flatMap(({ id, at, said }): Right[] => {
    const pot = mixed.pots.find(({ potId }) => potId === said.potId);
    if (!pot || !said.mix || said.mix.mixId === pot.mix?.mixId) return [];
    return [{ target: id, says: { ...said, mix: topUpOf(pot, said.volumeMl) }, happenedAt: at }];
  });
}

function topUpOf(
  { mix = null, name, volumeMl }: SaidOf<'pot-mixed'>['pots'][number],
  addedMl: number,
) {
  if (!mix) return null;
  const { mixId: id, version, role, plastisolId } = mix;
  const doses = mix.doses.filter(({ isPinned }) => !isPinned);
  const side = { role, name, swatch: '', plastisolId, doses };
  return frozenMix({ id, version }, side, dosesFor(volumeMl, side, addedMl));
}

/**
 * What the lines of a session should have said, had a mix that was made up at the table had its colour
 * then: its pots, what topped them up, and the word on its balance.
 */
export function namedAs(lines: readonly Standing[], mix: Mix, colourway: Colourway): Right[] {
  const roles = potsOfMix(lines, mix.id);
  return lines.flatMap(({ id: target, at: happenedAt, said }): Right[] => {
    const says = saysAs(said, roles, mix, colourway);
    return says ? [{ target, says, happenedAt }] : [];
  });
}

/** Null: the line is not of this mix. */
function saysAs(
  said: Said,
  roles: ReadonlyMap<string, MixRole>,
  { id: mixId, version }: Mix,
  colourway: Colourway,
): Said | null {
  if (said.kind === 'laminate-judged') {
    const isOwn = said.colourwayId === null && said.mixId === mixId;
    return isOwn ? { ...said, colourwayId: colourway.id } : null;
  }
  if (said.kind === 'pot-topped-up') {
    const role = roles.get(said.potId);
    return said.mix && role ? { ...said, mix: { ...said.mix, mixId, version, role } } : null;
  }
  if (said.kind !== 'pot-mixed' || said.colourwayId !== null) return null;
  // The other side may be that of an earlier laminate: it stays that one's. A pot that has a colour keeps it.
  const isOwn = said.pots.some(
    ({ potId, mix }) => mix && roles.has(potId) && (mix.mixId === mixId || mix.role === 'only'),
  );
  if (!isOwn) return null;
  const pots = said.pots.map((pot) => {
    const role = roles.get(pot.potId);
    if (!pot.mix || !role) return pot;
    return { ...pot, ...lookOf(colourway, role), mix: { ...pot.mix, mixId, version, role } };
  });
  return { ...said, colourwayId: colourway.id, name: colourway.name, pots };
}

/** How a side of a colour is called and looks. */
export function lookOf({ sides }: Colourway, role: MixRole) {
  return role === 'b' ? sides[1] : sides[0];
}
