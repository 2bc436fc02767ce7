import type { PartKind } from '#model/mould.ts';
import { countWords } from '#screens/words.ts';

/** The parts that a mould can make, in the order of their keys. */
export const partKinds: readonly PartKind[] = ['tail', 'leg', 'claw', 'wing', 'part'];

/** `tails`. */
export function partsWord(part: PartKind): string {
  return `${part}s`;
}

/** `1 tail`, `14 tails`. */
export function partWords(count: number, part: PartKind): string {
  return countWords(count, part, partsWord(part));
}
