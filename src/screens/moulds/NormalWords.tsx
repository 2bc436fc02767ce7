import { driftRuns } from '#calc/mould-drift.ts';
import { useWorked } from '#live/use-worked.ts';
import { rounded, type Watch } from '#screens/moulds/lately-words.ts';
import { countWords } from '#screens/words.ts';

/** Where normal is from, and how often this line errs by luck alone. */
export function NormalWords({ found: { normal, cavities, baseShots } }: { found: Watch }) {
  const runs = useWorked(() => driftRuns(normal, cavities), [normal, cavities]);
  return (
    <p>
      Normal is from {countWords(baseShots, 'warm shot')}; the dashed line is what one shot alone
      hardly passes.
      {runs &&
        ` By luck alone this says "changed" about once in ${rounded(runs.falseAlarm)} shots. Twice the trouble shows after about ${Math.round(runs.notice)}.`}
    </p>
  );
}
