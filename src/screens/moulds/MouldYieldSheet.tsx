import type { MouldYield } from '#calc/yields.ts';
import type { Mould } from '#model/mould.ts';
import { ClosedKeys } from '#screens/moulds/ClosedKeys.tsx';
import { ExpectedRange } from '#screens/moulds/ExpectedRange.tsx';
import { MouldPicture } from '#screens/moulds/MouldPicture.tsx';
import { expectedShares, scaleFrom } from '#screens/moulds/mould-view.ts';
import { ofWords, worstOf } from '#screens/yield-words.ts';
import { Figure } from '#ui/Figure.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import { TwinTable } from '#ui/TwinTable.tsx';

interface Props {
  mould: Mould;
  /** Null: no such shot. */
  own: MouldYield | null;
  /** What to say then. */
  none: string;
  /** Cold shots, where the others are warm ones only. */
  cold: MouldYield | null;
  isAtTable: boolean;
}

/** How many came out good, what to expect, and which cavity was bad how often. */
export function MouldYieldSheet({ mould, own, none, cold, isAtTable }: Props) {
  const shares = own && expectedShares(own);
  return (
    <Sheet>
      {own ? (
        <>
          <Figure count={own.tally.good} rest={`of ${own.tally.checked} good`} />
          <ExpectedRange shares={shares} from={scaleFrom([shares])} hasScale />
        </>
      ) : (
        <p>{none}</p>
      )}
      <MouldPicture mould={mould} own={own} size="large" />
      {own && <p>{countSentences(own)}</p>}
      {cold && cold.tally.shots > 0 && (
        <p>Cold shots: {ofWords(cold.tally.good, cold.tally.checked)} good.</p>
      )}
      {own && (
        <TwinTable
          heads={['Cavity', 'Bad', 'Looked at']}
          rows={own.byCavity.map(({ bad, checked }, index) => [index + 1, bad, checked])}
        />
      )}
      <ClosedKeys mould={mould} worst={own && worstOf(own)} isAtTable={isAtTable} />
    </Sheet>
  );
}

/** Counts and nothing else: whether a cavity is worse than the others is not tested here. */
function countSentences(own: MouldYield): string {
  const { good, checked, notChecked } = own.tally;
  const beside = notChecked > 0 ? ` ${notChecked} not checked.` : '';
  const worst = worstOf(own);
  if (worst)
    return `Most bad: cavity ${worst.cavity}, ${ofWords(worst.bad, worst.checked)}.${beside}`;
  if (good === checked) return `None was bad.${beside}`;
  const cavities = own.byCavity.filter(({ bad }) => bad > 0).length;
  return `${checked - good} bad, in ${cavities} of ${own.cavities} cavities.${beside}`;
}
