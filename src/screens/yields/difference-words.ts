import type { Grouping, GroupYield, ShotGroup } from '#calc/shot-groups.ts';

const words: Record<Grouping, string> = {
  mould: 'mould',
  colour: 'colour',
  injector: 'injector',
  heat: 'heat',
  session: 'session',
  day: 'day',
};

/** What may be claimed of a list: who differs from the rest beyond luck, or that nobody does. */
export function differenceWords(
  by: Grouping,
  list: readonly GroupYield[],
  nameOf: (group: ShotGroup) => string,
): string {
  if (by === 'session' || by === 'day') {
    return `One ${words[by]} differs from the next by luck alone, so nothing is claimed here. The ranges are what to expect of one like it.`;
  }
  const told = list.filter(({ shares }) => shares !== null);
  if (told.length === 0) return 'Too early to tell: too few warm shots so far.';
  if (told.length === 1) return `Only one ${words[by]} has shots enough to tell.`;
  const fewer = told.filter(({ differs }) => differs === 'fewer');
  const more = told.filter(({ differs }) => differs === 'more');
  const names = (of: readonly GroupYield[]) => of.map(({ group }) => nameOf(group)).join(' and ');
  if (fewer.length > 0) {
    const gives = fewer.length === 1 ? 'gives' : 'give';
    return `${names(fewer)} ${gives} fewer good baits than the rest, more than luck would do.`;
  }
  if (more.length > 0) {
    const gives = more.length === 1 ? 'gives' : 'give';
    return `${names(more)} ${gives} more good baits than the rest, more than luck would do.`;
  }
  return `No ${words[by]} differs from the rest by more than luck would do.`;
}
