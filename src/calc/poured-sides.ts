import { layersOf } from '#calc/layers.ts';
import type { Standing } from '#calc/log.ts';
import { mixNow } from '#calc/mix-now.ts';
import { all } from '#calc/said.ts';
import { type Pot, potsOf } from '#calc/table-pots.ts';
import type { MaterialId } from '#model/material.ts';
import type { Dose, Mix, MixId, MixRole, MixSide } from '#model/mix.ts';
import type { Photo } from '#model/photo.ts';
import type { Instant } from '#model/schemas.ts';

/** What a pot held of each material, per mL. */
export interface Held {
  perMl: readonly Dose[];
  hasRemelt: boolean;
}

/** A pot that a photo's bait was poured from, as a side of its mix. */
export interface HeldPot {
  mixId: MixId;
  role: MixRole;
  plastisolId: MaterialId | null;
  /** What it held at the shot; null: the photo is of no shot, and a top-up changed it on the way. */
  held: Held | null;
}

/**
 * The pots of a mix that a photo's bait was poured from, by its shot; without a shot all of the
 * evening. Null: there is no such shot. Goes through the log once for all photos of its evening.
 */
export function heldIn(
  lines: readonly Standing[],
): (photo: Pick<Photo, 'shotId'>) => HeldPot[] | null {
  const every = potsOf(lines);
  const fills = new Map(
    all(lines, 'filled').flatMap((line) => line.said.shots.map(({ shotId }) => [shotId, line])),
  );
  const layers = layersOf(lines);
  return ({ shotId = null }) => {
    const filled = shotId ? fills.get(shotId) : undefined;
    if (shotId && !filled) return null;
    const above = (shotId && layers.get(shotId)) || [];
    const pours = filled ? [{ potIds: filled.said.potIds, at: filled.at }, ...above] : [];
    const pots = every.filter(({ id }) => !filled || pours.some((one) => one.potIds.includes(id)));
    return pots.flatMap((pot): HeldPot[] => {
      const now = mixNow(pots, pot);
      if (!now) return [];
      const { mixId, role, plastisolId } = now;
      const pour = pours.find(({ potIds }) => potIds.includes(pot.id));
      return [{ mixId, role, plastisolId, held: pour ? heldAt(pot, pour.at) : heldAlways(pot) }];
    });
  };
}

/**
 * The sides of a mix as they really went into these pots, for the mix's own volume: whole drops, and
 * what topped a pot up before the shot. Old plastic in the pot is said of its side. Null: none of them
 * is of this mix, or several differ.
 */
export function sidesHeld(pots: readonly HeldPot[], mix: Mix): MixSide[] | null {
  const sides = mix.sides.map((side): MixSide | null => {
    const own = pots.filter(({ mixId, role }) => mixId === mix.id && role === side.role);
    const [first, ...others] = own.flatMap(({ held }) => held ?? []);
    if (!first || 1 + others.length < own.length || !others.every((one) => isAlike(one, first))) {
      return null;
    }
    const doses = first.perMl.map((dose) => ({ ...dose, amount: dose.amount * mix.baseMl }));
    const plastisolId = own[0]?.plastisolId ?? side.plastisolId;
    const isMixedUp = first.hasRemelt || side.hasRemelt === true;
    return { ...side, plastisolId, doses, ...(isMixedUp ? { hasRemelt: true } : {}) };
  });
  if (sides.every((side) => side === null)) return null;
  return sides.map((side, index) => side ?? (mix.sides[index] as MixSide));
}

/**
 * The side of a laminate that a bait is of alone, by the pots it was poured from: one cup was poured
 * before the other was mixed, or by itself. Null: of both, of another mix, or nobody knows the shot.
 */
export function loneSide(
  pots: readonly HeldPot[],
  photo: Pick<Photo, 'shotId'>,
  mix: Mix,
): MixRole | null {
  const isPair = ['a', 'b'].every((role) => mix.sides.some((side) => side.role === role));
  if (!isPair || !photo.shotId) return null;
  const roles = new Set(pots.map(({ mixId, role }) => (mixId === mix.id ? role : null)));
  const [one = null] = roles;
  return roles.size === 1 && (one === 'a' || one === 'b') ? one : null;
}

/** The sides that went into its pots, from the log of its evening; null also where the photo's shot is not in it. */
export function pouredSides(
  lines: readonly Standing[],
  photo: Pick<Photo, 'shotId'>,
  mix: Mix,
): MixSide[] | null {
  const pots = heldIn(lines)(photo);
  return pots && sidesHeld(pots, mix);
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
        const key = keyOf(dose);
        const amount = (kept.get(key)?.amount ?? 0) + dose.amount / after;
        kept.set(key, { ...dose, amount });
      }
      perMl = kept;
    }
    volumeMl = after;
  }
  return { perMl: [...perMl.values()], hasRemelt };
}

/** What is in a pot at any time; nothing to tell when a top-up changed it on the way. */
function heldAlways(pot: Pot): Held | null {
  const fills = pot.course.filter((event) => event.kind === 'filled');
  const isChanged = fills.slice(1).some((fill) => fill.mix || fill.maxHeats > 0);
  return isChanged ? null : heldAt(pot, Number.POSITIVE_INFINITY);
}

function isAlike(one: Held, other: Held): boolean {
  const [a, b] = [amountsIn(one), amountsIn(other)];
  return (
    one.hasRemelt === other.hasRemelt &&
    [...new Set([...a.keys(), ...b.keys()])].every((key) => {
      const [x, y] = [a.get(key) ?? 0, b.get(key) ?? 0];
      return Math.abs(x - y) <= 1e-6 * Math.max(x, y);
    })
  );
}

function amountsIn({ perMl }: Held): Map<string, number> {
  return new Map(perMl.map((dose) => [keyOf(dose), dose.amount]));
}

function keyOf({ materialId, unit }: Dose): string {
  return `${materialId} ${unit}`;
}
