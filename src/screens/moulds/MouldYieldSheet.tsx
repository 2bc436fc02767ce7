import type { MouldYield } from '#calc/yields.ts';
import type { Mould } from '#model/mould.ts';
import { MouldPicture } from '#screens/moulds/MouldPicture.tsx';
import { expectedOfMould } from '#screens/moulds/mould-view.ts';
import { ofWords, worstOf } from '#screens/yield-words.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Acts } from '#ui/Acts.tsx';
import { Figure } from '#ui/Figure.tsx';
import { Range } from '#ui/Range.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import { Tag } from '#ui/Tag.tsx';
import { TwinTable } from '#ui/TwinTable.tsx';

interface Props {
  mould: Mould;
  own: MouldYield | null;
  /** Cold shots, where the others are warm ones only. */
  cold: MouldYield | null;
  onClose: (cavity: number) => void;
  onOpen: (cavity: number) => void;
}

/** How many came out good, what to expect, and which cavity was bad how often. */
export function MouldYieldSheet({ mould, own, cold, onClose, onOpen }: Props) {
  const worst = own ? worstOf(own) : null;
  const isOpenWorst = worst && !mould.closed.includes(worst.cavity);
  return (
    <Sheet>
      {own ? <Headline own={own} /> : <p>No such shot yet.</p>}
      <MouldPicture mould={mould} own={own} size="large" />
      {own && (
        <p>
          {worst
            ? `Most bad: cavity ${worst.cavity}, ${ofWords(worst.bad, worst.checked)}.`
            : 'No cavity was bad more than the others.'}
          {own.tally.notChecked > 0 && ` ${own.tally.notChecked} not checked.`}
        </p>
      )}
      {cold && cold.tally.shots > 0 && (
        <p>Cold shots: {ofWords(cold.tally.good, cold.tally.checked)} good.</p>
      )}
      {own && (
        <TwinTable
          heads={['Cavity', 'Bad', 'Looked at']}
          rows={own.byCavity.map(({ bad, checked }, index) => [index + 1, bad, checked])}
        />
      )}
      {(isOpenWorst || mould.closed.length > 0) && (
        <Acts>
          {isOpenWorst && (
            <ActKey onPress={() => onClose(worst.cavity)}>Close off {worst.cavity}</ActKey>
          )}
          {mould.closed.map((cavity) => (
            <ActKey key={cavity} onPress={() => onOpen(cavity)}>
              Open {cavity} again
            </ActKey>
          ))}
        </Acts>
      )}
    </Sheet>
  );
}

function Headline({ own }: { own: MouldYield }) {
  const expected = expectedOfMould(own);
  return (
    <>
      <Figure count={own.tally.good} rest={`of ${own.tally.checked} good`} />
      {expected ? (
        <Range
          {...expected}
          label={`${expected.p} of 100 good, expect ${expected.lo} to ${expected.hi}`}
          scale={`expect ${expected.lo} to ${expected.hi} of 100`}
        />
      ) : (
        <Tag>too few to tell</Tag>
      )}
    </>
  );
}
