import type { Columns } from '#calc/columns.ts';
import type { Scrap } from '#calc/scrap.ts';
import { watchesCold } from '#calc/session-counts.ts';
import type { Tally } from '#calc/yields.ts';
import { gramWords } from '#screens/words.ts';
import { type Expected, expectedOf, ofWords } from '#screens/yield-words.ts';
import { Figure } from '#ui/Figure.tsx';
import { Range } from '#ui/Range.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import { Tag } from '#ui/Tag.tsx';
import styles from './Totals.module.css';

interface Props {
  columns: readonly Columns[];
  tally: Tally;
  scrap: Scrap;
}

/** Good of checked, warm and cold apart, what was not checked, the scrap, and what to expect again. */
export function Totals({ columns, tally, scrap }: Props) {
  const { good, checked, coldGood, coldChecked, notChecked } = tally;
  const hasCold = watchesCold(columns);
  return (
    <Sheet>
      <Figure count={good} rest={`of ${checked} good`} />
      <dl class={styles.totals}>
        {hasCold && (
          <Fact word="Warm shots" value={ofWords(good - coldGood, checked - coldChecked)} />
        )}
        {hasCold && <Fact word="Cold shots" value={ofWords(coldGood, coldChecked)} />}
        <Fact word="Not checked" value={String(notChecked)} />
        <Fact
          word="Scrap for remelt"
          value={gramWords(scrap.weighedG ?? scrap.massG)}
          small={scrapFrom(scrap)}
        />
      </dl>
      <Expectation expected={expectedOf(columns, 'warm')} hasCold={hasCold} />
    </Sheet>
  );
}

/** Where the weight of the scrap is from. */
function scrapFrom({ weighedG, massG, isMeasured }: Scrap): string {
  if (weighedG !== null) return `on the scale, ${gramWords(massG)} by what was marked`;
  return isMeasured ? 'worked out from bait volume' : 'worked out, bait volume not measured';
}

function Fact({ word, value, small }: { word: string; value: string; small?: string }) {
  return (
    <div>
      <dt>{word}</dt>
      <dd>
        {value}
        {small && <small>{small}</small>}
      </dd>
    </div>
  );
}

function Expectation({ expected, hasCold }: { expected: Expected | null; hasCold: boolean }) {
  const shots = hasCold ? 'warm shots' : 'shots';
  if (!expected) {
    return (
      <>
        <Tag>too early to tell</Tag>
        <p>Too few {shots}, or too unlike, to say what to expect.</p>
      </>
    );
  }
  const { p, lo, hi } = expected;
  return (
    <>
      <Range
        p={p}
        lo={lo}
        hi={hi}
        from={lo < 50 ? 0 : 50}
        scale={`good of 100, ${shots}`}
        label={`${p} of 100 ${shots === 'shots' ? '' : 'warm '}good, expect ${lo} to ${hi}`}
      />
      <p>
        {hasCold ? 'For warm shots on' : 'On'} days like this, expect {lo} to {hi} of 100.
      </p>
    </>
  );
}
