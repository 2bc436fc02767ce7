import { clockText } from '#calc/days.ts';
import { inStampOrder, type Line, linesOf } from '#calc/log.ts';
import { tableOf } from '#calc/table.ts';
import type { Entry } from '#model/entry.ts';
import { entryWords, type Units } from '#screens/entry-words.ts';
import { lowered } from '#screens/result-words.ts';

/** One event of a session, as it is read. */
export interface EventWords {
  id: string;
  time: string;
  what: string;
  where: string;
}

/** The events of a session that came with a file, in the order they were written. */
export function eventWords(
  entries: readonly Entry[],
  newIds: readonly string[],
  units: Units,
): EventWords[] {
  const table = tableOf(entries);
  const lines = new Map<string, Line>(linesOf(entries).map((line) => [line.id, line]));
  const all = new Map<string, Entry>(entries.map((entry) => [entry.id, entry]));
  const wanted = new Set<string>(newIds);
  return inStampOrder(entries)
    .filter(({ id }) => wanted.has(id))
    .map(({ id, at, said }) => {
      const time = clockText(at, table.zone);
      if (said.kind !== 'put-right' && said.kind !== 'taken-back') {
        const line = lines.get(id);
        const words = line && entryWords(table, line, units);
        return { id, time, what: words?.what ?? 'A line', where: words?.where ?? '' };
      }
      const [verb, target] = aboutOf(said, all);
      const line = lines.get(target);
      const words = line && entryWords(table, line, units);
      const what = words ? `${verb}: ${lowered(words.what)}` : verb;
      return { id, time, what, where: words?.where ?? '' };
    });
}

type About = Extract<Entry['said'], { target: unknown }>;

/** What a correction does, and to which line: one that takes back a taking back brings it again. */
function aboutOf(said: About, all: ReadonlyMap<string, Entry>): [verb: string, target: string] {
  if (said.kind === 'put-right') return ['Put right', said.target];
  const first = all.get(said.target)?.said;
  if (first?.kind === 'taken-back') return ['Brought back', first.target];
  if (first?.kind === 'put-right') return ['As it was before', first.target];
  return ['Taken back', said.target];
}
