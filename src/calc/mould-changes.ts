import { type ChangeVerdict, cavityChangeVerdict, changeVerdict } from '#calc/before-after.ts';
import {
  cavityMatrix,
  countsBySession,
  type LoggedShot,
  type Outcome,
  warmShots,
} from '#calc/mould-shots.ts';
import type { Change } from '#model/change.ts';
import type { Instant } from '#model/schemas.ts';

/** What may be said of one logged change. */
export interface ChangeAnswer {
  outcome: Outcome;
  /** One verdict a cavity; a change of the whole mould has one, without a cavity. */
  verdicts: { cavity: number | null; verdict: ChangeVerdict }[];
  /** Other changes in the time looked at, which may have had their part, oldest first. */
  alsoDone: Change[];
}

/** Changes that mend the cavities they name: what came before them is another mould. */
const mending: readonly Change['kind'][] = ['vent-opened', 'vents-cleaned', 'mould-cleaned'];

/**
 * Did a change help? Its mould's warm shots before and after, all of them: from the change before
 * it to the same place, up to the next one. Several cavities at once are held to the stricter
 * interval, because one of them looks best partly by luck.
 */
export function changeAnswer(
  change: Change,
  changes: readonly Change[],
  shots: readonly LoggedShot[],
): ChangeAnswer {
  const others = changes.filter((other) => other.id !== change.id);
  const same = others.filter((other) => isSamePlace(other, change));
  const from = Math.max(0, ...same.flatMap(({ at }) => (at < change.at ? [at] : [])));
  const to = Math.min(Infinity, ...same.flatMap(({ at }) => (at > change.at ? [at] : [])));
  const seen = warmShots(shots).filter(({ filledAt }) => filledAt >= from && filledAt < to);
  const before = seen.filter(({ filledAt }) => filledAt < change.at);
  const after = seen.filter(({ filledAt }) => filledAt >= change.at);
  const [first = change.at, last = change.at] = [seen[0]?.filledAt, seen.at(-1)?.filledAt];
  const meanwhile = others.filter(({ at }) => at > first && at <= last).sort((a, b) => a.at - b.at);
  const outcome = change.defect ?? 'bad';
  if (change.cavities.length === 0) {
    const verdict = changeVerdict(
      countsBySession(before, outcome),
      countsBySession(after, outcome),
    );
    return { outcome, verdicts: [{ cavity: null, verdict }], alsoDone: meanwhile };
  }
  const mended = meanwhile.flatMap((other) => (isMending(other) ? other.cavities : []));
  const [was, is] = matricesOf(before, after, outcome);
  const verdicts = change.cavities.flatMap((cavity) => {
    const cavities = was[0]?.length ?? is[0]?.length;
    if (cavities !== undefined && cavity > cavities) return [];
    const apart = [...mended, ...change.cavities].filter((other) => other !== cavity);
    const isStrict = change.wasPickedAsWorst || change.cavities.length > 1;
    const places = apart.map((other) => other - 1);
    return [{ cavity, verdict: cavityChangeVerdict(was, is, cavity - 1, isStrict, places) }];
  });
  // What was done to single other cavities is out of the comparison; the rest may have had its part.
  const alsoDone = meanwhile.filter((other) => other.cavities.length === 0 || !isMending(other));
  return { outcome, verdicts, alsoDone };
}

/**
 * From when on the results of each cavity, from 1, are of the mould as it is now: since the last
 * thing that was done to that cavity.
 */
export function mendedSince(changes: readonly Change[]): Map<number, Instant> {
  const since = new Map<number, Instant>();
  for (const change of changes) {
    if (!isMending(change)) continue;
    for (const cavity of change.cavities) {
      since.set(cavity, Math.max(change.at, since.get(cavity) ?? 0));
    }
  }
  return since;
}

function isMending({ kind }: Change): boolean {
  return mending.includes(kind);
}

function isSamePlace(a: Change, b: Change): boolean {
  if (a.cavities.length === 0 && b.cavities.length === 0) return a.kind === b.kind;
  return a.cavities.some((cavity) => b.cavities.includes(cavity));
}

/** Both with as many columns, also when cavities were added to the mould in between. */
function matricesOf(before: readonly LoggedShot[], after: readonly LoggedShot[], outcome: Outcome) {
  const all = cavityMatrix([...before, ...after], outcome);
  return [all.slice(0, before.length), all.slice(before.length)] as const;
}
