import { flagLevel } from '#calc/cavities.ts';
import { type CavityResults, cavitiesOf, failedIn, isTelling } from '#calc/cavity-results.ts';

const leastTelling = 5;
const most = 500;

/**
 * About how many more shots until a cavity that failed every time would show, when shots go on
 * telling as often as so far; null while none has told, or where over 500 would be needed.
 */
export function moreShotsToTell(matrix: CavityResults): number | null {
  const telling = matrix.map(failedIn).filter(isTelling);
  if (telling.length === 0) return null;
  const shares = telling.map(({ failed, recorded }) => failed / recorded);
  const usual = shares.reduce((sum, share) => sum + share, 0) / shares.length;
  const line = flagLevel / Math.max(1, cavitiesOf(matrix));
  // By luck: half the chance of failing in all of them (mid-p) has to pass the corrected line.
  const needed = Math.max(leastTelling, Math.ceil(Math.log(2 * line) / Math.log(usual)));
  const more = Math.ceil((Math.max(0, needed - telling.length) * matrix.length) / telling.length);
  return more > most ? null : more;
}
