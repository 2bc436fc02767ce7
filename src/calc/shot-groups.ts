import { newcombe } from '#calc/before-after.ts';
import { holm } from '#calc/cavities.ts';
import { type Columns, coldFlag, notCheckedCode } from '#calc/columns.ts';
import { dayOf } from '#calc/days.ts';
import { addCluster, noClusters, sumsWith } from '#calc/likeness.ts';
import { countIn } from '#calc/mould-shots.ts';
import { endOf } from '#calc/steps.ts';
import { effectOfSums, expectedBySums, type LogSums } from '#calc/yield.ts';

/** What yields can be told apart by. */
export const groupings = ['mould', 'colour', 'injector', 'heat', 'session', 'day'] as const;
export type Grouping = (typeof groupings)[number];

/** The warm shots of one mould, colour, injector, heat, session or day. */
export interface ShotGroup {
  /** Id or number of what they share; `''`: nothing was noted. */
  key: string;
  /** Its name as it was logged last; empty where the log has none. */
  name: string;
  /** When its last session began. */
  lastAt: number;
  shots: number;
  notChecked: number;
  cold: { good: number; checked: number };
  /** Good of checked in its warm shots, with shots and with sessions as clusters. */
  sums: LogSums;
}

/** The groups of some digests while they are read, batch by batch. */
export type ShotGroups = Map<string, ShotGroup>;

/** Adds the shots of some digests to the groups. */
export function addToGroups(groups: ShotGroups, columns: readonly Columns[], by: Grouping): void {
  for (const session of columns) {
    const own = new Map<ShotGroup, { good: number; checked: number }>();
    const day = by === 'day' ? dayOf(session.startedAt, session.zone) : '';
    for (let shot = 0; shot < session.mould.length; shot += 1) {
      const { key, name } = by === 'day' ? { key: day, name: '' } : labelOf(session, shot, by);
      const group = groupFor(groups, key);
      group.name = name || group.name;
      group.lastAt = Math.max(group.lastAt, session.startedAt);
      const cells = session.cells.subarray(session.firstCell[shot], session.firstCell[shot + 1]);
      const { seen, checked } = countIn(cells, 'good');
      group.notChecked += notCheckedIn(cells);
      if (checked === 0) continue;
      if (session.cold[shot] === coldFlag) {
        group.cold.good += seen;
        group.cold.checked += checked;
        continue;
      }
      group.shots += 1;
      addCluster(group.sums.shots, seen, checked);
      const counts = own.get(group) ?? { good: 0, checked: 0 };
      counts.good += seen;
      counts.checked += checked;
      own.set(group, counts);
    }
    for (const [{ sums }, { good, checked }] of own) addCluster(sums.sessions, good, checked);
  }
}

/** What is said of one group: counts always, a range where the shots allow one. */
export interface GroupYield {
  group: ShotGroup;
  good: number;
  checked: number;
  /** [p, lo, hi] of the good share to expect again; null: too few to tell. */
  shares: [number, number, number] | null;
  /** Against all other groups together; null: no difference shows, or none can be told. */
  differs: 'fewer' | 'more' | null;
}

/** Chance of one false "fewer" or "more" over the whole list. */
const listLevel = 0.05;
/** Groups worked out in one go: they may be sessions of a few shots, or moulds of thousands. */
const stepGroups = 8;

/**
 * The groups by the least to be expected of them, lowest first; those of which nothing can be told
 * come last. Each is held against the rest by Newcombe's interval with Holm over the list; groups
 * that are their own time (sessions, days) are not, because they differ by chance alone.
 */
export function groupYields(groups: ShotGroups, by: Grouping, conf: number): GroupYield[] {
  return endOf(groupYieldSteps(groups, by, conf));
}

/** The same in steps, so that a page can draw in between when the log is long. */
export function* groupYieldSteps(
  groups: ShotGroups,
  by: Grouping,
  conf: number,
): Generator<void, GroupYield[]> {
  const judged: Omit<GroupYield, 'differs'>[] = [];
  for (const group of groups.values()) {
    const { x: good, of: checked } = group.sums.shots;
    judged.push({ group, good, checked, shares: expectedBySums(group.sums, conf) });
    if (judged.length % stepGroups === 0) yield;
  }
  const isHeld = by !== 'session' && by !== 'day';
  const compared = isHeld ? judged.filter(({ shares }) => shares !== null) : [];
  const chances: { d: number; chance: number }[] = [];
  const all = allOf([...groups.values()].map(({ sums }) => sums));
  for (const { group } of compared) {
    chances.push(chanceAgainst(group.sums, restOf(all, group.sums)));
    yield;
  }
  const corrected = holm(chances.map(({ chance }) => chance));
  const found = new Map(
    compared.map(({ group }, at) => [
      group,
      (corrected[at] ?? 1) > listLevel ? null : (chances[at]?.d ?? 0) < 0 ? 'fewer' : 'more',
    ]),
  );
  return judged
    .map((each) => ({ ...each, differs: found.get(each.group) ?? null }) as GroupYield)
    .sort((a, b) => leastOf(a) - leastOf(b) || b.group.lastAt - a.group.lastAt);
}

/**
 * Share of good in one group less that in all others, and the chance by luck alone of one as far
 * from zero: the largest level at which Newcombe's interval still holds zero.
 */
function chanceAgainst(own: LogSums, rest: LogSums): { d: number; chance: number } {
  if (rest.shots.of === 0) return { d: 0, chance: 1 };
  const [a, b] = [own.shots, rest.shots];
  const effects = [effectOfSums(own), effectOfSums(rest)] as const;
  const at = (chance: number) => newcombe(a.x, a.of, b.x, b.of, ...effects, 1 - chance);
  const isFar = ([, lo, hi]: readonly number[]) => (lo ?? 0) > 0 || (hi ?? 0) < 0;
  let [sure, unsure] = [1 - 1e-9, 1e-9];
  if (isFar(at(unsure))) return { d: at(unsure)[0], chance: unsure };
  for (let turn = 0; turn < 40; turn += 1) {
    const middle = (sure + unsure) / 2;
    if (isFar(at(middle))) sure = middle;
    else unsure = middle;
  }
  return { d: at(sure)[0], chance: sure };
}

function labelOf(
  session: Columns,
  shot: number,
  by: Exclude<Grouping, 'day'>,
): { key: string; name: string } {
  switch (by) {
    case 'mould': {
      const mould = session.moulds[session.mould[shot] ?? -1];
      return { key: mould?.mouldId ?? '', name: mould?.name ?? '' };
    }
    case 'colour': {
      const colour = session.colourways[session.colourway[shot] ?? -1];
      return { key: colour?.colourwayId ?? '', name: colour?.colourwayId ? colour.name : '' };
    }
    case 'injector':
      return { key: session.injectorIds[session.injector[shot] ?? -1] ?? '', name: '' };
    case 'heat': {
      const heat = session.heat[shot] ?? 0;
      return { key: heat > 0 ? String(heat) : '', name: '' };
    }
    case 'session':
      return { key: session.sessionId, name: '' };
  }
}

function groupFor(groups: ShotGroups, key: string): ShotGroup {
  const old = groups.get(key);
  if (old) return old;
  const fresh: ShotGroup = {
    key,
    name: '',
    lastAt: 0,
    shots: 0,
    notChecked: 0,
    cold: { good: 0, checked: 0 },
    sums: { shots: noClusters(), sessions: noClusters() },
  };
  groups.set(key, fresh);
  return fresh;
}

function notCheckedIn(cells: Uint8Array): number {
  let count = 0;
  for (const code of cells) if (code === notCheckedCode) count += 1;
  return count;
}

function allOf(each: readonly LogSums[]): LogSums {
  const none: LogSums = { shots: noClusters(), sessions: noClusters() };
  return each.reduce(
    (all, { shots, sessions }) => ({
      shots: sumsWith(all.shots, shots),
      sessions: sumsWith(all.sessions, sessions),
    }),
    none,
  );
}

/** A session that has shots of two groups stands in each of them as a cluster of its own. */
function restOf(all: LogSums, own: LogSums): LogSums {
  return {
    shots: sumsWith(all.shots, own.shots, -1),
    sessions: sumsWith(all.sessions, own.sessions, -1),
  };
}

function leastOf({ shares }: GroupYield): number {
  return shares?.[1] ?? 2;
}
