import type { Columns } from '#calc/columns.ts';
import { dayOf } from '#calc/days.ts';
import { sessionsOfMould } from '#calc/last-poured.ts';
import { type TrialShot, trialShotsOf } from '#calc/trial-shots.ts';
import { useShop } from '#live/shop.ts';
import type { Mould } from '#model/mould.ts';
import { type Trial, trials } from '#model/trial.ts';
import { mouldYieldOf } from '#screens/moulds/mould-view.ts';
import { Refusal } from '#screens/Refusal.tsx';
import { hrefTo } from '#screens/routes.ts';
import { trialWords } from '#screens/trial-words.ts';
import { useOneAct } from '#screens/use-one-act.ts';
import { dateWords } from '#screens/words.ts';
import { changeHead } from '#store/heads.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Acts } from '#ui/Acts.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import styles from './Wrap.module.css';

interface Props {
  mould: Mould;
  /** The history, with the session that runs. */
  columns: readonly Columns[];
}

/** Shots after which a mould is no longer new. Common practice, no source. */
const newFor = 10;
const shown = 8;

const verdicts = [
  ['keep', 'Keep it'],
  ['not-yet', 'Not yet'],
  ['no-use', 'No use'],
] as const;

/** What a new mould has shown so far, what was not tried yet, and what the person makes of it. */
export function Trials({ mould, columns }: Props) {
  const shots = trialShotsOf(columns, mould.id);
  const own = mouldYieldOf(sessionsOfMould(columns, mould.id), mould.id, 'all');
  const isNew = (own?.tally.shots ?? 0) < newFor;
  if (shots.length === 0 && !mould.verdict && !isNew) return null;
  const untried = trials.filter((what) => isOfUse(mould, what) && !shots.some(isOf(what)));
  return (
    <Sheet title="On trial">
      {trials.map((what) => {
        const of = shots.filter(isOf(what));
        return of.length > 0 && <p key={what}>{foundWords(what, of)}</p>;
      })}
      {untried.length > 0 && <p>Not tried yet: {untried.map((what) => asks[what]).join(', ')}.</p>}
      {shots.length === 0 && <p>At the table: press Table, the mould, then Trial.</p>}
      <TrialShots shots={shots.toReversed().slice(0, shown)} />
      {shots.length > shown && <p>{shots.length - shown} earlier ones are in the log.</p>}
      <Verdict mould={mould} />
    </Sheet>
  );
}

function TrialShots({ shots }: { shots: readonly TrialShot[] }) {
  const { clock } = useShop();
  if (shots.length === 0) return null;
  return (
    <div class={styles.wrap}>
      {shots.map(({ sessionId, startedAt, zone, number, what, did, isCold }) => (
        <ActKey
          key={`${sessionId} ${number} ${what}`}
          href={hrefTo({ at: 'session', sessionId })}
          small={`${dateWords(dayOf(startedAt, zone), dayOf(clock.now(), zone))}, shot ${number}${isCold ? ', cold' : ''}`}
        >
          {trialWords[what][did ? 0 : 1]}
        </ActKey>
      ))}
    </div>
  );
}

/** What the person makes of it; a press on the same word takes it back. */
function Verdict({ mould }: { mould: Mould }) {
  const { book, clock } = useShop();
  const { act, trouble } = useOneAct();
  return (
    <>
      <p>
        <b>Your verdict</b>
      </p>
      <Acts label="Your verdict">
        {verdicts.map(([verdict, word]) => (
          <ActKey
            key={verdict}
            isPressed={mould.verdict === verdict}
            onPress={() =>
              void act(async () => {
                const next = mould.verdict === verdict ? null : verdict;
                await changeHead(book, 'moulds', mould.id, { verdict: next }, clock.now());
                return null;
              }, verdict)
            }
          >
            {word}
          </ActKey>
        ))}
      </Acts>
      <Refusal says={trouble} />
    </>
  );
}

const asks: Record<Trial, string> = {
  fills: 'does it fill',
  even: 'do two colours come even',
  parts: 'does it take its parts',
};

const found: Record<Trial, string> = {
  fills: 'Filled well',
  even: 'Came even',
  parts: 'Took its parts',
};

/** `Filled well in 2 of 3 shots. Cold among them: 1.` */
function foundWords(what: Trial, shots: readonly TrialShot[]): string {
  const did = shots.filter((shot) => shot.did).length;
  const cold = shots.filter(({ isCold }) => isCold).length;
  const of = `${did} of ${shots.length} ${shots.length === 1 ? 'shot' : 'shots'}`;
  return `${found[what]} in ${of}.${cold > 0 ? ` Cold among them: ${cold}.` : ''}`;
}

/** Only a mould that takes parts can be asked whether it does. */
function isOfUse({ needs = [] }: Mould, what: Trial): boolean {
  return what !== 'parts' || needs.length > 0;
}

function isOf(what: Trial) {
  return (shot: TrialShot) => shot.what === what;
}
