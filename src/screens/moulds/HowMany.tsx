import { useState } from 'preact/hooks';
import type { ColdLine } from '#calc/cold-line.ts';
import { type Columns, goodCode } from '#calc/columns.ts';
import { heatFor, learntLoss } from '#calc/loss.ts';
import { type MouldPlan, mouldPlan, planBasis } from '#calc/mould-plan.ts';
import type { LoggedShot } from '#calc/mould-shots.ts';
import { useWorked } from '#live/use-worked.ts';
import type { Mould } from '#model/mould.ts';
import { heatWords, lossWords } from '#screens/heat-words.ts';
import { countWords } from '#screens/words.ts';
import { Sheet } from '#ui/Sheet.tsx';
import { Stepper } from '#ui/Stepper.tsx';

interface Props {
  mould: Mould;
  shots: readonly LoggedShot[];
  line: ColdLine;
  columns: readonly Columns[];
  massUnit?: 'g' | 'oz' | undefined;
}

const step = 10;
const first = 50;
const most = 2_000;

/** How many shots and how much plastisol for so many good baits, beside what the average says. */
export function HowMany({ mould, shots, line, columns, massUnit }: Props) {
  const [good, setGood] = useState(first);
  const basis = useWorked(() => planBasis(mould, shots, line), [mould, shots, line]);
  const loss = useWorked(() => learntLoss(columns.flatMap(({ runs = [] }) => runs)), [columns]);
  if (!basis || !loss) return null;
  const found = mouldPlan(basis, good);
  const heat = heatFor(loss, [{ mouldId: mould.id, shouldMl: found.volumeMl }]);
  return (
    <Sheet title="How many shots?">
      <Stepper
        label="Good baits wanted"
        value={String(good)}
        small={good >= most ? 'the most at once' : 'good baits'}
        last={lastGoodWords(shots)}
        lessName="Fewer"
        moreName="More"
        onLess={() => setGood(Math.max(step, good - step))}
        onMore={() => setGood(Math.min(most, good + step))}
      />
      <p role="status">
        <b>{leadWords(found)}</b> {planWords(found, good)}
      </p>
      {found.plan.kind === 'plan' && (
        <p>
          <b>Heat {heatWords(heat, massUnit)}</b> {lossWords(loss, mould.id, massUnit)}
        </p>
      )}
      <p>{baseWords(found)}</p>
    </Sheet>
  );
}

/** What the last session with this mould gave. */
function lastGoodWords(shots: readonly LoggedShot[]): string | undefined {
  const sessionId = shots.at(-1)?.sessionId;
  if (!sessionId) return undefined;
  const own = shots.filter((shot) => shot.sessionId === sessionId);
  const good = own.reduce((sum, { cells }) => sum + cells.filter((c) => c === goodCode).length, 0);
  return `${good} good`;
}

function leadWords({ plan }: MouldPlan): string {
  if (plan.kind === 'too-uncertain') return 'Too early to plan.';
  return `Make ${countWords(plan.shots, 'shot')}.`;
}

function planWords(found: MouldPlan, good: number): string {
  const { plan, coldShots } = found;
  if (plan.kind === 'too-uncertain') return 'Make 5 shots, log them and look again.';
  const cold =
    coldShots > 0 ? ` The first ${coldShots === 1 ? 'is' : `${coldShots} are`} cold.` : '';
  const naive =
    plan.meanShots < plan.shots
      ? ` The average alone would say ${plan.meanShots}.`
      : ' The average alone says the same.';
  return `9 times in 10 you will have at least ${good} good ones.${cold}${naive}`;
}

function baseWords({ checked }: MouldPlan): string {
  if (checked === 0) return 'Taken for 8 good in 10 until this mould has shots of its own.';
  return `Worked out from the ${checked} warm baits you looked at.`;
}
