import type { Standing } from '#calc/log.ts';
import type { Kind, SaidOf } from '#model/entry.ts';

type Of<K extends Kind> = Standing & { said: SaidOf<K> };

/** The lines of one kind, in their order. */
export function all<K extends Kind>(lines: readonly Standing[], kind: K): Of<K>[] {
  return lines.filter((line): line is Of<K> => line.said.kind === kind);
}
