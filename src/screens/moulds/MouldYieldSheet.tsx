import { dayOf } from '#calc/days.ts';
import type { LoggedShot } from '#calc/mould-shots.ts';
import type { MouldYield } from '#calc/yields.ts';
import { useShop } from '#live/shop.ts';
import type { Mould } from '#model/mould.ts';
import type { Instant } from '#model/schemas.ts';
import { ClosedKeys } from '#screens/moulds/ClosedKeys.tsx';
import type { CavitySaid } from '#screens/moulds/cavity-words.ts';
import { cavityWords } from '#screens/moulds/change-words.ts';
import { ExpectedRange } from '#screens/moulds/ExpectedRange.tsx';
import type { ChangeStart } from '#screens/moulds/LogChange.tsx';
import { MouldPicture } from '#screens/moulds/MouldPicture.tsx';
import { countedSince, expectedShares, scaleFrom } from '#screens/moulds/mould-view.ts';
import { NextSteps } from '#screens/moulds/NextSteps.tsx';
import { dateWords } from '#screens/words.ts';
import { ofWords, worstOf } from '#screens/yield-words.ts';
import { Figure } from '#ui/Figure.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import { TwinTable } from '#ui/TwinTable.tsx';

interface Props {
  mould: Mould;
  /** Null: no such shot. */
  own: MouldYield | null;
  /** The same shots one by one. */
  shots: readonly LoggedShot[];
  /** From when on each cavity that was mended counts. */
  since: ReadonlyMap<number, Instant>;
  /** What they say of the cavities; undefined while it is worked out: what stands under it comes with it, so that no key moves. */
  said: CavitySaid | undefined;
  /** What to say while there is no such shot. */
  none: string;
  /** Cold shots, where the others are warm ones only. */
  cold: MouldYield | null;
  isAtTable: boolean;
  onLog: (start: ChangeStart) => void;
}

/** How many came out good, what to expect, which cavity fails more than its neighbours, and what next. */
export function MouldYieldSheet(props: Props) {
  const { mould, own, shots, since, said, none, cold, isAtTable, onLog } = props;
  const shares = own && expectedShares(own);
  const counted = own && countedSince(own, shots, since);
  const worst = counted && (said?.isJudged ? said.worst : (worstOf(counted)?.cavity ?? null));
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
      <MouldPicture mould={mould} own={counted} worst={worst} size="large" />
      {said && (
        <>
          {counted && <Sentences counted={counted} said={said} />}
          <SinceWords since={since} shots={shots} />
          {cold && cold.tally.shots > 0 && (
            <p>Cold shots: {ofWords(cold.tally.good, cold.tally.checked)} good.</p>
          )}
          {counted && (
            <TwinTable
              heads={['Cavity', 'Bad', 'Looked at']}
              rows={counted.byCavity.map(({ bad, checked }, index) => [index + 1, bad, checked])}
            />
          )}
          <NextSteps worst={said.worst} onLog={onLog} />
          <ClosedKeys
            mould={mould}
            worst={worst ? { cavity: worst } : null}
            isAtTable={isAtTable}
          />
        </>
      )}
    </Sheet>
  );
}

/** The verdict first; bare counts where it makes no claim. */
function Sentences({ counted, said }: { counted: MouldYield; said: CavitySaid }) {
  const { notChecked } = counted.tally;
  const isClaim = said.worst !== null;
  return (
    <>
      {isClaim ? (
        notChecked > 0 && <p>{notChecked} not checked.</p>
      ) : (
        <p>{countSentences(counted, said.isJudged)}</p>
      )}
      {said.lead && (
        <p>
          <b>{said.lead}</b> {said.rest}
        </p>
      )}
    </>
  );
}

function SinceWords({ since, shots }: Pick<Props, 'since' | 'shots'>) {
  const { clock } = useShop();
  const [first] = shots;
  const late = [...since].filter(([, at]) => first !== undefined && at > first.filledAt);
  if (late.length === 0) return null;
  const days = Map.groupBy(late, ([, at]) =>
    dateWords(dayOf(at, clock.zone()), dayOf(clock.now(), clock.zone())),
  );
  const words = [...days].map(
    ([day, cavities]) => `${cavityWords(cavities.map(([cavity]) => cavity))} from ${day} on`,
  );
  return <p>Counted since the last mending: {words.join('; ')}.</p>;
}

/** Counts and nothing else. */
function countSentences(own: MouldYield, isJudged: boolean): string {
  const { good, checked, notChecked } = own.tally;
  const beside = notChecked > 0 ? ` ${notChecked} not checked.` : '';
  const worst = isJudged ? null : worstOf(own);
  if (worst)
    return `Most bad: cavity ${worst.cavity}, ${ofWords(worst.bad, worst.checked)}.${beside}`;
  if (good === checked) return `None was bad.${beside}`;
  const cavities = own.byCavity.filter(({ bad }) => bad > 0).length;
  return `${checked - good} bad, in ${cavities} of ${own.cavities} cavities.${beside}`;
}
