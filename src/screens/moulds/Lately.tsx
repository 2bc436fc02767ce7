import { useState } from 'preact/hooks';
import { dayOf } from '#calc/days.ts';
import { driftRuns, type MouldDrift, mouldDrift, type NormalFrom } from '#calc/mould-drift.ts';
import type { LoggedShot } from '#calc/mould-shots.ts';
import { useShop } from '#live/shop.ts';
import { useWorked } from '#live/use-worked.ts';
import { countWords, dateWords } from '#screens/words.ts';
import { ofWords } from '#screens/yield-words.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Acts } from '#ui/Acts.tsx';
import { Fold } from '#ui/Fold.tsx';
import { RunChart } from '#ui/RunChart.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import { TwinTable } from '#ui/TwinTable.tsx';

interface Props {
  shots: readonly LoggedShot[];
  /** When something was done to the mould last. */
  lastDoneAt: number;
}

/** Whether the mould runs as usual lately. */
export function Lately({ shots, lastDoneAt }: Props) {
  const [from, setFrom] = useState<NormalFrom>('before');
  const found = useWorked(() => mouldDrift(shots, lastDoneAt, from), [shots, lastDoneAt, from]);
  if (!found || shots.length === 0) return null;
  return (
    <Sheet title="Lately">
      {found.kind === 'watched' ? <Watched found={found} /> : <p>{noNormalWords(found)}</p>}
      <Fold says="What is normal">
        {found.kind === 'watched' && <NormalWords found={found} />}
        <p>Normal is taken from:</p>
        <Acts label="Normal is taken from">
          <ActKey isPressed={from === 'before'} onPress={() => setFrom('before')}>
            Shots before these
          </ActKey>
          <ActKey isPressed={from === 'first'} onPress={() => setFrom('first')}>
            The first 30
          </ActKey>
        </Acts>
      </Fold>
    </Sheet>
  );
}

type Watch = Extract<MouldDrift, { kind: 'watched' }>;

function NormalWords({ found: { normal, cavities, baseShots } }: { found: Watch }) {
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

function Watched({ found }: { found: Watch }) {
  const { clock } = useShop();
  const { normal, watched, drift, cavities } = found;
  const usual = Math.round(normal.p0 * 100);
  const spread = Math.max(1, 1 + (cavities - 1) * normal.rho);
  const reach = 3 * Math.sqrt((spread * normal.p0 * (1 - normal.p0)) / cavities);
  const since = drift.kind === 'as-usual' ? null : drift.sinceShot + 1;
  const day = (at: number) => dateWords(dayOf(at, clock.zone()), dayOf(clock.now(), clock.zone()));
  const shares = watched.map(({ bad, of }) => (100 * bad) / Math.max(1, of));
  const sum = (of: 'bad' | 'of') => watched.reduce((all, shot) => all + shot[of], 0);
  const sinceAt = since === null ? 0 : (watched[since - 1]?.filledAt ?? 0);
  return (
    <>
      <RunChart
        values={shares}
        centre={normal.p0 * 100}
        upper={Math.min(1, normal.p0 + reach) * 100}
        sinceShot={since}
        across={`last ${countWords(watched.length, 'warm shot')}`}
        label={`Bad of 100 in the last ${countWords(watched.length, 'warm shot')}, normally ${usual}`}
      />
      <p>
        {drift.kind === 'as-usual' ? (
          <>
            <b>Running as usual.</b> {hundred(sum('bad'), sum('of'))} bad lately, normally {usual}{' '}
            of 100.
          </>
        ) : (
          <>
            <b>
              Something changed around shot {since}, {day(sinceAt)}.
            </b>{' '}
            {hundred(drift.failures, drift.total)} bad since then,{' '}
            {drift.kind === 'above' ? 'more' : 'fewer'} than the normal {usual} of 100.
          </>
        )}
      </p>
      <TwinTable
        heads={['Shot', 'Day', 'Bad', 'Looked at']}
        rows={watched.map(({ filledAt, bad, of }, index) => [index + 1, day(filledAt), bad, of])}
      />
    </>
  );
}

function noNormalWords({ baseline }: Extract<MouldDrift, { kind: 'no-normal' }>): string {
  const { kind, shots, failures, needed, goodBeforeFirst } = baseline;
  if (kind === 'too-few-shots') {
    return `Too early to know what is normal: ${shots} of ${needed} warm shots.`;
  }
  if (failures === 0)
    return `Nothing bad in ${goodBeforeFirst} so far: no normal to hold shots against.`;
  return `Too few bad ones to know what is normal: ${failures} of ${needed} in ${shots} shots.`;
}

/** To what a person keeps in mind: two figures. */
function rounded(shots: number): number {
  const step = 10 ** Math.max(0, Math.floor(Math.log10(shots)) - 1);
  return Math.round(shots / step) * step;
}

/** `11 of 100 (35 of 320)`: what two shares are held against, with the count behind it. */
function hundred(bad: number, of: number): string {
  return `${Math.round((100 * bad) / Math.max(1, of))} of 100 (${ofWords(bad, of)})`;
}
