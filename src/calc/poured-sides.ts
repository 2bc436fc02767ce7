import type { Standing } from '#calc/log.ts';
import { mixNow } from '#calc/mix-now.ts';
import { all } from '#calc/said.ts';
import { type Pot, potsOf } from '#calc/table-pots.ts';
import type { Dose, Mix, MixSide } from '#model/mix.ts';
import type { Photo } from '#model/photo.ts';
import type { Instant } from '#model/schemas.ts';

/** What a pot held of each material, per mL. */
interface Held {
  perMl: ReadonlyMap<string, Dose>;
  hasRemelt: boolean;
}

/**
 * The sides of a mix as they really went into the pots that a photo's bait was poured from, for the
 * mix's own volume: whole drops, and what topped a pot up before the shot. Old plastic in the pot is
 * said of its side. Null: the photo is tied to no pot of this mix, or to several that differ.
 */
export function pouredSides(
  lines: readonly Standing[],
  { shotId = null }: Pick<Photo, 'shotId'>,
  mix: Mix,
): MixSide[] | null {
  const filled = all(lines, 'filled').find(({ said }) =>
    said.shots.some((shot) => shot.shotId === shotId),
  );
  if (shotId && !filled) return null;
  const pots = potsOf(lines).filter(({ id }) => !filled || filled.said.potIds.includes(id));
  const sides = mix.sides.map((side): MixSide | null => {
    const own = pots.filter((pot) => {
      const now = mixNow(pots, pot);
      return now?.mixId === mix.id && now.role === side.role;
    });
    const held = filled ? own.map((pot) => heldAt(pot, filled.at)) : own.flatMap(heldAlways);
    const [first, ...others] = held;
    if (!first || held.length < own.length || !others.every((one) => isAlike(one, first))) {
      return null;
    }
    const doses = [...first.perMl.values()].map((dose) => ({
      ...dose,
      amount: dose.amount * mix.baseMl,
    }));
    const plastisolId = own[0]?.mix?.plastisolId ?? side.plastisolId;
    const isMixedUp = first.hasRemelt || side.hasRemelt === true;
    return { ...side, plastisolId, doses, ...(isMixedUp ? { hasRemelt: true } : {}) };
  });
  if (sides.every((side) => side === null)) return null;
  return sides.map((side, index) => side ?? (mix.sides[index] as MixSide));
}

/** What is in a pot at one instant: what is drawn takes of all alike, what is filled in changes it. */
function heldAt(pot: Pot, at: Instant): Held {
  let volumeMl = 0;
  let perMl = new Map<string, Dose>();
  let hasRemelt = false;
  for (const event of pot.course) {
    if (event.at > at) break;
    if (event.kind === 'drawn') volumeMl = Math.max(0, volumeMl - event.volumeMl);
    if (event.kind !== 'filled') continue;
    const after = volumeMl + event.volumeMl;
    hasRemelt ||= event.maxHeats > 0;
    // A top-up without doses came coloured, as far as anybody told: all stays as it was.
    if (event.mix) {
      const kept = new Map<string, Dose>();
      for (const [key, dose] of perMl) {
        kept.set(key, { ...dose, amount: (dose.amount * volumeMl) / after });
      }
      for (const dose of event.mix.doses) {
        const key = `${dose.materialId} ${dose.unit}`;
        const amount = (kept.get(key)?.amount ?? 0) + dose.amount / after;
        kept.set(key, { ...dose, amount });
      }
      perMl = kept;
    }
    volumeMl = after;
  }
  return { perMl, hasRemelt };
}

/** What is in a pot at any time; nothing to tell when a top-up changed it on the way. */
function heldAlways(pot: Pot): Held[] {
  const fills = pot.course.filter((event) => event.kind === 'filled');
  const isChanged = fills.slice(1).some((fill) => fill.mix || fill.maxHeats > 0);
  return isChanged ? [] : [heldAt(pot, Number.POSITIVE_INFINITY)];
}

function isAlike(one: Held, other: Held): boolean {
  const keys = new Set([...one.perMl.keys(), ...other.perMl.keys()]);
  return (
    one.hasRemelt === other.hasRemelt &&
    [...keys].every((key) => {
      const [a = 0, b = 0] = [one.perMl.get(key)?.amount, other.perMl.get(key)?.amount];
      return Math.abs(a - b) <= 1e-6 * Math.max(a, b);
    })
  );
}
