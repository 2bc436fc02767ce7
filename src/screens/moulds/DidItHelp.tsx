import { useState } from 'preact/hooks';
import type { ChangeVerdict } from '#calc/before-after.ts';
import { dayOf } from '#calc/days.ts';
import { type ChangeAnswer, changeAnswer } from '#calc/mould-changes.ts';
import type { LoggedShot } from '#calc/mould-shots.ts';
import { useShop } from '#live/shop.ts';
import { useWorked } from '#live/use-worked.ts';
import type { Change } from '#model/change.ts';
import {
  changeLine,
  changeWords,
  countsSentence,
  sizeSentence,
  verdictTag,
} from '#screens/moulds/change-words.ts';
import { Refusal } from '#screens/Refusal.tsx';
import { useOneAct } from '#screens/use-one-act.ts';
import { dateWords } from '#screens/words.ts';
import { setDeleted } from '#store/heads.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Range } from '#ui/Range.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import { Tag } from '#ui/Tag.tsx';
import styles from './DidItHelp.module.css';

interface Props {
  /** Newest first. */
  changes: readonly Change[];
  shots: readonly LoggedShot[];
}

const firstShown = 3;

/** A card for everything that was done to the mould: did it help? */
export function DidItHelp({ changes, shots }: Props) {
  const [isAll, setIsAll] = useState(false);
  const shown = isAll ? changes : changes.slice(0, firstShown);
  const answers = useWorked(
    () => shown.map((change) => ({ change, answer: changeAnswer(change, changes, shots) })),
    [changes, shots, isAll],
  );
  if (!answers) return null;
  return (
    <>
      {answers.map(({ change, answer }) => (
        <Card key={change.id} change={change} answer={answer} />
      ))}
      {changes.length > shown.length && (
        <ActKey onPress={() => setIsAll(true)}>
          Show {changes.length - shown.length} older changes
        </ActKey>
      )}
    </>
  );
}

function Card({ change, answer }: { change: Change; answer: ChangeAnswer }) {
  const { book, clock } = useShop();
  const { act, trouble } = useOneAct();
  const dateOf = (at: number) =>
    dateWords(dayOf(at, clock.zone()), dayOf(clock.now(), clock.zone()));
  const takeBack = () =>
    act(async () => {
      await setDeleted(book, 'changes', change.id, clock.now(), clock.now());
      return null;
    });
  return (
    <Sheet title={changeWords[change.kind].question} aside={dateOf(change.at)}>
      {answer.verdicts.map(({ cavity, verdict }) => (
        <Verdict key={cavity} {...{ cavity, verdict }} outcome={answer.outcome} />
      ))}
      {change.wasPickedAsWorst && (
        <p>It was picked because it looked worst, so it has to show more to count.</p>
      )}
      {answer.alsoDone.length > 0 && (
        <p>
          Also done in that time:{' '}
          {answer.alsoDone
            .map((other) => `${changeLine(other).toLowerCase()}, ${dateOf(other.at)}`)
            .join('; ')}
          . That may have had its part.
        </p>
      )}
      <ActKey label={`Take it back: ${changeLine(change)}`} onPress={() => void takeBack()}>
        Take it back
      </ActKey>
      <Refusal says={trouble} />
    </Sheet>
  );
}

interface VerdictProps {
  cavity: number | null;
  verdict: ChangeVerdict;
  outcome: ChangeAnswer['outcome'];
}

function Verdict({ cavity, verdict, outcome }: VerdictProps) {
  return (
    <>
      <Tag>{verdictTag(verdict)}</Tag>
      {verdict.kind !== 'too-few' && (
        <>
          <Pair verdict={verdict} />
          <p>{countsSentence(verdict, outcome, cavity)}</p>
        </>
      )}
      <p>{sizeSentence(verdict)}</p>
    </>
  );
}

/** Before and after on one scale; the words and counts stand beside and under it. */
function Pair({ verdict }: { verdict: Exclude<ChangeVerdict, { kind: 'too-few' }> }) {
  const { before, after, ranges } = verdict;
  const highest = Math.max(ranges.before[1], ranges.after[1]) * 100;
  const to = Math.min(100, Math.max(10, Math.ceil(highest / 10) * 10));
  const sides = [
    ['Before', before, ranges.before],
    ['After', after, ranges.after],
  ] as const;
  return (
    <div class={styles.pair}>
      {sides.map(([word, { bad, total }, [lo, hi]]) => {
        const [p, low, high] = [bad / Math.max(1, total), lo, hi].map((s) => Math.round(s * 100));
        return [
          <b key={word}>{word}</b>,
          <Range
            key={`${word} range`}
            p={p ?? 0}
            lo={low ?? 0}
            hi={high ?? 100}
            from={0}
            to={to}
            label={`${word}: ${p} of 100, between ${low} and ${high}`}
          />,
          <span key={`${word} count`}>
            {bad} in {total}
          </span>,
        ];
      })}
      <span class={styles.ends} aria-hidden="true">
        <span>0</span>
        <span>in 100</span>
        <span>{to}</span>
      </span>
    </div>
  );
}
