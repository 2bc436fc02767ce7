import { listed } from '#screens/copy-words.ts';
import { countWords } from '#screens/words.ts';
import { type Coming, countOf, type Difference } from '#store/copy/difference.ts';
import { type Carried, type Counts, carried } from '#store/copy/header.ts';

/** What a record of each table is called; one, many. */
const names: Record<Carried, readonly [string, string]> = {
  settings: ['set of settings', 'sets of settings'],
  moulds: ['mould', 'moulds'],
  injectors: ['injector', 'injectors'],
  colourways: ['colour', 'colours'],
  materials: ['material', 'materials'],
  mixes: ['mix', 'mixes'],
  photos: ['photo card', 'photo cards'],
  remarks: ['remark', 'remarks'],
  ideas: ['idea', 'ideas'],
  changes: ['mould change', 'mould changes'],
  movements: ['stock line', 'stock lines'],
  sealed: ['session', 'sessions'],
  entries: ['running session', 'running sessions'],
  'photo-bytes': ['picture', 'pictures'],
};

/** People think of sessions first. */
const inOrder: readonly Carried[] = ['sealed', 'entries', ...carried].filter(
  (table, index, all): table is Carried => all.indexOf(table) === index,
);

/** `1 mould`, `2 moulds`. */
export function recordWords(table: Carried, count: number): string {
  return countWords(count, ...names[table]);
}

/** A record of this table, as a line begins with it: `Mould`. */
export function kindWord(table: Carried): string {
  const [one] = names[table === 'entries' ? 'sealed' : table];
  return one.charAt(0).toUpperCase() + one.slice(1);
}

/** What a copy holds. Lines of a running session are counted as such: nobody counts them. */
export function heldWords(counts: Counts): string {
  const parts = inOrder
    .filter((table) => counts[table] > 0 && table !== 'settings' && table !== 'entries')
    .map((table) => recordWords(table, counts[table]));
  if (counts.entries > 0) parts.push('the session that runs');
  return parts.length === 0 ? 'nothing yet' : listed(parts);
}

/** What a file would do, one sentence for each way. */
export function differenceWords(difference: Difference, tense: 'will' | 'did'): string[] {
  const [brings, changes, takesOff] =
    tense === 'will' ? ['Brings', 'Changes', 'Takes off'] : ['Came in:', 'Changed:', 'Taken off:'];
  const sentence = (verb: string, what: Parameters<typeof countOf>[2], ending: string) => {
    const parts = inOrder
      .map((table) => [table, countOf(difference, table, what)] as const)
      .filter(([, count]) => count > 0)
      .map(([table, count]) => recordWords(table, count));
    return parts.length === 0 ? [] : [`${verb} ${listed(parts)}${ending}.`];
  };
  return [
    ...sentence(brings, 'brings', ''),
    ...sentence(brings, 'brings-off', ', off its list'),
    ...sentence(changes, 'changes', ''),
    ...sentence(takesOff, 'takes-off', ''),
  ];
}

/** How one thing comes. */
export const wayWords: Record<Coming['what'], string> = {
  brings: 'new',
  changes: 'changed',
  'takes-off': 'taken off',
};
