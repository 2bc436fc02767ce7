import type { Seat } from '#calc/table.ts';
import { defectWords } from '#screens/words.ts';

const inARow = 3;

/** The one quiet line of a card: a cavity that gave the same defect three shots running; null: nothing. */
export function noteOf(seat: Seat): string | null {
  const logged = seat.shots.filter((shot) => shot.loggedAt !== null).slice(-inARow);
  const last = logged.at(-1);
  if (!last || logged.length < inARow) return null;
  for (const [index, result] of last.results.entries()) {
    if (result === 'good' || result === 'closed' || result === 'not-checked') continue;
    if (seat.mould.closed.includes(index + 1)) continue;
    if (logged.every((shot) => shot.results[index] === result)) {
      return `Cavity ${index + 1} ${defectWords[result].toLowerCase()} 3 times`;
    }
  }
  return null;
}
